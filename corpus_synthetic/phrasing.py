"""How one part is put into words: what is said of it, and where each fact stands."""

import re
from collections.abc import Collection, Mapping
from typing import Any

from corpus_synthetic.model import Part
from corpus_synthetic.nouns import Nouns
from corpus_synthetic.phrase import NAMES, NUMBER, TOGETHER, Phrase, grammar
from corpus_synthetic.speaker import wording
from corpus_synthetic.story import Line
from corpus_synthetic.templates import expand, names_in


class Phraser(Nouns):
    """Puts the parts of one device into the words of one speaker."""

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
            if any(name == second for _, second in TOGETHER) and name != "height":
                continue
            if self.rng.random() < likely:
                said.append(name)
        odds = {"maker": 0.9, "part_number": 0.85, "package": 0.8, "colour": 0.75}
        said += [n for n in NAMES if getattr(part, n) and self.rng.random() < odds[n]]
        if part.kind == "battery cell" and part.package and "package" not in said:
            said.append("package")
        for first, second in TOGETHER:
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
            forms = self.forms(phrase.part, name)
            together = self.partner(name, said)
            if together == "second":
                continue
            if together == "first":
                phrase.behind += [name, dict(TOGETHER)[name]]
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

    def write_down(self, phrase: Phrase, name: str) -> None:
        """Enters the fact into the gold line."""
        part, line = phrase.part, phrase.line
        if name in NAMES:
            setattr(line, name, getattr(part, name))
        else:
            line.values[name] = part.values[name]
        disc = re.fullmatch(r"\d+D\d{3}", line.part_number)
        if part.kind == "varistor" and disc:  # the marking gives the disc
            line.values["diameter"] = part.values["diameter"]

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


def check_wording() -> list[str]:
    """Templates of facts that want a name which cannot be filled in; none when all is well."""
    known = {*NUMBER, "It", "q", "n", "m", "mark", "c", "pkg", "a_pkg", "a_q"}
    wrong = []
    for key, forms in wording()["facts"].items():
        for slot, templates in forms.items():
            wrong += [f"{key}.{slot}: {t}" for t in templates if names_in(t) - known]
    return wrong
