"""Whether a plain record keeps to its schema, answered fast and without saying why.

The schema is turned into plain functions once: thousands of records are read in the time that
their YAML takes. What is not sound is told by `check_text`, which agrees with this in every case.
"""

import json
import re
from collections.abc import Callable
from functools import cache
from typing import Any

from extract.record.check import REFERENCES
from extract.record.names import quantity_names
from extract.record.validate import FORMATS, SCHEMA, check_quantity
from extract.resources import read_text

Test = Callable[[Any], bool]
Schema = dict[str, Any]


def is_sound(plain: Any) -> bool:
    """Whether `check` finds no mistake in the plain form of a record, as `quick` reads it."""
    return _record()(plain) and not any(True for rule in REFERENCES for _ in rule(plain))


@cache
def _record() -> Test:
    root = json.loads(read_text(SCHEMA))
    return _test(root, root)


def _test(schema: Schema, root: Schema) -> Test:
    """The function that tests a plain value against a schema; every scalar is a text."""
    if "$ref" in schema:
        return _test(root["$defs"][schema["$ref"].removeprefix("#/$defs/")], root)
    if schema.get("type") == "object":
        return _object(schema, root)
    if schema.get("type") == "array":
        return _array(_test(schema["items"], root))
    return _text(schema)


def _object(schema: Schema, root: Schema) -> Test:
    tests = {name: _test(inner, root) for name, inner in schema["properties"].items()}
    required = set(schema.get("required", ()))

    def test(value: Any) -> bool:
        if type(value) is not dict or not required <= value.keys():
            return False
        for name, inner in value.items():
            inner_test = tests.get(name)
            if inner_test is None or not inner_test(inner):
                return False
        return True

    return test


def _array(item: Test) -> Test:
    return lambda value: type(value) is list and all(map(item, value))


def _text(schema: Schema) -> Test:
    if "enum" in schema:
        return _one_of(frozenset(name for name in schema["enum"] if isinstance(name, str)))
    if "pattern" in schema:
        matches = re.compile(schema["pattern"]).search
        return lambda value: type(value) is str and matches(value) is not None
    if "format" in schema:
        return _formatted(schema["format"])
    return lambda value: type(value) is str and value != ""


def _one_of(names: frozenset[str]) -> Test:
    return lambda value: type(value) is str and value in names


def _formatted(name: str) -> Test:
    """Quantities repeat from record to record: those that were found good are remembered."""
    good: set[str] = set()
    quantity = name.removeprefix("quantity:")

    def test(value: Any) -> bool:
        if type(value) is not str:
            return False
        if value not in good:
            try:
                check_quantity(quantity, value) if quantity in _names() else FORMATS[name](value)
            except ValueError:
                return False
            good.add(value)
        return True

    return test


@cache
def _names() -> frozenset[str]:
    return frozenset(quantity_names())
