"""The sheet for the weekly meeting."""
