"""What came back, and why?"""
