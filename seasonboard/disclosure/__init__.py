"""What may be shown to outsiders: small counts hidden, and what could be worked out from the rest."""
