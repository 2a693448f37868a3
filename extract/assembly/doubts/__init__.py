"""What stays in doubt of what was heard: each hangs as a note on the fact that it is about."""
