"""How one part is put into words: its noun, what stands before it, behind it and after it."""

import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from random import Random
from typing import Any

from corpus_synthetic.model import Amount, Part
from corpus_synthetic.numerals import FIGURE_WORDS
from corpus_synthetic.slips import slip_of
from corpus_synthetic.speaker import Speaker, article, talk, wording
from corpus_synthetic.story import Correction, Line
from corpus_synthetic.templates import expand, names_in

NAMES = ("maker", "part_number", "package", "colour")
_NO_COMMA = re.compile(
    r"(of|with|in|from|made|rated|good|marked|for|on|at|that|which|across|as|to|between|against|by"
    r"|doing|filtering|sitting|driving) "
)
_TOGETHER = (("length", "width"), ("diameter", "height"))


_HEADS = (
    ("It", "It", "It", "It", "This one", "That one", "This"),
    ("They", "They", "They", "These", "Those", "These"),
)
_NUMBER = {
    "it": ("it", "they"),
    "its": ("its", "their"),
    "Its": ("Its", "Their"),
    "is": ("is", "are"),
    "has": ("has", "have"),
    "s": ("s", ""),
    "es": ("es", ""),
    "ies": ("ies", "y"),
    "one": ("one", "ones"),
    "this": ("this one", "these"),
    "That's": ("That's", "Those are"),
    "that's": ("that's", "those are"),
}


@dataclass(slots=True)
class Phrase:
    """A part on its way to be said: its gold line and the pieces of its words."""

    part: Part
    line: Line
    noun: str
    before: list[str] = field(default_factory=list)
    behind: list[str] = field(default_factory=list)  # names of facts
    purpose_before: str = ""  # "inrush" right before the noun
    purpose: str = ""  # words behind the noun
    front: str = ""  # words that open the sentence
    after: list[str] = field(default_factory=list)  # sentences
    extras: list[str] = field(default_factory=list)  # further pieces behind the noun
    lead: str = ""  # the value that the words before the noun begin with
    spoken: int = 1  # how many the words speak of; "each has its own fuse" speaks of one

    @property
    def many(self) -> bool:
        return self.spoken > 1


def grammar(many: bool, rng: Random) -> dict[str, str]:
    """What the templates fill in for number."""
    return {name: pair[many] for name, pair in _NUMBER.items()} | {"It": rng.choice(_HEADS[many])}


