"""The noun of a part with what stands before it: "a blue varistor", "two 470 kilohm resistors"."""

import re

from corpus_synthetic.facts import Facts
from corpus_synthetic.numerals import FIGURE_WORDS
from corpus_synthetic.phrase import Phrase
from corpus_synthetic.slips import slip_of
from corpus_synthetic.speaker import article, wording
from corpus_synthetic.story import Correction


class Nouns(Facts):
    """Makes noun phrases."""

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
