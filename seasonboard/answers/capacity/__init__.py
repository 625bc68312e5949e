"""Which prints go first, and is there room for all of them?"""
