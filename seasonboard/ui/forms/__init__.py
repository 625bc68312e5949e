"""Typing records in on the board: forms, files, and decisions in a meeting."""
