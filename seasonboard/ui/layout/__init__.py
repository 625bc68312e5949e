"""What pages are made of: blocks, columns, tables, and text that fits."""
