"""What changed this week, and what must be decided?"""
