"""SubRip and WebVTT: a line of two times, then what is said, up to the next such line.

Both are read here and not by a general subtitle library because of what those drop: a figure
that stands alone on the last line of a caption (taken for the number of the next one), the
speaker of a `<v>` tag, and the times between words.
"""

import re
from collections.abc import Iterator

from extract.narration.clock import CLOCK, clock_ms
from extract.narration.transcript import RawCue, Transcript

_TIMES = re.compile(rf"^[ \t]*{CLOCK}[ \t]*-{{1,2}}>[ \t]*{CLOCK}(?:[ \t].*)?$", re.MULTILINE)
_NUMBER = re.compile(r"\n(?P<gap>[ \t]*\n)?[ \t]*(?P<number>\d{1,7})[ \t]*\n\Z")
_IDENTIFIER = re.compile(r"\n[ \t]*\n[^\n]+\n\Z")
_ASIDE = re.compile(r"(?<=\n\n)(?:NOTE|STYLE|REGION)\b.*(?:\n.+)*")
_TITLE = re.compile(r"WEBVTT[ \t]+-+[ \t]+(.+)")

_TAG = re.compile(r"</?[A-Za-z][\w.:-]*(?:\s[^<>]*)?/?>|\{\\[^{}]*\}")
_BREAK = re.compile(r"\\[Nnh]|<br\s*/?>")
_VOICE = re.compile(r"<v(?:\.[\w.-]+)?\s++([^<>]+)>")
_MOMENT = re.compile(rf"<{CLOCK}>")


def is_webvtt(text: str) -> bool:
    return re.match(r"\s*WEBVTT\b", text) is not None


def is_subrip(text: str) -> bool:
    return _TIMES.search(text) is not None


def read_subrip(text: str, name: str) -> Transcript:
    """The captions of a SubRip file."""
    bodies = _bodies(text)
    return Transcript(
        [
            _cue(match, plain(_without_number(body, place) if above_next else body))
            for place, (match, body, above_next) in enumerate(bodies)
        ]
    )


def read_webvtt(text: str, name: str) -> Transcript:
    """The captions of a WebVTT file, with speakers and with times between words."""
    title = _TITLE.match(text.lstrip())
    cues = [
        _webvtt_cue(match, _IDENTIFIER.sub("", body) if above_next else body)
        for match, body, above_next in _bodies(_ASIDE.sub("", text))
    ]
    return Transcript(cues, title[1].strip() if title else None)


def plain(text: str) -> str:
    """Caption text without tags and styling, its entities read."""
    if "<" in text or "\\" in text:
        text = _TAG.sub("", _BREAK.sub("\n", text))
    if "&" in text:
        from html import unescape  # rarely needed, so not loaded with the module

        text = unescape(text)
    return text


def _bodies(text: str) -> Iterator[tuple[re.Match[str], str, bool]]:
    """Each line of times, all that stands below it, and whether another one follows, whose
    number or identifier is then the last line."""
    matches = list(_TIMES.finditer(text))
    ends = [match.start() for match in matches[1:]]
    for match, end in zip(matches, ends, strict=False):
        yield match, text[match.end() : end], True
    if matches:
        yield matches[-1], text[matches[-1].end() :], False


def _without_number(body: str, place: int) -> str:
    """The body of the caption at `place`, from 0, without the number of the next caption.

    A number has a blank line above it. Where that is missing, a figure on the last line is a
    number only if it counts on, from 0 or from 1: else somebody said it.
    """
    below = _NUMBER.search(body)
    if below is None or (below["gap"] is None and int(below["number"]) - place not in (1, 2)):
        return body
    return body[: below.start()]


def _cue(match: re.Match[str], text: str) -> RawCue:
    begin, end = match.groups()[:4], match.groups()[4:]
    return RawCue(text, clock_ms(*begin), clock_ms(*end))


def _webvtt_cue(match: re.Match[str], body: str) -> RawCue:
    if "<" not in body:
        return _cue(match, plain(body))
    voice = _VOICE.search(body)
    cue = _cue(match, "")
    cue.speaker = voice[1].strip() if voice else None
    last = 0
    for moment in _MOMENT.finditer(body):
        cue.text += plain(body[last : moment.start()])
        cue.marks.append((len(cue.text), clock_ms(*moment.groups())))
        last = moment.end()
    cue.text += plain(body[last:])
    return cue
