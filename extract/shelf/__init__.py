"""The records of a folder as tidy tables, read through an index that only reads what changed."""

from extract.shelf.index import Update
from extract.shelf.shelf import Frames, Shelf, open_shelf, to_frames

__all__ = ["Frames", "Shelf", "Update", "open_shelf", "to_frames"]
