"""How the facts of a part are put into words: one by one, and as the list behind its noun."""

import re
from collections.abc import Callable
from random import Random
from typing import Any

from corpus_synthetic.model import Amount, Part
from corpus_synthetic.phrase import NAMES, TOGETHER, Phrase, grammar, sort_of_package
from corpus_synthetic.slips import slip_of
from corpus_synthetic.speaker import Speaker, article, talk, wording
from corpus_synthetic.story import Correction
from corpus_synthetic.templates import expand

_NO_COMMA = re.compile(
    r"(of|with|in|from|made|rated|good|marked|for|on|at|that|which|across|as|to|between|against|by"
    r"|doing|filtering|sitting|driving) "
)


class Facts:
    """Says facts in the words of one speaker."""

    def __init__(self, speaker: Speaker) -> None:
        self.speaker = speaker
        self.rng = speaker.rng
        self.slips = 0.0  # how often a figure is said wrong and put right at once

    def forms(self, part: Part, name: str) -> Any:
        facts = wording()["facts"]
        if name == "package":
            return facts.get(f"package/{sort_of_package(part)}", facts["package"])
        return facts.get(f"{name}/{part.kind}") or facts.get(name) or facts["default"]

    def partner(self, name: str, said: list[str]) -> str:
        for first, second in TOGETHER:
            if name in (first, second) and first in said and second in said:
                return "first" if name == first else "second"
        return ""

    def say(self, phrase: Phrase, name: str, slot: str, template: str = "") -> str:
        """One fact in one place."""
        part, speaker = phrase.part, self.speaker
        forms = self.forms(part, name)
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
            if "is" in self.forms(phrase.part, name) and not self.partner(name, phrase.behind)
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
            partner = next((b for a, b in TOGETHER if a == name and b in order), "")
            if any(name == b and a in order for a, b in TOGETHER):
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
            template = rng.choice(self.forms(part, name)["post"])
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
        forms = self.forms(part, name)["post"]
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
