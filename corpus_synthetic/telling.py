"""A device told from label to last part: the straightforward way, one part after the other."""

import re
from collections.abc import Callable

from corpus_synthetic.label import LabelTeller
from corpus_synthetic.model import Part, amount
from corpus_synthetic.phrase import Phrase, grammar
from corpus_synthetic.speaker import article, wording
from corpus_synthetic.story import Story
from corpus_synthetic.templates import expand, names_in

_VERB_FRONTS = ("is", "are", "by", "has", "through", "uses", "on", "from", "goes", "make")

_HOT = (
    "transformer",
    "bridge rectifier",
    "relay",
    "heat sink",
    "mosfet",
    "common mode choke",
    "boost inductor",
    "triac",
    "igbt",
    "motor",
    "linear regulator",
)


class Teller(LabelTeller):
    """Tells one device in the voice of one speaker; the story and its gold grow together."""

    def tell(self) -> Story:
        self.introduce()
        self.announce_boards()
        for group in self.device.groups:
            self.tell_group(group)
            if self.chance(0.12):
                self.say(self.choose(wording()["chatter"]))
        self.finish()
        return self.story

    # ------------------------------------------------------------------ the parts

    def tell_group(self, group: list[Part]) -> None:
        """The parts of a group in sentences of one to three."""
        if not any(part.board for part in group):
            self.leave_boards()
        rest = list(group)
        while rest:
            room = self.rng.choice((1, 1, 1, 2, 2, 3))
            board = next((part.board for part in rest if part.board), "")
            now = [part for part in rest[:room] if part.board in ("", board)]
            rest = rest[len(now) :]
            if board:
                self.go_to(board)
            self.tell_parts(now)

    def tell_parts(self, parts: list[Part]) -> None:
        """One sentence that points out `parts`, and sentences about the last of them."""
        last = len(parts) - 1
        phrases = [
            self.phraser.phrase(part, opens=number == 0, may_follow=number == last)
            for number, part in enumerate(parts)
        ]
        text = self.first(phrases[0])
        for phrase in phrases[1:]:
            text += self.further(phrase)
        self.say(text)
        self.follow(phrases[-1])

    def follow(self, phrase: Phrase) -> None:
        """The sentences about a part that come right after it."""
        for sentence in phrase.after:
            start, end, quote = self.story.mark()
            phrase.line.quotes.append(quote)
            self.say(start + sentence.rstrip(".") + end)

    def enter(self, phrase: Phrase) -> tuple[str, str]:
        """Enters the line into the gold; the marks around the words that point the part out."""
        start, end, quote = self.story.mark()
        phrase.line.quotes.append(quote)
        if phrase.line.board and phrase.line.board not in self.story.boards:
            phrase.line.board = ""
        self.story.lines.append(phrase.line)
        self.told.append((phrase, phrase.line))
        return start, end

    def first(self, phrase: Phrase) -> str:
        """The sentence that points a part out."""
        start, end = self.enter(phrase)
        frames, speaker = wording()["frames"], self.speaker
        if phrase.front:
            return self._fronted(phrase, start, end)
        shape = self.rng.random()
        if shape < speaker.verbless:
            template = self.choose(frames["verbless"])
        elif shape < speaker.verbless + speaker.definite and phrase.part.job != "second":
            template = self.choose(frames["definite"])
        elif speaker.foreign and self.chance(0.35):
            template = self.choose(frames["foreign"])
        else:
            template = self.choose(frames["indefinite"])
        if phrase.many and "np_single" in names_in(template):
            template = "{np}{tail}"
        return self._framed(template, phrase, start, end)

    def _framed(self, template: str, phrase: Phrase, start: str, end: str) -> str:
        phraser = self.phraser
        predicate = ""
        if "pred" in names_in(template):
            predicate = phraser.predicate(phrase)
            if not predicate:
                template = "then {np}{tail}"
        if "np_one" in names_in(template) and (not phrase.before or phrase.many):
            template = "{there} {np}{tail}"
        core = phraser.core(phrase)
        names: dict[str, str | Callable[[], str]] = {
            "np": lambda: start + phraser.counted(phrase, core),
            "np_single": lambda: start + phraser.counted(phrase, core),
            "np_one": lambda: self._kind_of(phrase),
            "bare": lambda: start + phraser.counted(phrase, core, article_wanted=False),
            "noun": lambda: start + self._definite(phrase, core, template),
            "pred": predicate,
            "tail": lambda: phraser.tail(phrase) + end,
            "there": lambda: self._there(phrase.many),
            "place": self.place,
            "placed": lambda: self.choose(wording()["placed"]),
        }
        return expand(template, self.rng, grammar(phrase.many, self.rng) | names)

    def _definite(self, phrase: Phrase, core: str, template: str) -> str:
        if "np_one" in names_in(template):
            noun = phrase.noun
            return noun
        if not phrase.many:
            return core
        counted = self.phraser.counted(phrase, core, article_wanted=False)
        return re.sub(r"^a (pair|couple) of ", "two ", counted)

    def _kind_of(self, phrase: Phrase) -> str:
        words = " ".join(phrase.before)
        return f"{article(words)} {words} {self.choose(['one', 'type', 'one'])}"

    def place(self) -> str:
        """Where a part is, at the head of a sentence."""
        return self.choose(wording()["places"])

    def _there(self, many: bool) -> str:
        if self.speaker.foreign:
            return "there are" if many else "there is"
        if many:
            return "there are" if self.chance(0.8) else "there's"
        return self.choose(["there's", "there's", "there is"])

    def _fronted(self, phrase: Phrase, start: str, end: str) -> str:
        frames = wording()["frames"]
        last_word = phrase.front.rsplit(" ", 1)[-1]
        if last_word in _VERB_FRONTS:
            template = "{front} {np}{tail}"
        elif self.speaker.foreign and self.chance(0.5):
            template = self.choose(frames["front foreign"])
        else:
            template = self.choose(frames["front"])
        return self._framed(template.replace("{front}", phrase.front), phrase, start, end)

    def further(self, phrase: Phrase) -> str:
        """A part that is added to the sentence."""
        start, end = self.enter(phrase)
        return self._framed(self.choose(wording()["links"]), phrase, start, end)

    # -------------------------------------------------------------------- the end

    def finish(self) -> None:
        words, device = wording()["device"], self.device
        for name, value in device.measured.items():
            if self.chance(0.7):
                self.story.ratings[name] = str(value)
                self.say(
                    self.fill(self.choose(words["measured"][name]), q=self.amount(value)),
                    pause=True,
                )
        if self.chance(0.5):
            self._temperatures()
        self.say(self.fill(self.choose(words["closing"])), pause=True)

    def _temperatures(self) -> None:
        """How warm one or two parts got; only of a part that there is one of."""
        words = wording()["device"]
        kinds = [line.kind for line in self.story.lines]
        able = [
            (phrase, line)
            for phrase, line in self.told
            if line.kind in _HOT and line.count == 1 and kinds.count(line.kind) == 1
        ]
        if not able:
            return
        minutes = amount(f"{self.rng.choice((10, 15, 20, 30, 45))} min")
        if self.chance(0.6):
            ran = self.loose(str(minutes), self.amount(minutes), "running time")
            self.say(self.fill(self.choose(words["ran"]), q=ran), pause=True)
        for phrase, line in self.rng.sample(able, min(len(able), self.rng.choice((1, 1, 2)))):
            value = amount(f"{self.rng.randint(41, 96)} °C")
            line.values["temperature"] = value
            start, end, quote = self.story.mark()
            line.quotes.append(quote)
            text = self.fill(
                self.choose(words["temperature"]), noun=phrase.noun, q=self.amount(value)
            )
            self.say(start + text.rstrip(".") + end)
