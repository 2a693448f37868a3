"""Names of speakers in front of what they say: "Speaker 1:", "Ana:", "**Ben:**".

A label looks the same ("Output: 5 volts"), and to lose a label is worse than to keep a name.
So a name counts if it is the usual title of a speaker, or if it stands in front of several
cues (or in bold type, or where every cue has a name), is no known label, and is not an ordinary
word of the narration besides.
"""

import re
from collections import Counter
from collections.abc import Sequence

from extract.narration.transcript import RawCue
from extract.resources import load_yaml

_WORD = r"[^\W\d_][\w.'’-]*"
NAME = rf"{_WORD}(?:[ ](?:{_WORD}|\d+)){{0,2}}"
"""Up to three words."""

_TURN = re.compile(
    rf"\s*(?:>>\s*|[-–—]\s+)?(?:\*\*|__)?(?P<name>{NAME})(?:\*\*|__)?\s?:(?:\*\*|__)?(?=\s|$)"
)


def turn(text: str) -> re.Match[str] | None:
    """What may be the name of a speaker in front of `text`, with the colon."""
    found = _TURN.match(text)
    if found and all(word[0].isupper() or word[0].isdigit() for word in found["name"].split()):
        return found
    return None


def take_speakers_out(cues: Sequence[RawCue]) -> None:
    """Move the names in front of the cues' texts into their `speaker`."""
    turns = [(cue, found) for cue in cues if not cue.speaker and (found := turn(cue.text))]
    speakers = _speakers([found for _, found in turns], cues)
    for cue, found in turns:
        rest = cue.text[found.end() :]
        if found["name"] in speakers:
            cue.speaker = found["name"]
            cue.text = " " * found.end() + rest  # marks keep their places
        elif _is_bold(found):
            cue.text = f"{found['name']}:{rest}"


def _speakers(turns: Sequence[re.Match[str]], cues: Sequence[RawCue]) -> set[str]:
    if not turns:
        return set()
    counts = Counter(found["name"] for found in turns)
    bold = {found["name"] for found in turns if _is_bold(found)}
    all_named = len(turns) == len(cues) > 1 and not any(map(_is_label, counts))
    ordinary = {word for cue in cues for word in re.findall(r"[^\W\d_]+", cue.text)}

    def speaks(name: str) -> bool:
        if is_title(name):
            return True
        if _is_label(name) or not (counts[name] > 1 or name in bold or all_named):
            return False
        return counts[name] * 4 >= len(cues) or not ordinary.issuperset(_words(name))

    return {name for name in counts if speaks(name)}


def _is_bold(found: re.Match[str]) -> bool:
    return "**" in found.group() or "__" in found.group()


def _words(name: str) -> list[str]:
    return re.findall(r"[^\W\d_]+|\d+", name.lower())


def is_title(name: str) -> bool:
    """ "Narrator", "Speaker 1", "SPEAKER_00"; but a bare "Speaker" may be a part."""
    words = _words(name)
    numbered = len(words) > 1 and (words[-1].isdigit() or len(words[-1]) == 1)
    title = " ".join(words[:-1] if numbered else words)
    known = load_yaml("speakers.yaml")
    return title in known["titles"] or (numbered and title in known["numbered_titles"])


def _is_label(name: str) -> bool:
    return not set(load_yaml("speakers.yaml")["labels"]).isdisjoint(_words(name))
