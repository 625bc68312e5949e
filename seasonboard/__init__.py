"""A terminal board linking custom-fit guards to availability, games played and injuries."""

__version__ = "0.1.0"
