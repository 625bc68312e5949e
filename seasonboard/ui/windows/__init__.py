"""Windows that open over a screen."""
