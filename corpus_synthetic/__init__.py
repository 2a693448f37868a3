"""Invented teardowns: narrations with gold records, four by hand and any number by generator."""
