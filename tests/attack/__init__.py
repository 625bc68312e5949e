"""Releases of random stores, read by one who wants the small counts."""
