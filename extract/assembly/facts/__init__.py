"""What is said of a part, and what of no part: figures, roles, facts of other parts."""
