"""The Log: attendance, and the menu of all that can be written down."""
