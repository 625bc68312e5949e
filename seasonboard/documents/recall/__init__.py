"""The recall sheet, for insiders."""
