"""How long a test waits for what must come: the machine may be slow and busy."""

PATIENCE = 120.0
"""Seconds after which it counts as missing; only a test that fails waits so long."""
