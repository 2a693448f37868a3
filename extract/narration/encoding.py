"""Bytes to text: UTF-8, UTF-16 and UTF-32, with or without a mark, and Windows-1252."""

import codecs
import re

_MARKS = (  # the marks of UTF-32 begin like those of UTF-16 and come first
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
_UNSEEN = re.compile("[\ufeff\u200b\u200e\u200f\u2060\u00ad]")
_UTF8_LEADS = re.compile(rb"[\xc2-\xf4]")
_CONTROLS = re.compile(r"[\x00-\x08\x0e-\x1f\x7f]")
_MOST_CONTROLS = 0.01  # of all characters; copying out of documents leaves a few in a text


def decode(data: bytes) -> str | None:
    """The text of a file, line ends as "\\n", characters without width left out; None if it is
    no text."""
    readings = (read(data) for read in (_as_marked, _as_utf16, _as_utf8, _as_windows))
    text = next((text for text in readings if text is not None), None)
    if text is None or "\0" in text:
        return None
    text, controls = _CONTROLS.subn(" ", text)
    if controls > _MOST_CONTROLS * len(text):
        return None
    if not text.isascii():
        text = _UNSEEN.sub("", text)
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _as_marked(data: bytes) -> str | None:
    for mark, name in _MARKS:
        if data.startswith(mark):
            return data[len(mark) :].decode(name, errors="replace")
    return None


def _as_utf16(data: bytes) -> str | None:
    """UTF-16 without a mark: in Latin text every second byte is zero."""
    sample = data[:2048]
    half = len(sample) // 2
    first, second = sample[0::2].count(0), sample[1::2].count(0)
    if half and second > 0.7 * half and not first:
        return data.decode("utf-16-le", errors="replace")
    if half and first > 0.7 * half and not second:
        return data.decode("utf-16-be", errors="replace")
    return None


def _as_utf8(data: bytes) -> str | None:
    """UTF-8, also with a few broken bytes, as a file has that was cut inside a letter."""
    text = data.decode("utf-8", errors="replace")
    broken = text.count("\ufffd")
    if not broken:
        return text
    whole = len(_UTF8_LEADS.findall(data)) - broken
    return text if whole >= broken else None


def _as_windows(data: bytes) -> str | None:
    try:
        return data.decode("cp1252")
    except UnicodeDecodeError:  # five bytes stand for nothing in it
        return None
