"""Commands of their own file: each parses its arguments, calls one function, and prints."""
