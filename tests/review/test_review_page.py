"""A whole review in a browser, by the keyboard alone, and what must never go wrong in it."""

import os
import re
import signal
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from gold import Review
from reviewing import ENCODINGS, Hands, drafted, recorded, served, started

from extract.record import (
    Board,
    Device,
    Flag,
    Heard,
    NarrationRef,
    Part,
    Record,
    check_file,
    load,
    save,
)
from extract.review.app import STATIC

Tab = Callable[[str], Any]


def test_a_demo_is_reviewed_by_keyboard_until_it_equals_the_gold_record(
    tmp_path: Path, tab: Tab, capsys: pytest.CaptureFixture[str]
) -> None:
    path = drafted("stage-dimmer.vtt", tmp_path)
    recorded(path.with_name("stage-dimmer.wav"), 300)
    with served(path) as address:
        hands = Hands(tab(address))
        hands.press(" ")
        assert not hands.page.evaluate("document.querySelector('audio').paused")
        hands.press(" ")
        review = Review(hands, path, "stage-dimmer")
        review.all()
    assert check_file(path) == []
    assert review.differences() == []
    assert load(path).confirmed
    with capsys.disabled():
        print(f"\nreview of stage-dimmer: {review.tally()}")
    assert review.keys_a_flag <= 2.0
    assert review.keys_a_fact <= 4 + review.characters_a_fact


def test_two_tabs_cannot_overwrite_each_other(small_file: Path, tab: Tab) -> None:
    with served(small_file) as address:
        one, other = typed_too_late(tab, address)
        assert "it became Orrin" in other.page.inner_text("#ask")
        assert load(small_file).parts[1].maker == "Orrin"
        with other.edit():
            other.press("Enter")
        assert load(small_file).parts[1].maker == "Tarn"
        typed(one, "o", "blue")
        assert (load(small_file).parts[1].maker, load(small_file).parts[1].colour) == (
            "Tarn",
            "blue",
        )


def test_what_was_typed_too_late_can_be_given_up(small_file: Path, tab: Tab) -> None:
    with served(small_file) as address:
        _, other = typed_too_late(tab, address)
        other.press("Escape")
        other.page.wait_for_selector("#ask:not([open])", state="attached")
    assert load(small_file).parts[1].maker == "Orrin"


def typed_too_late(tab: Tab, address: str) -> tuple[Hands, Hands]:
    """Two tabs, the second of which types a maker where the first has just put Orrin."""
    one, other = Hands(tab(address)), Hands(tab(address))
    for hands in (one, other):
        hands.go("part:p2")
    typed(one, "m", "Orrin")
    other.press("m")
    other.type("Tarn")
    other.press("Enter")
    other.page.wait_for_selector("#ask[open]")
    return one, other


def test_a_change_in_an_editor_is_shown_and_kept(small_file: Path, tab: Tab) -> None:
    with served(small_file) as address:
        hands = Hands(tab(address))
        text = small_file.read_text(encoding="utf-8")
        small_file.write_text(text.replace("4.7 kΩ", "47 kΩ"), encoding="utf-8")
        hands.page.wait_for_selector(".notice")
        assert "p2 resistance: 4.7 kΩ → 47 kΩ" in hands.page.inner_text(".notice")
        hands.go("part:p1")
        typed(hands, "m", "Orrin")
        text = small_file.read_text(encoding="utf-8")
        small_file.write_text(text.replace("kind: resistor", "kind: resistr"), encoding="utf-8")
        hands.page.wait_for_selector("[data-notice=broken]")
        assert "did you mean 'resistor'?" in hands.page.inner_text("[data-notice=broken]")
        small_file.write_text(text, encoding="utf-8")
        hands.page.wait_for_selector("[data-notice=broken]", state="detached")
    parts = load(small_file).parts
    assert (parts[0].maker, str(parts[1].values["resistance"])) == ("Orrin", "47 kΩ")


def test_a_killed_server_has_lost_nothing(small_file: Path, tab: Tab) -> None:
    with started(small_file) as (address, process):
        hands = Hands(tab(address))
        hands.go("part:p2")
        typed(hands, "m", "Orrin")
        os.kill(process.pid, signal.SIGKILL)
        assert load(small_file).parts[1].maker == "Orrin"
        hands.page.wait_for_selector("[data-notice=gone]")
    with served(small_file) as address:
        page = tab(address)
        assert "Orrin" in page.inner_text('[data-of="part:p2"]')
    assert [path.name for path in small_file.parent.iterdir()] == [small_file.name]


def test_undo_and_redo_by_keys(small_file: Path, tab: Tab) -> None:
    before = [(part.id, part.maker) for part in load(small_file).parts]
    with served(small_file) as address:
        hands = Hands(tab(address))
        hands.go("part:p2")
        typed(hands, "m", "Orrin")
        with hands.edit():
            hands.press("Delete")
        assert len(load(small_file).parts) == 2
        for key in ("u", "Control+z"):
            with hands.edit():
                hands.press(key)
        assert [(part.id, part.maker) for part in load(small_file).parts] == before
        assert hands.said == "Undone: maker of p2."
        for key in ("U", "Control+y"):
            with hands.edit():
                hands.press(key)
        assert len(load(small_file).parts) == 2


