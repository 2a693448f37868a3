"""Captions that roll: each repeats the last line or lines of the one before and adds to them."""

from itertools import pairwise

from extract.narration.words import Said

_SURE = 3
"""Words that agree by chance in two captions are fewer."""

_MOST = 60
"""Words that a caption has above its last line are fewer."""


def read_once(cues: list[Said]) -> list[Said]:
    """The cues without what they repeat, if the file is one that rolls.

    It rolls if at least a third of its cues repeat the end of the one before: people repeat
    themselves, but not that often.
    """
    repeats = [_repeated(before, cue) for before, cue in pairwise(cues)]
    if 3 * sum(count > 0 for count in repeats) < max(1, len(repeats)):
        return cues
    kept = cues[:1]
    for cue, count in zip(cues[1:], repeats, strict=True):
        if count < len(cue.words):
            kept.append(cue.without(count))
        elif kept[-1].until is not None and cue.until is not None:
            kept[-1].until = max(kept[-1].until, cue.until)
    return kept


def _repeated(before: Said, cue: Said) -> int:
    """How many words at the head of `cue` repeat the end of `before`: whole lines, or so many
    that it is no chance."""
    if before.speaker != cue.speaker:
        return 0
    if cue.words[: len(before.words)] == before.words:
        return len(before.words)
    for count in range(min(len(before.words), len(cue.words), _MOST), 0, -1):
        if cue.words[count - 1] == before.words[-1] and cue.words[:count] == before.words[-count:]:
            whole = count in (cue.first_line, len(cue.words))
            return count if whole or count >= _SURE else 0
    return 0
