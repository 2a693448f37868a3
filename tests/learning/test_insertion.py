"""Entries go into a partsaloud.yaml and leave what stands there as it is."""

from pathlib import Path

import pytest

from extract.errors import VocabularyError
from extract.learning import Entry
from extract.learning.insertion import add_entries
from extract.settings import load_settings

MAKER = Entry("makers", "Dunmarrow")
NICKNAME = Entry("kinds", "relay", "clicker")
HEARD = Entry("mishearings", "Dunmarrow", "done marrow")

CASES = {
    "no file": (None, [MAKER, NICKNAME], "makers: [Dunmarrow]\nkinds:\n  relay: [clicker]\n"),
    "a list in brackets": (
        "makers: [Orrin] # ours\n",
        [MAKER],
        "makers: [Orrin, Dunmarrow] # ours\n",
    ),
    "an empty list": ("makers: []\n", [MAKER], "makers: [Dunmarrow]\n"),
    "a list with dashes": (
        "makers:\n  - Orrin # ours\n  # and more\nrules: {}\n",
        [MAKER],
        "makers:\n  - Orrin # ours\n  - Dunmarrow\n  # and more\nrules: {}\n",
    ),
    "dashes without indent": (
        "makers:\n- Orrin\nrules: {}\n",
        [MAKER],
        "makers:\n- Orrin\n- Dunmarrow\nrules: {}\n",
    ),
    "nothing behind the key": ("makers:\n", [MAKER], "makers: [Dunmarrow]\n"),
    "a kind that has names": (
        "kinds:\n  relay: [tick]\n  fuse: [pop]\n",
        [NICKNAME],
        "kinds:\n  relay: [tick, clicker]\n  fuse: [pop]\n",
    ),
    "a kind that has none": (
        "kinds:\n    fuse:\n      - pop\n# the end\n",
        [NICKNAME],
        "kinds:\n    fuse:\n      - pop\n    relay: [clicker]\n# the end\n",
    ),
    "a mapping in braces": (
        "kinds: {fuse: [pop]}\n",
        [NICKNAME],
        "kinds: {fuse: [pop], relay: [clicker]}\n",
    ),
    "empty braces": ("kinds: {}\n", [NICKNAME], "kinds: {relay: [clicker]}\n"),
    "a section without entries": ("kinds:\n", [NICKNAME], "kinds:\n  relay: [clicker]\n"),
    "no line end": (
        "# ours\nmakers: [Orrin]",
        [HEARD],
        "# ours\nmakers: [Orrin]\nmishearings:\n  Dunmarrow: [done marrow]\n",
    ),
    "comments alone": ("# ours\n", [MAKER], "# ours\nmakers: [Dunmarrow]\n"),
    "a name that needs quotes": (
        None,
        [Entry("makers", "Tarn: & Vale")],
        'makers: ["Tarn: & Vale"]\n',
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_an_entry_goes_where_it_belongs(name: str, tmp_path: Path) -> None:
    before, entries, after = CASES[name]
    path = tmp_path / "partsaloud.yaml"
    if before is not None:
        path.write_text(before, encoding="utf-8")
    add_entries(path, entries)
    assert path.read_text(encoding="utf-8") == after
    load_settings(path)


def test_a_file_that_cannot_take_an_entry_is_told_and_stays(tmp_path: Path) -> None:
    path = tmp_path / "partsaloud.yaml"
    text = "{makers: [Orrin]}\n"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(VocabularyError, match="put them in by hand"):
        add_entries(path, [NICKNAME])
    assert path.read_text(encoding="utf-8") == text
