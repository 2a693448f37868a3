"""The device itself: what it is, its label, size, ports and boards."""

from corpus_synthetic.model import Amount, amount
from corpus_synthetic.speaker import article, wording
from corpus_synthetic.story import bare, upper_first
from corpus_synthetic.voice import Voice


class LabelTeller(Voice):
    """Tells what is known of a device before its parts."""

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
