"""What may be said, and what may not."""
