"""The forms in which a record is handed on, each with the suffix of its file."""

from __future__ import annotations

from collections.abc import Callable

from extract.record.model import Record


def _csv(record: Record) -> bytes:
    from extract.publishing.tables import to_csv

    return to_csv(record)


def _xlsx(record: Record) -> bytes:
    from extract.publishing.tables import to_xlsx

    return to_xlsx(record)


def _cyclonedx(record: Record) -> bytes:
    from extract.publishing.cyclonedx import to_cyclonedx

    return to_cyclonedx(record)


def _markdown(record: Record) -> bytes:
    from extract.publishing.markdown import tables

    return tables(record).encode()


FORMS: dict[str, tuple[str, Callable[[Record], bytes]]] = {
    "csv": (".csv", _csv),
    "xlsx": (".xlsx", _xlsx),
    "cyclonedx": (".cdx.json", _cyclonedx),
    "markdown": (".md", _markdown),
}


def export(record: Record, form: str) -> bytes:
    """The content of a file of this form: csv, xlsx, cyclonedx or markdown."""
    return FORMS[form][1](record)
