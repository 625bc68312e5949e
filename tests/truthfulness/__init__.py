"""Are the intervals of the board as truthful as they say? Seasons with a known truth decide."""
