"""Circuit building blocks: each puts a group of parts with fitting values on the bench."""
