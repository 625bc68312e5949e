"""What is on its way, and will it be there in time?"""
