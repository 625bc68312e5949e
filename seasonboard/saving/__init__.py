"""Files of what a screen shows: tables, pictures and pages, with a note on what they are."""
