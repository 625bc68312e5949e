"""Pictures on character cells that several pages share."""
