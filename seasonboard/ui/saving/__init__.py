"""Copying and saving what a screen shows."""
