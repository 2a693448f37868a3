"""The server: who is let in, what the JSON says, recordings in ranges. No browser needed."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Event
from typing import Any

import httpx
import pytest
from fastapi.testclient import TestClient
from reviewing import SMALL, drafted, served

from extract.plausibility import UserLimits
from extract.record import Record, load
from extract.review.app import make_app
from extract.review.document import flagged
from extract.review.entries import open_entry

PORT = 8123
BASE = f"http://127.0.0.1:{PORT}"
TOKEN = "a-token-for-tests"
OWN = {"Origin": BASE}
API = "/api/records/0"


def stranger(*paths: Path) -> TestClient:
    """A client that was not given the token."""
    app = make_app([open_entry(path) for path in paths], TOKEN, PORT)
    return TestClient(app, base_url=BASE, follow_redirects=False)


@pytest.fixture
def client(small_file: Path) -> TestClient:
    return let_in(stranger(small_file))


def let_in(client: TestClient) -> TestClient:
    assert client.get("/", params={"token": TOKEN}).status_code == 303
    return client


def edited(client: TestClient, **asked: Any) -> Any:
    version = client.get(API).json()["version"]
    return client.post(f"{API}/edits", json={"version": version, "edit": asked}, headers=OWN)


# who is let in


@pytest.mark.parametrize(
    "path", ["/", "/records/0", API, f"{API}/talk", "/static/main.js", "/openapi.json"]
)
def test_nothing_is_told_without_the_token(small_file: Path, path: str) -> None:
    answer = stranger(small_file).get(path)
    assert answer.status_code == 403
    assert "token" in answer.text
    assert stranger(small_file).get(path, params={"token": "guessed"}).status_code == 403


def test_the_token_becomes_a_cookie_and_leaves_the_address(small_file: Path) -> None:
    answer = stranger(small_file).get("/", params={"token": TOKEN})
    cookie = answer.headers["set-cookie"]
    assert answer.headers["location"] == "/"
    assert "HttpOnly" in cookie
    assert "SameSite=strict" in cookie


@pytest.mark.parametrize(
    "host", ["example.org", "127.0.0.1:1", f"127.0.0.1.example.org:{PORT}", ""]
)
def test_a_foreign_name_that_leads_here_is_turned_away(client: TestClient, host: str) -> None:
    assert client.get(API, headers={"Host": host}).status_code == 403


@pytest.mark.parametrize("origin", ["http://example.org", "null", f"http://127.0.0.1:{PORT + 1}"])
def test_another_page_can_neither_read_nor_edit(client: TestClient, origin: str) -> None:
    asked = {"version": "", "edit": {"op": "confirm", "of": "record"}}
    for headers in ({"Origin": origin}, {}):
        assert client.post(f"{API}/edits", json=asked, headers=headers).status_code == 403
    assert client.get(API, headers={"Origin": origin}).status_code == 403


@pytest.mark.parametrize("path", ["/records/0", API, "/static/main.js", "/nowhere"])
def test_every_answer_carries_the_strict_policy(client: TestClient, path: str) -> None:
    headers = client.get(path).headers
    assert "default-src 'none'" in headers["content-security-policy"]
    assert "unsafe" not in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"


def test_only_files_of_the_page_are_served(client: TestClient) -> None:
    for path in ("/static/../app.py", "/static/%2e%2e/app.py", "/static//etc/passwd", "/docs"):
        assert client.get(path).status_code == 404


def test_the_page_loads_nothing_from_elsewhere() -> None:
    folder = Path(make_app.__code__.co_filename).parent
    for path in [*folder.glob("static/*"), *folder.glob("templates/*")]:
        text = path.read_text(encoding="utf-8").replace("http://www.w3.org/2000/svg", "")
        assert "http://" not in text
        assert "https://" not in text
        assert "innerHTML" not in text


# what the JSON says


def test_the_interface_is_described(client: TestClient) -> None:
    paths = client.get("/openapi.json").json()["paths"]
    assert {"post"} == set(paths["/api/records/{number}/edits"])
    schemas = client.get("/openapi.json").json()["components"]["schemas"]
    assert {"SetField", "Join", "Keep", "State", "TalkView"} <= set(schemas)


def test_the_state_holds_the_record_and_what_is_left(client: TestClient) -> None:
    view = client.get(API).json()["view"]
    assert view["order"] == ["p1", "p2", "p3"]
    assert view["progress"]["parts"] == 3
    assert view["progress"]["settled"] == 0
    assert view["parts"]["p2"]["values"] == {"resistance": "4.7 kΩ"}
    assert view["cautions"]


def test_an_edit_is_answered_with_what_changed_alone(client: TestClient, small_file: Path) -> None:
    answer = edited(client, op="set", of="part:p2", field="value", text="47k").json()
    assert answer["whole"] is False
    assert list(answer["view"]["parts"]) == ["p2"]
    assert str(load(small_file).parts[1].values["resistance"]) == "47 kΩ"
    assert answer["undo"] == "resistance of p2"


def test_the_present_state_is_not_sent_again(client: TestClient) -> None:
    state = client.get(API).json()
    again = client.get(API, params={"version": state["version"]}).json()
    assert again == {"version": state["version"], "mistakes": []}


def test_a_late_edit_is_refused_with_what_stands_there(client: TestClient) -> None:
    stale = client.get(API).json()["version"]
    edited(client, op="set", of="part:p2", field="maker", text="Orrin")
    late = {"op": "set", "of": "part:p2", "field": "maker", "text": "Tarn"}
    answer = client.post(f"{API}/edits", json={"version": stale, "edit": late}, headers=OWN)
    assert answer.status_code == 409
    assert answer.json()["stale"] is True
    assert answer.json()["now"] == "Orrin"


@pytest.mark.parametrize(
    "asked",
    [{"op": "set", "of": "part:p2", "field": "kind", "text": "gadget"}, {"op": "explode"}, {}],
)
def test_what_cannot_be_done_is_one_sentence(client: TestClient, asked: dict[str, str]) -> None:
    answer = edited(client, **asked)
    assert answer.status_code == 422
    assert answer.json()["problem"]


def test_a_text_is_checked_as_it_is_typed(client: TestClient) -> None:
    asked = {"of": "part:p1", "field": "values.capacitance", "text": "33 uf"}
    assert client.get(f"{API}/check", params=asked).json() == {
        "field": "values.capacitance",
        "text": "33 µF",
        "problem": "",
    }
    refused = client.get(f"{API}/check", params=asked | {"text": "33 V"}).json()
    assert "unit of voltage" in refused["problem"]


def test_undo_and_redo_go_over_the_wire(client: TestClient) -> None:
    before = client.get(API).json()["view"]
    version = edited(client, op="remove", of="part:p2").json()["version"]
    undone = client.post(f"{API}/undo", json={"version": version}, headers=OWN).json()
    assert client.get(API).json()["view"] == before
    redone = client.post(f"{API}/redo", json={"version": undone["version"]}, headers=OWN).json()
    assert redone["view"]["order"] == ["p1", "p3"]


def test_no_edit_waits_for_the_doubts_about_another(
    small_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun, go_on = Event(), Event()

    def thought_over(record: Record, limits: UserLimits) -> Record:
        begun.set()
        assert go_on.wait(20)
        return flagged(record, limits)

    monkeypatch.setattr("extract.review.entries.flagged", thought_over)
    with served(small_file) as address, ThreadPoolExecutor() as other_tab:
        base = address.partition("/?")[0]
        with httpx.Client(base_url=base, headers={"Origin": base}, follow_redirects=True) as client:
            client.get(address)
            version = client.get(API).json()["version"]
            for number, text in enumerate(["4.7 GΩ", "4.8 GΩ"]):
                asked = {"op": "set", "of": "part:p2", "field": "value", "text": text}
                answer = client.post(f"{API}/edits", json={"version": version, "edit": asked})
                version = answer.json()["version"]
                if number == 0:
                    doubted = other_tab.submit(client.get, API)
                    assert begun.wait(20)
            go_on.set()
            part = doubted.result().json()["view"]["parts"]["p2"]
    assert part["values"] == {"resistance": "4.8 GΩ"}
    assert [flag["rule"] for flag in part["flags"]] == ["usual-range"]
    assert "4.8 GΩ" in part["flags"][0]["message"]


def test_a_folder_of_records_is_listed(tmp_path: Path) -> None:
    paths = [tmp_path / "one.yaml", tmp_path / "<b>two.yaml"]
    for path in paths:
        path.write_text(SMALL, encoding="utf-8")
    page = let_in(stranger(*paths)).get("/").text
    assert "/records/1" in page
    assert "<b>two" not in page
    assert "&lt;b&gt;two.yaml" in page


# the talk and its recording


def test_the_talk_comes_in_order_with_its_marks_and_the_words_of_fields(tmp_path: Path) -> None:
    client = let_in(stranger(drafted("dynamo-light.json", tmp_path)))
    talk = client.get(f"{API}/talk").json()
    text = " ".join(cue["text"] for cue in talk["cues"])
    assert talk["problem"] == ""
    marks = client.get(f"{API}/marks").json()
    quantities = {m["readings"][0]: text[m["start"] : m["end"]] for m in marks}
    assert quantities["470 µF"] == "four hundred and seventy microfarads"
    part = next(
        part
        for part in client.get(API).json()["view"]["parts"].values()
        if part.get("values", {}).get("capacitance") == "470 µF"
    )
    words = {field: text[first:last] for first, last, field in part["links"]}
    assert words["values.capacitance"] == "four hundred and seventy microfarads"
    assert "capacitor" in words["kind"]


def test_without_the_narration_the_quotes_are_shown(client: TestClient) -> None:
    talk = client.get(f"{API}/talk").json()
    assert talk["problem"] == "lamp.txt does not lie beside the record"
    assert [cue["text"] for cue in talk["cues"]][1] == "a four k seven"


def test_the_narration_is_never_read_from_another_folder(tmp_path: Path) -> None:
    (tmp_path / "secret.txt").write_text("[0:01] two fuses", encoding="utf-8")
    (tmp_path / "inner").mkdir()
    path = tmp_path / "inner" / "lamp.parts.yaml"
    path.write_text(SMALL.replace("lamp.txt", "../secret.txt"), encoding="utf-8")
    assert "two fuses" not in let_in(stranger(path)).get(f"{API}/talk").text


def test_a_recording_beside_the_narration_comes_in_ranges(small_file: Path) -> None:
    (small_file.parent / "lamp.txt").write_text("[1:00] two cans, 33 mike", encoding="utf-8")
    (small_file.parent / "lamp.mp3").write_bytes(bytes(range(200)))
    client = let_in(stranger(small_file))
    assert client.get(f"{API}/talk").json()["recording"] == {
        "type": "audio/mpeg",
        "name": "lamp.mp3",
    }
    answer = client.get(f"{API}/recording", headers={"Range": "bytes=10-19"})
    assert answer.status_code == 206
    assert answer.content == bytes(range(10, 20))


def test_the_recording_of_a_camera_that_writes_capitals_is_found(small_file: Path) -> None:
    (small_file.parent / "lamp.txt").write_text("[1:00] two cans, 33 mike", encoding="utf-8")
    (small_file.parent / "lamp.MP4").write_bytes(b"film")
    client = let_in(stranger(small_file))
    assert client.get(f"{API}/recording").headers["content-type"] == "video/mp4"


def test_without_a_recording_none_is_offered(client: TestClient) -> None:
    assert client.get(f"{API}/talk").json()["recording"] is None
    assert client.get(f"{API}/recording").status_code == 422


def test_the_words_of_an_unplaced_quantity_are_found(small_file: Path) -> None:
    said = "[2:30] and 105 degrees\n[2:40] at five volts, she says\n"
    (small_file.parent / "lamp.txt").write_text(said, encoding="utf-8")
    view = let_in(stranger(small_file)).get(API).json()["view"]
    assert [one["spans"] for one in view["unplaced"]] == [[[0, 15]], [[16, 29]]]


def test_characters_are_counted_as_a_browser_counts_them(small_file: Path) -> None:
    said = "[2:30] 🔧🔧 and 105 degrees\n[2:40] at five volts\n"
    (small_file.parent / "lamp.txt").write_text(said, encoding="utf-8")
    client = let_in(stranger(small_file))
    assert [cue["start"] for cue in client.get(f"{API}/talk").json()["cues"]] == [0, 21]
    unplaced = client.get(API).json()["view"]["unplaced"]
    assert [one["spans"] for one in unplaced] == [[[5, 20]], [[21, 34]]]
