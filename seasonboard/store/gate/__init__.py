"""The one way by which foreign files come in: measured first, read apart, within limits."""
