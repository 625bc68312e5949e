"""The page for a new department."""