class Phraser:
    """Puts the parts of one device into the words of one speaker."""

    def __init__(self, speaker: Speaker) -> None:
        self.speaker = speaker
        self.rng = speaker.rng
        self.slips = 0.0  # how often a figure is said wrong and put right at once

    # ------------------------------------------------------------------ the whole

    def phrase(
        self,
        part: Part,
        *,
        opens: bool = True,
        may_follow: bool = False,
        skip: Collection[str] = (),
        spoken: int = 0,
    ) -> Phrase:
        """Chooses what is said of a part and where; `opens`: it opens a sentence, so that its
        purpose may stand first; `may_follow`: sentences about it may come after; `skip`: facts
        that are left for later; `spoken`: how many the words speak of, where that is not all."""
        kind, noun = self._noun(part)
        entry = wording()["kinds"][part.kind]
        line = Line(kind, role=entry.get("role", ""), count=part.count, board=part.board)
        if part.safety_class and re.match(r"X2|Y1|Y2|class X2", noun):
            line.safety_class = part.safety_class
        phrase = Phrase(part, line, noun, spoken=spoken or part.count)
        self._job(phrase, opens, may_follow)
        said = [name for name in self._worth_saying(part) if name not in skip]
        self._spread(phrase, said, may_follow)
        return phrase

    def _noun(self, part: Part) -> tuple[str, str]:
        """The kind that the noun gives, and the noun."""
        entry = wording()["kinds"][part.kind]
        vague = entry.get("vague")
        if vague and self.rng.random() < 0.06:
            kind = self.rng.choice(list(vague))
            return kind, self.rng.choice(vague[kind])
        if part.manner:
            noun = self.rng.choice(entry.get("manner", entry["nouns"]))
            return part.kind, f"{part.manner} {noun}".strip()
        noun = self.rng.choice(entry["nouns"])
        return part.kind, noun.replace("{class}", part.safety_class)

    def _job(self, phrase: Phrase, opens: bool, may_follow: bool) -> None:
        """Says what the part is there for, or not; the role follows from how it was said."""
        job = wording()["jobs"].get(phrase.part.job)
        if job is None or (not job.get("must") and self.rng.random() < 0.35):
            return
        allowed = ["pre", "post"] + ["front"] * opens + ["after"] * may_follow
        ways = [(way, slot) for way in job["ways"] for slot in allowed if slot in way]
        way, slot = self.rng.choice(ways)
        words = self.rng.choice(way[slot])
        role = way.get("role", "")
        if isinstance(role, Mapping):
            role = role.get(phrase.part.kind, role["else"])
        if role:
            phrase.line.role = role
        filled = expand(words, self.rng, grammar(phrase.many, self.rng))
        if slot == "pre":
            phrase.purpose_before = filled
        elif slot == "post":
            phrase.purpose = filled
        elif slot == "front":
            phrase.front = filled
        else:
            phrase.after.append(filled)

    def _worth_saying(self, part: Part) -> list[str]:
        """Names of the facts that are said of this part, the first value nearly always."""
        said = []
        for number, name in enumerate(part.values):
            likely = 0.93 if number == 0 else 0.75
            if name == "pin_count" and part.package:
                likely = 0.3
            if any(name == second for _, second in _TOGETHER) and name != "height":
                continue
            if self.rng.random() < likely:
                said.append(name)
        odds = {"maker": 0.9, "part_number": 0.85, "package": 0.8, "colour": 0.75}
        said += [n for n in NAMES if getattr(part, n) and self.rng.random() < odds[n]]
        if part.kind == "battery cell" and part.package and "package" not in said:
            said.append("package")
        for first, second in _TOGETHER:
            if first in said and second in part.values and second not in said:
                said.append(second)
            if second in said and first in part.values and first not in said:
                said.append(first)
        if "b_value" in said and "resistance" not in said:
            said.remove("b_value")
        return said

    # ------------------------------------------------------------------ the facts

    def _spread(self, phrase: Phrase, said: list[str], may_follow: bool) -> None:
        """Gives every fact its place: before the noun, behind it, or in a sentence after it."""
        speaker, rng = self.speaker, self.rng
        numeric = not (phrase.many and speaker.figures != "digits")
        room = 2
        for name in said:
            self.write_down(phrase, name)
            forms = self._forms(phrase.part, name)
            together = self._partner(name, said)
            if together == "second":
                continue
            if together == "first":
                phrase.behind += [name, dict(_TOGETHER)[name]]
                continue
            place = rng.random()
            figure = name not in ("maker", "colour")
            uncued = name == "maker" and (speaker.foreign or speaker.stream)
            fits = (numeric or not figure) and not uncued
            if "pre" in forms and place < speaker.before and room and fits:
                room -= 1
                self._before(phrase, name, forms)
            elif may_follow and "after" in forms and rng.random() < speaker.later:
                phrase.after.append(self.say(phrase, name, "after"))
            else:
                phrase.behind.append(name)

    def _partner(self, name: str, said: list[str]) -> str:
        for first, second in _TOGETHER:
            if name in (first, second) and first in said and second in said:
                return "first" if name == first else "second"
        return ""

    def write_down(self, phrase: Phrase, name: str) -> None:
        """Enters the fact into the gold line."""
        part, line = phrase.part, phrase.line
        if name in NAMES:
            setattr(line, name, getattr(part, name))
        else:
            line.values[name] = part.values[name]
        disc = re.fullmatch(r"(\d\d)D\d{3}", line.part_number)
        if part.kind == "varistor" and disc:  # the marking gives the disc
            line.values["diameter"] = part.values["diameter"]

    def _forms(self, part: Part, name: str) -> Any:
        facts = wording()["facts"]
        if name == "package":
            return facts.get(f"package/{_sort_of_package(part)}", facts["package"])
        return facts.get(f"{name}/{part.kind}") or facts.get(name) or facts["default"]

    def _before(self, phrase: Phrase, name: str, forms: Any) -> None:
        words = self.say(phrase, name, "pre")
        if name in ("maker", "colour"):
            phrase.before.insert(0, words)
        elif name == "package":
            phrase.before.append(words)
        else:
            at = len(phrase.before)
            while at and phrase.before[at - 1] == phrase.line.package:
                at -= 1
            phrase.before.insert(at, words)
            phrase.lead = name if at == 0 else phrase.lead

    def say(self, phrase: Phrase, name: str, slot: str, template: str = "") -> str:
        """One fact in one place."""
        part, speaker = phrase.part, self.speaker
        forms = self._forms(part, name)
        template = template or self.rng.choice(forms[slot])
        fill: dict[str, str | Callable[[], str]] = {**grammar(phrase.many, self.rng)}
        if name == "maker":
            fill["m"] = speaker.name(part.maker)
        elif name == "part_number":
            fill["mark"] = speaker.marking(part.part_number)
        elif name == "colour":
            fill["c"] = speaker.spell(part.colour)
        elif name == "package":
            case = speaker.case(part.package)
            fill["pkg"] = case
            fill["a_pkg"] = f"{article(case)} {case}"
        else:
            value = part.values[name]
            before = slot == "pre" or re.search(
                r"\{q\} "
                r"(coil|contacts|switch|type|rating|disc|lead|cores|on-resistance|MOSFET|flash)",
                template,
            )
            fill["q"] = lambda: self._figure(phrase, name, value, slot, before=bool(before))
            fill["a_q"] = lambda: self._with_article(value)
            fill["n"] = lambda: self._bare_count(value, name)
        return expand(template, self.rng, fill)

    def _with_article(self, value: Amount) -> str:
        said = self.speaker.amount(value, before=True)
        return f"{article(said)} {said}"

    def _figure(self, phrase: Phrase, name: str, value: Amount, slot: str, *, before: bool) -> str:
        """An amount, now and then after a slip: "22, no, sorry, 47 microfarads"."""
        right = self.speaker.amount(value, before=before)
        if slot != "post" or before or not value.unit or self.rng.random() >= self.slips:
            return right
        wrong = slip_of(value, self.rng)
        phrase.line.corrections.append(Correction(f"values.{name}", str(wrong), str(value)))
        filling = {
            "w": self.speaker.figure(wrong.number),
            "wrong": self.speaker.amount(wrong),
            "r": right,
        }
        return expand(self.rng.choice(talk()["slips"]), self.rng, filling)

    def _bare_count(self, value: Amount, name: str) -> str:
        if name == "pin_count" and self.speaker.figures == "digits":
            number = int(value.number)
            return self.speaker.count(number) if self.rng.random() < 0.5 else str(number)
        return self.speaker.figure(value.number)

    def predicate(self, phrase: Phrase) -> str:
        """Takes one fact out of the list behind for "The fuse is rated 4 amps"; "" if none can."""
        able = [
            name
            for name in phrase.behind
            if "is" in self._forms(phrase.part, name) and not self._partner(name, phrase.behind)
        ]
        if not able:
            return ""
        name = self.rng.choice(able)
        phrase.behind.remove(name)
        return self.say(phrase, name, "is")

    def tail(self, phrase: Phrase) -> str:
        """What hangs on the noun: " of 10 microfarads, 25 volts, from Quorvane"."""
        which = ""
        if len(phrase.behind) > 1 and self.rng.random() < 0.1:
            which = self.predicate(phrase)
        pieces = self.details(phrase, phrase.behind)
        if phrase.purpose:
            pieces.insert(0 if self.rng.random() < 0.7 else len(pieces), phrase.purpose)
        pieces += phrase.extras
        return _joined(pieces, self.rng) + (f", which {which}" if which else "")

    def details(self, phrase: Phrase, names: list[str]) -> list[str]:
        """The details in `names` as pieces of a list."""
        rng, speaker, part = self.rng, self.speaker, phrase.part
        order = list(names)
        if rng.random() < 0.35:
            rng.shuffle(order)
        if speaker.stream:  # without stops a figure must not run into the name of a case
            order.sort(key=lambda name: ("b_value", "package", "part_number").index(name) + 1
                       if name in ("b_value", "package", "part_number") else 0)  # fmt: skip
        elif "part_number" in order and (speaker.figures == "words" or rng.random() < 0.5):
            order.remove("part_number")
            order.append("part_number")
        pieces: list[str] = []
        figures: list[int] = []
        pairs = wording()["pairs"]
        while order:
            name = order.pop(0)
            partner = next((b for a, b in _TOGETHER if a == name and b in order), "")
            if any(name == b and a in order for a, b in _TOGETHER):
                order.append(name)
                continue
            if partner:
                order.remove(partner)
                pieces.append(self._by(part, name, partner))
                continue
            mate = next((m for m in order if f"{name} {m}" in pairs), "")
            if mate and rng.random() < 0.6 and self._plain_pair(part, name, mate):
                order.remove(mate)
                template = rng.choice(pairs[f"{name} {mate}"])
                a = self.say(phrase, name, "post", self._short_form(part, name))
                b = self.say(phrase, mate, "post", self._short_form(part, mate))
                figures.append(len(pieces))
                pieces.append(expand(template, rng, {"a": a, "b": b}))
                continue
            template = rng.choice(self._forms(part, name)["post"])
            if pieces and template.startswith("of "):
                template = "{q}"
            if name not in NAMES and template == "{q}":
                figures.append(len(pieces))
            pieces.append(self.say(phrase, name, "post", template))
        self._each(phrase, pieces, figures)
        return pieces

    def _plain_pair(self, part: Part, name: str, mate: str) -> bool:
        return bool(self._short_form(part, name) and self._short_form(part, mate))

    def _short_form(self, part: Part, name: str) -> str:
        """The shortest way behind a noun, "{q}" or "{q} coil"."""
        forms = self._forms(part, name)["post"]
        return "{q}" if "{q}" in forms else next((f for f in forms if f.startswith("{q} ")), "")

    def _each(self, phrase: Phrase, pieces: list[str], figures: list[int]) -> None:
        """ "470 kilohms each": said of several, behind their figures."""
        if not phrase.many or not figures or self.rng.random() < 0.55:
            return
        last = figures[-1]
        if last != len(figures) - 1:
            return
        ways = ["{list} each", "{list} each", "{list} apiece", "each {list}"]
        ways.append("both {list}" if phrase.spoken == 2 else "all {list}")
        listed = ", ".join(pieces[: last + 1])
        pieces[: last + 1] = [expand(self.rng.choice(ways), self.rng, {"list": listed})]

    def _by(self, part: Part, first: str, second: str) -> str:
        speaker = self.speaker
        a, b = part.values[first], part.values[second]
        template = self.rng.choice(wording()["by"])
        if " x " in template and speaker.units != "symbols":
            template = "{na} by {b}"
        return expand(
            template,
            self.rng,
            {"na": speaker.figure(a.number), "a": speaker.amount(a), "b": speaker.amount(b)},
        )

    # ---------------------------------------------------------------- noun phrases

    def looks(self, phrase: Phrase) -> str:
        looks = wording()["looks"]
        return str(self.rng.choice(looks.get(phrase.part.kind, looks["any"])))

    def plural(self, noun: str) -> str:
        """fuse, fuses; LED, LEDs; switch, switches; spade terminals as they are."""
        head, _, last = noun.rpartition(" ")
        irregular = wording()["plurals"]
        if last.endswith("terminals"):
            return noun
        if last in irregular:
            last = irregular[last]
        elif last.endswith("s"):
            pass
        elif last.endswith(("ch", "x", "sh")):
            last += "es"
        else:
            last += "s"
        return f"{head} {last}".strip()

    def core(self, phrase: Phrase) -> str:
        """The noun with what stands before it, without article or number."""
        purpose = phrase.purpose_before
        first = purpose if purpose in ("second", "further") else ""
        looks = "" if phrase.part.manner == "smaller" else self.looks(phrase)
        noun = self.plural(phrase.noun) if phrase.many else phrase.noun
        words = [first, looks, *phrase.before, "" if first else purpose, noun]
        return " ".join(w for w in words if w)

    def counted(self, phrase: Phrase, core: str, *, article_wanted: bool = True) -> str:
        """ "a blue varistor", "two blue varistors"; bare: "Blue varistor"."""
        count = phrase.spoken
        if count == 1:
            if not article_wanted:
                return core
            plain_start = not self._starts_with_figure(core)
            if plain_start and self.rng.random() < (0.3 if self.speaker.foreign else 0.06):
                return f"one {core}"
            return self._slipped(phrase, core) + f"{article(core)} {core}"
        figure_first = self._starts_with_figure(core) or self.speaker.figures != "digits"
        if count == 2 and self.rng.random() < 0.35:
            return f"{self.rng.choice(('a pair of', 'a couple of', 'a pair of'))} {core}"
        number = self.speaker.count(count)
        if figure_first and number.isdigit():
            number = wording()["counts"]["words"][count] if count < 16 else number
        return f"{number} {core}"

    def _slipped(self, phrase: Phrase, core: str) -> str:
        """ "a 10, no, sorry, " before "a 22 microfarad ceramic"; mostly nothing."""
        if (
            not phrase.lead
            or not core.startswith(phrase.before[0])
            or self.rng.random() >= self.slips
        ):
            return ""
        value = phrase.part.values[phrase.lead]
        if not value.unit:
            return ""
        wrong = slip_of(value, self.rng)
        field_name = f"values.{phrase.lead}"
        phrase.line.corrections.append(Correction(field_name, str(wrong), str(value)))
        figure = self.speaker.figure(wrong.number)
        figure = figure.removeprefix("a ")
        return (
            f"{article(figure)} {figure}, {self.rng.choice(('no', 'no, sorry', 'sorry', 'wait'))}, "
        )

    def _starts_with_figure(self, core: str) -> bool:
        word = re.split(r"[ -]", core)[0]
        return bool(re.match(r"[\d.]", core)) or word in FIGURE_WORDS


