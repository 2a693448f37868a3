"""What is taken back: at once, later, or by two speakers who settle on a figure."""
