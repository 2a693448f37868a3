"""How many pieces there are: bare numbers, groups, what is there once for each."""
