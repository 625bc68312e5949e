"""The command line: the same answers as text, JSON and CSV."""
