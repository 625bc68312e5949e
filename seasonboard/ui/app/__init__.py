"""The app: what holds on every screen of the board."""