def test_a_value_is_checked_while_it_is_typed(small_file: Path, tab: Tab) -> None:
    with served(small_file) as address:
        hands = Hands(tab(address))
        hands.go("part:p3")
        hands.press("ArrowRight", "ArrowRight", "ArrowRight", "ArrowRight", "Enter")
        hands.type("33 V")
        hands.page.wait_for_selector("input[aria-invalid=true]")
        assert "has a unit of voltage, not one such as µF" in hands.page.inner_text(
            ".editor output"
        )
        with hands.edit():
            hands.press("Enter")
        assert "has a unit of voltage" in hands.said
        assert str(load(small_file).parts[2].values["capacitance"]) == "47 µF"
        hands.press("Control+a")
        hands.type("33 uf")
        hands.page.wait_for_selector("input[aria-invalid=false]")
        assert "33 µF" in hands.page.inner_text(".editor output")
        with hands.edit():
            hands.press("Enter")
    assert str(load(small_file).parts[2].values["capacitance"]) == "33 µF"


def test_words_of_the_talk_become_a_part_and_a_value(tmp_path: Path, tab: Tab) -> None:
    talk = tmp_path / "lamp.txt"
    talk.write_text("[0:10] a fuse here\n[0:20] it takes two amps they say\n", encoding="utf-8")
    path = tmp_path / "lamp.parts.yaml"
    path.write_text("format: 1\nnarration: {file: lamp.txt}\n", encoding="utf-8")
    with served(path) as address:
        hands = Hands(tab(address))
        hands.press("l", "ArrowRight", "Shift+ArrowRight", "+")
        with hands.edit():
            hands.press("Enter")
        assert (part := load(path).parts[0]).kind == "fuse"
        assert [(heard.at, heard.text) for heard in part.heard] == [(10_000, "a fuse")]
        hands.page.wait_for_selector('.item.current[data-of="part:p1"]')
        hands.press("l", "ArrowDown", *["ArrowRight"] * 3, "Shift+ArrowRight", "v")
        with hands.edit():
            hands.press("Enter")
    assert str(load(path).parts[0].values["rated_current"]) == "2 A"
    assert load(path).parts[0].heard[1].text == "two amps"


def test_pointing_lights_up_the_other_side(tmp_path: Path, tab: Tab) -> None:
    with served(drafted("dynamo-light.json", tmp_path)) as address:
        page = tab(address)
        page.hover("#cues .mark.quantity:text('four hundred and seventy microfarads')")
        assert "470 µF" in page.inner_text("#record .field.lit")
        assert "electrolytic capacitor" in page.inner_text("#record .item.lit")
        page.hover(".item.part .field .text:text-is('10 µH')")
        assert page.inner_text("#cues .mark.lit") == "ten microhenries"


PLAYS_AT = """() => new Promise((tell) => {
  const player = document.querySelector("audio, video");
  const look = (left) => (left && (player.paused || player.seeking || player.readyState < 3)
    ? setTimeout(look, 50, left - 1) : tell(player.paused ? "paused" : player.currentTime));
  look(100);
})"""


@pytest.mark.parametrize("suffix", ENCODINGS)
def test_a_recording_plays_from_two_seconds_before_what_was_pointed_at(
    tmp_path: Path, tab: Tab, suffix: str
) -> None:
    path = drafted("dynamo-light.json", tmp_path)
    recorded(tmp_path / f"dynamo-light{suffix}", 360)
    with served(path) as address:
        hands = Hands(tab(address))
        talk, marks, record = (
            hands.page.evaluate(f"fetch('/api/records/0{path}').then(told => told.json())")
            for path in ("/talk", "/marks", "")
        )
        parts = record["view"]["parts"]
        said = {mark["start"]: mark["at"] / 1000 for mark in marks}
        flagged, doubted = next(
            (name, said[start])
            for name, part in parts.items()
            for start, _, field in part["links"]
            if [field] == [flag.get("field") for flag in part.get("flags", [])]
        )
        first = next(at for start, at in said.items() if start >= talk["cues"][2]["start"])
        hands.page.locator("#cues .cue:nth-child(3)").scroll_into_view_if_needed()
        for place, moment in (
            ("#cues .cue:nth-child(3) .mark >> nth=0", first),
            ('[data-of="part:p12"] .who', seconds(parts["p12"]["heard"][0]["at"])),
            (f'[data-of="part:{flagged}"] .flag', doubted),
        ):
            hands.page.click(place)
            assert hands.page.evaluate(PLAYS_AT) == pytest.approx(moment - 2, abs=1.5)
        hands.press("Escape", " ")
        assert hands.page.evaluate("document.querySelector('audio, video').paused")


def seconds(clock: str) -> float:
    hours, minutes, rest = clock.split(":")
    return int(hours) * 3600 + int(minutes) * 60 + float(rest)


