"""Correct a record in the browser: one local page, every edit on disk at once.

`edits` names what a person can do, `apply` does it to a record as pure functions, `document` keeps
the history of one file and writes it, `app` serves page and JSON to this machine alone.
"""
