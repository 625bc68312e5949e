"""What outsiders may see: small counts hidden, with all that they could be worked out from."""
