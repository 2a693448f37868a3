"""Generates teardown narrations with gold records.

    python -m corpus_synthetic.generate --count 500 --seed 7 --to DIR --style clean

The same seed gives the same files, byte for byte.
"""

import argparse
import sys
from dataclasses import dataclass
from pathlib import Path
from random import Random

from corpus_synthetic.breaking import Broken, break_one
from corpus_synthetic.devices import build
from corpus_synthetic.discourse import Talker
from corpus_synthetic.speaker import cast, unpunctuated
from corpus_synthetic.story import Doubt, Story
from corpus_synthetic.telling import Teller
from corpus_synthetic.transcript import Manner, Transcript, transcribe
from corpus_synthetic.write import FORMATS, gold, save

STYLES = ("clean", "discourse")
STREAM_FORMATS = ("json", "json-words", "json-words", "vtt")


@dataclass(slots=True)
class Narration:
    """One generated narration: file name, its text, and its gold record as YAML."""

    name: str
    suffix: str
    text: str
    record: str
    story: Story
    transcript: Transcript


def narrate(
    seed: int, number: int, style: str = "clean", form: str = "", *, broken: bool = False
) -> Narration:
    """Narration `number` of a corpus; `form` is a key of FORMATS, else one by chance; `broken`: one
    fact of the device is broken at random and said so."""
    if not broken:
        return _narrate(Random(f"{seed}/{style}/{number}"), number, style, form)
    for attempt in range(50):  # until the broken fact is one of those that are said
        rng = Random(f"{seed}/{style}/{number}/{attempt}")
        made = _narrate(rng, number, style, form, broken=True)
        if any(line.doubts for line in made.story.lines):
            return made
    raise ValueError(f"no fact of narration {number} could be broken")


def _narrate(rng: Random, number: int, style: str, form: str, *, broken: bool = False) -> Narration:
    device = build(rng)
    wound = break_one(device, rng) if broken else None
    speaker = cast(rng)
    stream = style == "discourse" and rng.random() < 0.3
    voices = 2 if style == "discourse" and not stream and rng.random() < 0.4 else 1
    if stream:
        unpunctuated(speaker)
    if style == "discourse":
        speaker.clarify = rng.choice((0.0, 0.0, 0.1))
        teller: Teller = Talker(device, speaker, voices=voices)
    else:
        teller = Teller(device, speaker)
    story = teller.tell()
    if wound:
        _enter_doubt(teller, wound)
    form = form or rng.choice(STREAM_FORMATS if stream else list(FORMATS))
    suffix, write, seconds = FORMATS[form]
    manner = Manner(
        room=rng.choice((60, 80, 110)),
        whole_sentences=voices > 1 or (seconds and rng.random() < 0.7),
        stream=stream,
        captions=not stream and voices == 1 and form in ("srt", "vtt") and rng.random() < 0.3,
        seconds=seconds,
        rate=rng.uniform(2.2, 3.0),
    )
    transcript = transcribe(story, rng, manner)
    name = f"{style}-broken-{number:04d}" if broken else f"{style}-{number:04d}"
    record = gold(story, transcript, name + suffix, seconds=seconds)
    return Narration(name, suffix, write(transcript), record, story, transcript)


def _enter_doubt(teller: Teller, wound: Broken) -> None:
    for phrase, line in teller.told:
        if phrase.part is wound.part and line.values.get(wound.name) == wound.wrong:
            doubt = Doubt(f"values.{wound.name}", str(wound.wrong), str(wound.right))
            line.doubts.append(doubt)


def main(arguments: list[str] | None = None) -> int:
    """The command line."""
    parser = argparse.ArgumentParser(
        prog="python -m corpus_synthetic.generate",
        description=__doc__,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--count", type=int, default=10, help="how many narrations (10)")
    parser.add_argument("--seed", type=int, default=1, help="the corpus to make (1)")
    parser.add_argument("--to", type=Path, required=True, help="folder to write into")
    parser.add_argument("--style", choices=STYLES, default="clean", help="how hard the speech is")
    parser.add_argument("--format", choices=list(FORMATS), default="", help="one format for all")
    parser.add_argument("--broken", action="store_true", help="break one fact of each device")
    chosen = parser.parse_args(arguments)
    chosen.to.mkdir(parents=True, exist_ok=True)
    for number in range(chosen.count):
        made = narrate(chosen.seed, number, chosen.style, chosen.format, broken=chosen.broken)
        save(chosen.to, made.name, made.text, made.record, made.suffix)
    print(f"{chosen.count} narrations in {chosen.to}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
