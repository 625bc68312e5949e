"""Week: what changed this week, and what must be decided?"""
