"""Stills of a recording at given moments, as JPEG, together no larger than a page may be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import av

from extract.errors import FileProblem

BUDGET = 6_500_000  # bytes of all stills; as base64 text a third more
# Width in pixels and the coarseness of the JPEG, from 2 (fine) to 31, the best first.
SIZES = ((480, 5), (400, 7), (320, 8), (240, 10), (160, 12), (120, 18))
_LEAP = 4  # seconds ahead from which on seeking costs less than decoding
_LATE = 2  # seconds by which the last frame may precede a moment that it still shows
_TYPICAL = 0.09  # bytes a pixel of a still of a workbench


def stills(recording: Path, moments: Iterable[int]) -> dict[int, bytes]:
    """The picture at each moment in milliseconds; none if it has no video, or is shorter.

    FileProblem if it cannot be read. If even small pictures are too large, the last are left out.
    """
    wanted = sorted(set(moments))
    try:
        with av.open(str(recording)) as container:
            if not container.streams.video or not wanted:
                return {}
            _hurry(container.streams.video[0])
            return _within_budget(container, wanted)
    except (av.FFmpegError, OSError, ValueError) as error:
        what = f"cannot be read as a recording: {error}"
        raise FileProblem(str(recording), what, "the report has no stills") from None


def _hurry(stream: Any) -> None:
    """Decode with all cores, and no frame that no other is built on: a still may be one late."""
    stream.thread_type = "AUTO"
    stream.codec_context.skip_frame = "NONREF"


def _within_budget(container: Any, wanted: list[int]) -> dict[int, bytes]:
    found: dict[int, bytes] = {}
    for width, coarseness in SIZES:
        if len(wanted) * width * width * 9 / 16 * _TYPICAL > BUDGET and width != SIZES[-1][0]:
            continue
        found, size = {}, 0
        for moment, frame in _frames(container, wanted):
            picture = _jpeg(frame, width, coarseness)
            size += len(picture)
            if size > BUDGET:
                break
            found[moment] = picture
        else:
            return found
    return found


def _frames(container: Any, wanted: list[int]) -> Iterator[tuple[int, Any]]:
    """The frame that is shown at each moment; the moments are in order."""
    stream = container.streams.video[0]
    shown, coming = None, None
    frames: Iterator[Any] = iter(())
    for moment in wanted:
        seconds = Fraction(moment, 1000)
        if shown is None or seconds - _time(shown, stream) > _LEAP:
            container.seek(int(seconds / stream.time_base), stream=stream)
            frames, shown, coming = container.decode(stream), None, None
        coming = coming or next(frames, None)
        while coming is not None and (shown is None or _time(coming, stream) <= seconds):
            shown, coming = coming, next(frames, None)
        if shown is not None and seconds - _time(shown, stream) < _LATE:
            yield moment, shown


def _time(frame: Any, stream: Any) -> Fraction:
    base: Fraction = stream.time_base
    return (frame.pts or 0) * base


def _jpeg(frame: Any, width: int, coarseness: int) -> bytes:
    width = min(width, frame.width) // 2 * 2 or 2
    height = round(frame.height * width / frame.width / 2) * 2 or 2
    codec: Any = av.CodecContext.create("mjpeg", "w")
    codec.width, codec.height, codec.pix_fmt = width, height, "yuvj420p"
    codec.time_base = Fraction(1, 25)
    codec.qmin = codec.qmax = coarseness
    scaled = frame.reformat(width, height, "yuvj420p")
    scaled.pts = 0
    packets = [*codec.encode(scaled), *codec.encode(None)]
    return b"".join(bytes(packet) for packet in packets)
