"""What many teardowns have in common: counts, shares, usual values, comparisons, plots."""
