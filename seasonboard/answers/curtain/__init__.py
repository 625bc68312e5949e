"""Covers names before others look."""