def _joined(pieces: list[str], rng: Random) -> str:
    said = ""
    for number, piece in enumerate(pieces):
        loose = bool(_NO_COMMA.match(piece))
        must = piece.startswith("of ")
        if number and must:
            piece = piece[3:]
        if number == 0 and loose and (must or rng.random() < 0.75):
            said += " " + piece
        elif number and number == len(pieces) - 1 and _short(piece) and rng.random() < 0.3:
            said += " and " + piece
        else:
            said += ", " + piece
    return said


def _short(piece: str) -> bool:
    """A figure and its unit only, that "and" may stand before."""
    return piece.count(" ") == 1 and piece[:1].isdigit()


def _sort_of_package(part: Part) -> str:
    if part.kind in ("battery cell",):
        return "cell"
    if part.kind in ("transformer", "boost inductor"):
        return "core"
    return "size" if re.fullmatch(r"\d{4}", part.package) else "case"


def check_wording() -> list[str]:
    """Templates of facts that want a name which cannot be filled in; none when all is well."""
    known = {*_NUMBER, "It", "q", "n", "m", "mark", "c", "pkg", "a_pkg", "a_q"}
    wrong = []
    for key, forms in wording()["facts"].items():
        for slot, templates in forms.items():
            wrong += [f"{key}.{slot}: {t}" for t in templates if names_in(t) - known]
    return wrong
