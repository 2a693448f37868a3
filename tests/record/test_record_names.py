"""The names of the record stand in two files: they have to be the same, and in order."""

import json

from jsonschema import Draft202012Validator

from extract.record.names import dimensions, lineage, parents, quantity_names, unit_of
from extract.resources import load_yaml, read_text
from extract.units import Quantity, read, unit

SCHEMA = json.loads(read_text("record.schema.json"))
NAMES = load_yaml("names.yaml")
PART = SCHEMA["$defs"]["part"]["properties"]
PORT_FIELDS = {"name", "protocols", "outputs", "inputs"}


def test_the_schema_is_in_order_itself() -> None:
    Draft202012Validator.check_schema(SCHEMA)


def test_the_schema_knows_every_kind_role_and_safety_class() -> None:
    kinds = [kind for top, below in NAMES["kinds"].items() for kind in (top, *below)]
    assert PART["kind"]["enum"] == kinds
    assert PART["role"]["enum"] == NAMES["roles"]
    assert PART["safety_class"]["enum"] == NAMES["safety_classes"]


def test_the_schema_checks_every_quantity_by_its_name() -> None:
    wanted = {name: f"quantity:{name}" for name in quantity_names()}
    for place in ("values", "port"):
        properties = SCHEMA["$defs"][place]["properties"]
        formats = {k: v["format"] for k, v in properties.items() if k not in PORT_FIELDS}
        assert formats == wanted


def test_no_kind_stands_twice() -> None:
    kinds = PART["kind"]["enum"]
    assert len(kinds) == len(set(kinds))


def test_a_kind_descends_from_its_parent() -> None:
    assert lineage("battery pack") == ["battery pack", "battery cell"]
    assert lineage("fuse") == ["fuse"]
    assert parents()["sic mosfet"] == "transistor"


def test_every_dimension_has_a_unit_that_measures_it() -> None:
    for name in quantity_names():
        for dimension in dimensions(name):
            if dimension != "number":
                assert unit(unit_of(dimension)).dimension == dimension, name


def test_an_unknown_quantity_has_no_dimensions() -> None:
    assert dimensions("loudness") == ()


def test_a_bare_number_is_a_number() -> None:
    value = read("4")
    assert isinstance(value, Quantity)
    assert value.dimension in dimensions("pin_count")
