"""Prints by week against the plan."""
