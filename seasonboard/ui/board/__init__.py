"""What every screen of the board shares."""
