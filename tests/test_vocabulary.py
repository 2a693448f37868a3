"""The vocabulary is in order: every file keeps to the schema, and names only what exists."""

import json
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator, FormatChecker

from extract.resources import load_yaml, read_text

FOLDER = Path(__file__).parent.parent / "schema" / "vocabulary"
FILES = {path.stem: path.read_text(encoding="utf-8") for path in sorted(FOLDER.glob("*.yaml"))}
SCHEMA = json.loads(read_text("vocabulary.schema.json"))
NAMES = load_yaml("names.yaml")
KINDS = {*NAMES["kinds"], *(kind for below in NAMES["kinds"].values() for kind in below)}


def words(name: str) -> Any:
    return yaml.load(FILES[name], Loader=yaml.BaseLoader)


def test_the_schema_is_in_order_itself_and_describes_every_file() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert set(SCHEMA["properties"]) == set(FILES)


@pytest.mark.parametrize("name", FILES)
def test_a_vocabulary_file_keeps_to_the_schema(name: str) -> None:
    errors = Draft202012Validator(SCHEMA, format_checker=FormatChecker()).iter_errors(
        {name: words(name)}
    )
    assert [f"{list(error.absolute_path)}: {error.message:.200}" for error in errors] == []


@pytest.mark.parametrize("name", FILES)
def test_no_key_stands_twice(name: str) -> None:
    assert list(_repeated(yaml.compose(FILES[name], Loader=yaml.BaseLoader))) == []


def _repeated(node: yaml.Node) -> Iterator[str]:
    """The keys that stand twice in one mapping, with their lines; YAML readers drop the first."""
    if isinstance(node, yaml.MappingNode):
        seen = Counter(key.value for key, _ in node.value)
        yield from (
            f"{k.value}, line {k.start_mark.line + 1}" for k, _ in node.value if seen[k.value] > 1
        )
    inner = [value for _, value in node.value] if isinstance(node, yaml.MappingNode) else node.value
    for child in inner if isinstance(node, yaml.CollectionNode) else ():
        yield from _repeated(child)


@pytest.mark.parametrize("name", FILES)
def test_a_vocabulary_file_explains_itself_at_its_top(name: str) -> None:
    head = FILES[name].split("\n\n", 1)[0]
    assert all(line.startswith("#") for line in head.splitlines())


def test_a_section_that_nobody_reads_is_refused() -> None:
    errors = list(Draft202012Validator(SCHEMA).iter_errors({"counts": {"cuonts": {}}}))
    assert len(errors) == 1
    assert "'cuonts' was unexpected" in errors[0].message


def test_kinds_and_roles_of_the_vocabulary_are_those_of_a_record() -> None:
    kinds = words("kinds")
    assert set(kinds) - {"*", "none"} == KINDS
    assert {row["role"] for row in kinds.values() if "role" in row} <= set(NAMES["roles"])
    roles = words("roles")
    assert set(roles) <= set(NAMES["roles"])
    assert {kind for row in roles.values() for kind in row.get("kinds", ())} <= KINDS


def test_quantities_of_the_vocabulary_are_those_of_a_record() -> None:
    quantities = set(NAMES["quantities"])
    assert set(words("properties")) <= quantities
    for kind, row in words("kinds").items():
        named = {name for of, name in row.get("values", {}).items() if of != "sides"}
        assert named <= quantities, kind
