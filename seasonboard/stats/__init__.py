"""Statistics: pure functions from numbers to frozen dataclasses. No frames, files or screens.

Wherever a function takes a `level`, it is the two-sided confidence level of its limits.
"""
