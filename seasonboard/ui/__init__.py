"""The board: screens over the answers, in a terminal."""
