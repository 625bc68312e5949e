"""Who wears what was made alike?"""
