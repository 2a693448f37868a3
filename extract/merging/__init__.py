"""Two versions of a record that come from one: put together so that no edit of a person is lost."""

from extract.merging.align import align
from extract.merging.pairing import paired
from extract.merging.records import merge

__all__ = ["align", "merge", "paired"]
