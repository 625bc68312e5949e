"""Help by topic: Markdown files in this folder, read on the command line and under `?`."""
