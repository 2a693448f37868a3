"""A device told from label to last part: the straightforward way, one part after the other."""

import re
from collections.abc import Callable
from random import Random

from corpus_synthetic.model import Amount, Device, Part, amount
from corpus_synthetic.phrasing import Phrase, Phraser, grammar
from corpus_synthetic.speaker import Speaker, article, wording
from corpus_synthetic.story import Line, Loose, Sentence, Story, bare, lower_first, upper_first
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


class Teller:
    """Tells one device in the voice of one speaker; the story and its gold grow together."""

    def __init__(self, device: Device, speaker: Speaker) -> None:
        self.device = device
        self.speaker = speaker
        self.rng: Random = speaker.rng
        self.phraser = Phraser(speaker)
        self.story = Story(device)
        self.board = ""
        self.told: list[tuple[Phrase, Line]] = []

    def tell(self) -> Story:
        self.introduce()
        self.announce_boards()
        for group in self.device.groups:
            self.tell_group(group)
            if self.chance(0.12):
                self.say(self.choose(wording()["chatter"]))
        self.finish()
        return self.story

    # ------------------------------------------------------------------- helpers

    def chance(self, probability: float) -> bool:
        return self.rng.random() < probability

    def choose(self, items: list[str]) -> str:
        return self.rng.choice(items)

    def fill(self, template: str, **filling: str | Callable[[], str]) -> str:
        return expand(template, self.rng, filling)

    def say(self, text: str, *, pause: bool = False, voice: int = 0) -> None:
        """Adds a sentence, capital and stop included, with a filler here and there."""
        stop = "" if text.endswith((".", "?", "!")) else "."
        if not voice and self.chance(self.speaker.fillers):
            text = self.choose(wording()["fillers"]) + lower_first(text)
        text = re.sub(r" +(?=[,.?!](\s|$)|$)", "", text)
        text = re.sub(r"(?<=[.?!] )[a-z]", lambda letter: letter[0].upper(), text)
        self.story.sentences.append(Sentence(upper_first(text) + stop, voice, pause))

    def amount(self, value: Amount, *, before: bool = False) -> str:
        return self.speaker.amount(value, before=before)

    def loose(self, value: str, words: str, why: str = "") -> str:
        """Words with a figure that belongs to no part, marked for the gold."""
        start, end, quote = self.story.mark()
        self.story.loose.append(Loose(value, quote, why))
        return start + words + end

    # ----------------------------------------------------------------- the device

    def introduce(self) -> None:
        words = wording()["device"]
        name = self.device.name
        naming = {"device": f"{article(name)} {name}", "device_bare": upper_first(name)}
        self.say(self.fill(self.choose(words["intro"]), **naming))
        self._maker_and_model()
        self._label()
        self._size_and_weight()
        if self.device.ports:
            self._ports()
        if self.chance(0.4):
            for name in self.device.topology:
                if name in words["topology"]:
                    self.story.topology.append(name)
                    self.say(self.fill(self.choose(words["topology"][name])))

    def _maker_and_model(self) -> None:
        words, story = wording()["device"], self.story
        maker = self.speaker.name(self.device.maker)
        model = self.speaker.marking(self.device.model)
        which = self.choose(["maker model"] * 6 + ["maker", "model"])
        self.say(self.fill(self.choose(words[which]), m=maker, model=model))
        story.said_maker = "maker" in which
        story.said_model = "model" in which

    def _label(self) -> None:
        """The rating plate in one sentence."""
        words, ratings = wording()["device"], self.device.ratings
        pieces = []
        for name in ratings:
            if name == "input_frequency" or (name not in ("input_voltage",) and self.chance(0.1)):
                continue
            self.story.ratings[name] = _record(ratings[name])
            if name == "input_voltage" and "input_frequency" in ratings:
                self.story.ratings["input_frequency"] = _record(ratings["input_frequency"])
                volts = self.span(ratings["input_voltage"])
                hertz = self.span(ratings["input_frequency"])
                pieces.append(self.fill(self.choose(words["input"]), v=volts, f=hertz))
            else:
                value = ratings[name]
                assert isinstance(value, Amount)
                pieces.append(self.fill(self.choose(words[name]), q=self.amount(value)))
        if pieces:
            self.say(self.fill(self.choose(words["label"]), ratings=", ".join(pieces)))

    def span(self, value: Amount | tuple[Amount, Amount]) -> str:
        """An amount or a range: "220 to 240 volts"."""
        if isinstance(value, Amount):
            return self.amount(value)
        low, high = value
        joint = self.choose([" to ", " to ", "-"]) if self.speaker.figures == "digits" else " to "
        return self.speaker.figure(low.number) + joint + self.amount(high)

    def size(self, sides: tuple[Amount, ...]) -> str:
        """ "124 by 68 by 41 millimetres"."""
        figures = [self.speaker.figure(side.number) for side in sides[:-1]]
        joint = " x " if self.speaker.units == "symbols" else " by "
        return joint.join([*figures, self.amount(sides[-1])])

    def _size_and_weight(self) -> None:
        words, device, story = wording()["device"], self.device, self.story
        if device.weight is None:
            return
        size, weight = self.size(device.size), self.amount(device.weight)
        if self.chance(0.4):
            story.said_size = story.said_weight = True
            self.say(self.fill(self.choose(words["size weight"]), size=size, q=weight))
            return
        if self.chance(0.8):
            story.said_size = True
            self.say(self.fill(self.choose(words["size"]), size=size))
        if self.chance(0.8):
            story.said_weight = True
            self.say(self.fill(self.choose(words["weight"]), q=weight))

    def _ports(self) -> None:
        words = wording()["device"]
        told: set[str] = set()
        for port in self.device.ports:
            outputs = [f"{v} @ {a}" for v, a in port.outputs]
            entry: dict[str, object] = {"name": port.name, "outputs": outputs}
            self.story.ports.append(entry)
            if port.name in told:
                continue
            told.add(port.name)
            template = self.choose(words["point"])
            points = [
                self.fill(template, v=self.amount(v), a=self.amount(a)) for v, a in port.outputs
            ]
            if port.programmable:
                low, high, amps = port.programmable
                outputs.append(f"{low} to {high} @ {amps}")
                points.append(
                    self.fill(
                        self.choose(words["programmable"]),
                        low=self.speaker.figure(low.number),
                        v=self.amount(high),
                        a=self.amount(amps),
                    )
                )
            several = sum(other.name == port.name for other in self.device.ports) > 1
            listed = _and_list(points)
            name = self.speaker.spell(port.name) + ("s" if several else "")
            text = self.fill(self.choose(words["ports"]), port=name, points=listed)
            if several:
                text = _plural_verbs(text) + " each"
            self.say(text)
            if len(port.protocols) > 1 or (port.protocols and self.chance(0.3)):
                entry["protocols"] = list(port.protocols)
                spoken = [self._protocol(p) for p in port.protocols]
                self.say(self.fill(self.choose(words["protocols"]), list=_and_list(spoken, ", ")))

    def _protocol(self, name: str) -> str:
        if self.speaker.figures == "words":
            name = name.replace("3.0", "three point zero")
        return name

    # ----------------------------------------------------------------- the boards

    def announce_boards(self) -> None:
        boards = self.device.boards
        if len(boards) > 3 or self.chance(0.3):
            return
        key = ("one", "two", "three")[len(boards) - 1]
        filling = {f"b{n}": self._board(b) for n, b in enumerate(boards, 1)}
        filling |= {f"a{b[1:]}": f"{article(bare(name))} {name}" for b, name in filling.items()}
        self.say(self.fill(self.choose(wording()["device"]["boards"][key]), **filling), pause=True)

    def _board(self, board: str) -> str:
        """The board's name, marked when it is named for the first time."""
        if board in self.story.boards:
            return board
        start, end, quote = self.story.mark()
        self.story.boards[board] = quote
        return start + board + end

    def leave_boards(self) -> None:
        """Says now and then that what follows stands on no board."""
        if self.board and self.chance(0.4):
            self.board = ""
            self.say(self.fill(self.choose(wording()["device"]["off board"])), pause=True)

    def go_to(self, board: str) -> None:
        """Says that another board is looked at; a single board need not be named at all."""
        if board == self.board:
            return
        words = wording()["device"]
        self.board = board
        only = len(self.device.boards) == 1
        seen = {line.board for line in self.story.lines}
        if only and not seen - {""} and self.chance(0.4):
            return
        if board in seen:
            template = "Back (on|to) the {b}."
        else:
            template = self.choose(words["to board" if seen - {""} else "first board"])
        self.say(self.fill(template, b=self._board(board)), pause=True)
        if board not in seen and self.chance(0.35):
            self._board_size(board)
        elif self.chance(0.15):
            self.say(self.fill(self.choose(words["side"])))

    def _board_size(self, board: str) -> None:
        lengths = (self.rng.randint(20, 160), self.rng.randint(15, 90))
        sides = tuple(amount(f"{length} mm") for length in lengths)
        value = " x ".join(str(side) for side in sides)
        size = self.loose(value, self.size(sides), "size of a board")
        self.say(self.fill(self.choose(wording()["device"]["board size"]), b=board, size=size))

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


def _record(value: Amount | tuple[Amount, Amount]) -> str:
    return str(value) if isinstance(value, Amount) else f"{value[0]} to {value[1]}"


def _and_list(items: list[str], joint: str = ", ") -> str:
    if len(items) < 2:
        return "".join(items)
    return joint.join(items[:-1]) + " and " + items[-1]


def _plural_verbs(text: str) -> str:
    for single, many in (("gives", "give"), ("offers", "offer"), ("delivers", "deliver"),
                         ("puts out", "put out"), (" is ", " are ")):  # fmt: skip
        text = text.replace(single, many)
    return text
