"""Figures for outsiders, released once and quoted everywhere."""
