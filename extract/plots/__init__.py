"""A tally as plots, the way an engineer would draw them, on a page for a browser or a printer."""
