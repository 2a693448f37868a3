"""TTML: timed text in XML. Names are read without their namespaces, as dialects differ in them.

Read here and not by a general subtitle library because that knows neither `dur`, nor frames and
ticks, nor who speaks, nor spans with times of their own, all of which exports contain.
"""

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from extract.errors import NarrationError
from extract.narration.clock import written_ms
from extract.narration.transcript import RawCue, Transcript

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_ROOT = re.compile(r"<(?:[\w.-]+:)?tt[\s>]")
_FRAMES = re.compile(r"(\d{1,3}:\d\d:\d\d):(\d{1,4})")
_COUNT = re.compile(r"(\d{1,15}(?:\.\d+)?)([ft])")


def is_ttml(text: str) -> bool:
    return text.lstrip().startswith("<") and _ROOT.search(text, 0, 4096) is not None


def read_ttml(text: str, name: str) -> Transcript:
    """The paragraphs of a TTML file; raises NarrationError if the XML is broken."""
    from xml.etree import ElementTree  # only this format needs it

    if "<!ENTITY" in text:
        raise NarrationError(name, "it declares XML entities, which captions do not need")
    try:
        root = ElementTree.fromstring(text.lstrip())
    except ElementTree.ParseError as error:
        line, column = error.position
        what = "the XML is broken or breaks off here"
        raise NarrationError(name, what, "export it again", line, column + 1) from None
    return _Reader(root).transcript()


def _local(name: str) -> str:
    return name.rpartition("}")[2]


def _attribute(element: "Element", name: str) -> str:
    return next((value for key, value in element.items() if _local(key) == name), "").strip()


def _named(root: "Element", name: str) -> Iterator["Element"]:
    return (element for element in root.iter() if _local(element.tag) == name)


class _Reader:
    """One document: walks down it with the time that the times of the children count from."""

    def __init__(self, root: "Element") -> None:
        self.root = root
        self.rates = {"f": self._rate("frameRate", 30.0), "t": self._rate("tickRate", 1.0)}
        self.agents = {
            _attribute(agent, "id"): "".join(agent.itertext()).strip()
            for agent in _named(root, "agent")
        }
        self.cues: list[RawCue] = []

    def transcript(self) -> Transcript:
        for body in _named(self.root, "body"):
            self._walk(body, None)
        titles = (
            " ".join("".join(title.itertext()).split()) for title in _named(self.root, "title")
        )
        return Transcript(self.cues, next(titles, None) or None)

    def _rate(self, name: str, default: float) -> float:
        written = _attribute(self.root, name)
        return float(written) if re.fullmatch(r"[1-9]\d{0,9}", written) else default

    def _ms(self, written: str) -> int | None:
        """Milliseconds of a clock time, a number with a unit, frames or ticks."""
        if frames := _FRAMES.fullmatch(written):
            return self._whole(frames[1]) + round(int(frames[2]) * 1000 / self.rates["f"])
        if count := _COUNT.fullmatch(written):
            return round(float(count[1]) * 1000 / self.rates[count[2]])
        return self._whole(written) if written else None

    @staticmethod
    def _whole(written: str) -> int:
        read = written_ms(written) or 0
        return round(read * 1000) if isinstance(read, float) else read

    def _span(self, element: "Element", base: int | None) -> tuple[int | None, int | None]:
        """When an element begins and ends, by its times and the time its parent begins."""
        begin, end, length = (self._ms(_attribute(element, key)) for key in ("begin", "end", "dur"))
        at = base if begin is None else (base or 0) + begin
        if length is not None:
            return at, (at or 0) + length
        return at, None if end is None else (base or 0) + end

    def _walk(self, element: "Element", base: int | None) -> int | None:
        """Read what is below an element; gives the time it ends."""
        at, until = self._span(element, base)
        if _local(element.tag) == "p":
            self.cues.append(self._cue(element, at, until))
            return until
        one_after_another = _attribute(element, "timeContainer") == "seq"
        for child in element:
            end = self._walk(child, at)
            if one_after_another:
                at = end if end is not None else at
        return until if until is not None else at

    def _cue(self, element: "Element", at: int | None, until: int | None) -> RawCue:
        agent = _attribute(element, "agent")
        cue = RawCue("", at, until, self.agents.get(agent) or agent or None)
        self._gather(element, cue)
        if cue.marks:
            _from_the_start(cue)
        return cue

    def _gather(self, element: "Element", cue: RawCue) -> None:
        """Add the text of an element to the cue, and where its spans have times, those."""
        cue.text += re.sub(r"\s+", " ", element.text or "")
        for child in element:
            kind = _local(child.tag)
            if kind == "br":
                cue.text += "\n"
            elif kind == "span":
                begin = self._ms(_attribute(child, "begin"))
                if begin is not None:
                    cue.marks.append((len(cue.text), begin))
                self._gather(child, cue)
            cue.text += re.sub(r"\s+", " ", child.tail or "")


def _from_the_start(cue: RawCue) -> None:
    """Make the times of spans count from the start of the film.

    By the standard they count from their paragraph; many files have them from the start. Those
    would lie behind the end of the paragraph if they were read by the standard.
    """
    if cue.at is None:
        cue.at = cue.marks[0][1]
        return
    latest = max(ms for _, ms in cue.marks)
    absolute = cue.marks[0][1] >= cue.at and cue.at + latest > (cue.until or 0)
    if not absolute:
        cue.marks = [(character, cue.at + ms) for character, ms in cue.marks]
