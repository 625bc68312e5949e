"""Statistics: pure functions from numbers to frozen dataclasses. No frames, files or screens."""
