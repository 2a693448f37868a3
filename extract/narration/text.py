"""Text with stamps at the heads of lines, and plain text.

    # Teardown of a kettle base          a heading: the title, said by nobody
    [0:15] Ana: here is the fuse,        a stamp, the speaker
    3.15 amps                            goes on with the stamp above
    - **Ben (0:22):** and the relay      bullets, bold type, a name before the stamp

Stamps are `[m:ss]`, `(h:mm:ss)`, `[hh:mm:ss.mmm]`, `00:01:23`, also from stamp to stamp. A file
has its stamps in brackets or bare, so that "1:10 is the ratio" at a line's head stays text where
the stamps have brackets.
"""

import re

from extract.narration.clock import CLOCK, clock_ms
from extract.narration.speakers import NAME, is_title, turn
from extract.narration.transcript import RawCue, Transcript

_STAMP = re.compile(
    rf"""
    [ \t]*+ (?:(?:[-*•>]|\#{{1,6}}|\d{{1,3}}[.)])[ \t]++)*  # bullets, heading marks, list numbers
    (?:\*\*|__)? [ \t]*+
    (?:(?P<name>{NAME})(?:\*\*|__)?[ ]?[:,|–-]?[ \t]++)?
    (?P<bracket>[\[(])? {CLOCK} (?:[:;]\d\d)?                # frames, as cutting tables have them
    (?:[ \t]*(?:-{{1,2}}>|[-–—])[ \t]*{CLOCK})?
    (?(bracket)[ \t]*[\])]|(?![\w.:%°/]))
    (?:\*\*|__)? (?:[ \t]*:(?=[\s*]|$)|[ \t]+[-–—|](?=\s))? (?:\*\*|__)?
    """,
    re.VERBOSE,
)
_HEADING = re.compile(r"[ \t]*#{1,6}[ \t]+(.*)")
_BULLET = re.compile(r"[ \t]*[-*•>][ \t]+")
_RULE = re.compile(r"[ \t]*[-=*_]{3,}[ \t]*$")
_BOLD = re.compile(r"\*\*|__|`")
_TITLE = 30  # characters that the title of a speaker has at most


def is_stamped(text: str) -> bool:
    """Stamps in brackets, or bare ones at the first line or at two lines at least."""
    return _stamps_in_brackets(text) is not None


def read_text(text: str, name: str) -> Transcript:
    """The stamped lines of a text, each with the lines after it; the paragraphs of a plain one."""
    in_brackets = _stamps_in_brackets(text)
    transcript = Transcript([])
    cues = transcript.cues
    parted = True
    for line in text.split("\n"):
        stamp = _stamp(line)
        if not line.strip() or _RULE.match(line):
            parted = True
        elif stamp and bool(stamp["bracket"]) is in_brackets:
            cues.append(_stamped(stamp, line))
        elif heading := _HEADING.match(line):
            transcript.title = transcript.title or _BOLD.sub("", heading[1].rstrip(" \t#"))
            parted = True
        else:
            _go_on(cues, line, parted)
            parted = False
    return transcript


def _stamp(line: str) -> re.Match[str] | None:
    stamp = _STAMP.match(line)
    if stamp is None or stamp["name"] is None:
        return stamp
    is_name = all(word[0].isupper() or word[0].isdigit() for word in stamp["name"].split())
    alone = stamp["bracket"] is not None or not line[stamp.end() :].strip()
    return stamp if is_name and alone else None


def _stamps_in_brackets(text: str) -> bool | None:
    """Whether the stamps of a text stand in brackets; None if it has no stamps."""
    lines = [line for line in text.split("\n") if line.strip()]
    found = [
        (place, bool(stamp["bracket"]))
        for place, line in enumerate(lines)
        if (stamp := _stamp(line))
    ]
    bracketed = sum(in_brackets for _, in_brackets in found)
    bare = len(found) - bracketed
    first = next((place for place, line in enumerate(lines) if not _HEADING.match(line)), 0)
    if bracketed and bracketed >= bare:
        return True
    return False if bare >= 2 or (first, False) in found else None


def _stamped(stamp: re.Match[str], line: str) -> RawCue:
    times = stamp.groups()[2:]
    until = clock_ms(*times[4:]) if times[5] else None
    cue = RawCue(_without_bold(line[stamp.end() :]), clock_ms(*times[:4]), until, stamp["name"])
    if len(cue.text) < _TITLE and is_title(cue.text):  # its words stand in the next lines
        cue.speaker, cue.text = cue.text.strip(), ""
    return cue


def _go_on(cues: list[RawCue], line: str, parted: bool) -> None:
    """Add a line that has no stamp: to the cue above, or as a cue of its own with the same time
    where another speaker begins; in text without times also where a paragraph begins."""
    bullet = _BULLET.match(line)
    said = _without_bold(line[bullet.end() :] if bullet else line)
    at = cues[-1].at if cues else None
    if not cues or turn(said) or (at is None and (parted or bullet)):
        cues.append(RawCue(said, at))
    else:
        cues[-1].text += "\n" + said


def _without_bold(line: str) -> str:
    """The line without bold marks, but for those of what may be the name of a speaker."""
    name = turn(line)
    head = name.end() if name else 0
    return line[:head] + _BOLD.sub("", line[head:])
