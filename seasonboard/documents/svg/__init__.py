"""Pictures of documents: plain numbers in, SVG text out."""
