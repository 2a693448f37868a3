"""The rules, by idea: each is a small function; extract/plausibility/table.py lists them all."""
