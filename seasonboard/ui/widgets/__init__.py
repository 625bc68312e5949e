"""Widgets that the screens share."""
