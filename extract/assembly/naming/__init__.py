"""Which part a phrase speaks of: phrases, and whether they open a part, recall one, or none."""
