"""Bundles: what is new in one store, as one file that another store loads."""