def test_a_recording_that_cannot_be_played_is_told(tmp_path: Path, tab: Tab) -> None:
    path = drafted("dynamo-light.json", tmp_path)
    (tmp_path / "dynamo-light.mp4").write_bytes(b"no film")
    with served(path) as address:
        page = tab(address)
        page.wait_for_selector("#about-talk:has-text('dynamo-light.mp4 cannot be played')")


HOSTILE = [
    '<script>window.hacked = 1</script><img src=x onerror="window.hacked = 1">',
    "right to left \u202e evil \u2066 text \u200f",
    "'\"><svg onload=window.hacked=1>",
    "a" * 10_000,
]


def test_hostile_text_is_text(tmp_path: Path, tab: Tab) -> None:
    lines = [f"[0:{10 + n}] two resistors, maker is {text}" for n, text in enumerate(HOSTILE)]
    (tmp_path / "evil.txt").write_text("\n".join(lines), encoding="utf-8")
    record = Record(NarrationRef("evil.txt"), Device(name=HOSTILE[0], maker=HOSTILE[1]))
    record.boards = [Board("b1", HOSTILE[2])]
    record.parts = [
        Part(f"p{n}", "resistor", maker=text, board="b1", heard=[Heard(10_000 + n * 1000, text)])
        for n, text in enumerate(HOSTILE)
    ]
    record.flags = [Flag("usual-range", "warning", HOSTILE[0], settled=HOSTILE[2])]
    path = tmp_path / "evil.parts.yaml"
    save(record, path)
    with served(path) as address:
        hands = Hands(tab(address))
        for of in ("device", "board:b1", "part:p0", "part:p3"):
            hands.press("Home")
            hands.go(of)
        assert hands.page.evaluate("window.hacked") is None
        assert hands.page.locator("script").count() == 1
        assert HOSTILE[0] in hands.page.inner_text("#cues")
        assert HOSTILE[0] in hands.page.inner_text('[data-of="part:p0"]')
        width = hands.page.evaluate("[document.body.scrollWidth, innerWidth]")
        assert width[0] <= width[1]
        typed(hands, "o", HOSTILE[0])
        assert hands.page.evaluate("window.hacked") is None
    assert load(path).parts[3].colour == HOSTILE[0]
    assert load(path).parts[3].maker == HOSTILE[3]


def test_every_key_is_listed_on_the_page(small_file: Path, tab: Tab) -> None:
    source = (STATIC / "keys.js").read_text(encoding="utf-8")
    table = source[source.index("const TABLE") : source.index("const BY_KEY")]
    with served(small_file) as address:
        hands = Hands(tab(address))
        hands.press("?")
        shown = hands.page.inner_text("#keys")
        assert len(re.findall(r'"([^"]{8,})", \(', table)) > 20
        for what in re.findall(r'"([^"]{8,})", \(', table):
            assert what in shown
        hands.press("Escape")
        hands.press("q")
        assert "? lists the keys" in hands.said


def test_settled_parts_fold_away(small_file: Path, tab: Tab) -> None:
    with served(small_file) as address:
        hands = Hands(tab(address))
        hands.go("part:p2")
        with hands.edit():
            hands.press("s")
        assert hands.page.inner_text("#left").startswith("1 of 3 settled, 1 doubt")
        hands.press("f")
        assert not hands.page.is_visible('[data-of="part:p2"]')
        hands.press("f")
        assert hands.page.is_visible('[data-of="part:p2"]')


def test_lines_are_joined_split_moved_and_quantities_placed(small_file: Path, tab: Tab) -> None:
    with served(small_file) as address:
        hands = Hands(tab(address))
        hands.go("part:p3")
        for keys in (["j", "1", "Enter"], ["x", "Enter"], ["b", *"led", "Enter"]):
            with hands.edit():
                hands.press(*keys)
            hands.go("part:p1")
        hands.press("End", "ArrowUp", "ArrowUp", "Enter")
        hands.type("p1 temp rat")
        with hands.edit():
            hands.press("Enter")
    record = load(small_file)
    assert [(part.id, part.count, part.board) for part in record.parts] == [
        ("p1", 1, "b2"),
        ("p4", 1, "b1"),
        ("p2", 1, None),
    ]
    assert str(record.parts[0].values["temperature_rating"]) == "105 °C"


def test_the_page_has_names_for_a_screen_reader(small_file: Path, tab: Tab) -> None:
    with served(small_file) as address:
        page = tab(address)
        for landmark in ("Talk", "Record", "Doubt"):
            assert page.get_by_label(landmark, exact=True).count() == 1
        named = page.locator('[data-of="part:p1"]').get_attribute("aria-label")
        assert named.startswith("p1, 2, electrolytic capacitor")
        assert "1 doubt" in named
        nameless = (
            "[...document.querySelectorAll('button')].filter(b => !b.innerText && !b.ariaLabel)"
        )
        assert page.evaluate(f"{nameless}.length") == 0
        assert page.locator("#said[aria-live=polite]").count() == 1


def typed(hands: Hands, key: str, text: str) -> None:
    """Open the field of a key, type, and wait until it is saved."""
    hands.press(key)
    hands.type(text)
    with hands.edit():
        hands.press("Enter")
