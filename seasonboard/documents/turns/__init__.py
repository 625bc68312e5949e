"""The list of drawn turns, for the shop."""
