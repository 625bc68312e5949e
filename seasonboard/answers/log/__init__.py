"""What is written down, and what is proposed for it."""
