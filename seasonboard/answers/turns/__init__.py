"""Whose guard comes first? Turns that were drawn at random."""
