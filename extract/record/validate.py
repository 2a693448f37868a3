"""JSON Schema validation of plain records: every mistake as a path and one sentence.

The schema's formats are read by the units: "quantity:capacitance" is a capacitance, "supply" a
supply point, "size" a size, "quantity" any of the three.
"""

import json
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache, partial
from typing import Any

from extract.record.compose import Path
from extract.record.names import dimensions, quantity_names, unit_of
from extract.record.plain import read_quantity, read_size, read_supply
from extract.resources import read_text
from extract.units import Quantity, Size, SupplyPoint, read

SCHEMA = "record.schema.json"
TYPES = {
    "object": "'name: value' lines",
    "array": "a list",
    "string": "a text",
    "integer": "a whole number",
}
PATTERNS = {
    "at": ("is not a time", "write h:mm:ss, such as 0:01:31"),
    "duration": ("is not a time", "write h:mm:ss, such as 0:06:12"),
    "count": ("is not a number of pieces", "write a whole number, 1 or more"),
    "rule": ("is not the name of a rule", "write it in small letters with hyphens: usual-range"),
}


@dataclass(frozen=True, slots=True)
class Mistake:
    """One mistake: where in the record, what is wrong, what to do; `at_key` if the key is wrong."""

    path: Path
    what: str
    hint: str = ""
    at_key: bool = False


def schema_mistakes(plain: Any, schema: str = SCHEMA) -> list[Mistake]:
    """Every place where plain data departs from the schema, that of the record or another one."""
    errors = _validator(schema).iter_errors(plain)
    found = (mistake for error in errors for mistake in SENTENCES[error.validator](error))
    return list(dict.fromkeys(found))


@cache
def names_of(sort: str, field: str) -> tuple[str, ...]:
    """The names among which the schema of the record lets a field of a part, a port, a board or the
    device choose; none if any text may stand there."""
    shapes = json.loads(read_text(SCHEMA))
    shape = shapes["$defs"].get(sort) or shapes["properties"].get(sort, {})
    names = shape.get("properties", {}).get(field, {}).get("enum", ())
    return tuple(name for name in names if isinstance(name, str))


@cache
def _validator(schema: str) -> Any:
    from jsonschema import Draft202012Validator, FormatChecker, validators

    checker = FormatChecker(formats=())
    for name, check in FORMATS.items():
        checker.checks(name, raises=ValueError)(check)
    for name in quantity_names():
        checker.checks(f"quantity:{name}", raises=ValueError)(partial(check_quantity, name))
    extend: Any = validators.extend  # it carries no types
    with_fast_names = extend(Draft202012Validator, {"enum": _enum})
    return with_fast_names(json.loads(read_text(schema)), format_checker=checker)


def _enum(_validator: Any, names: list[Any], instance: Any, _schema: Any) -> Iterator[Any]:
    """As jsonschema's own, which compares with every name in turn: 20 times slower here."""
    from jsonschema import ValidationError

    if instance not in names:
        yield ValidationError(f"{instance!r} is not one of {names!r}")


# formats: each takes the text and raises ValueError with the sentence


def check_quantity(name: str, text: Any) -> bool:
    """Whether the text is a quantity of a dimension that the named quantity can have."""
    quantity = read_quantity(str(text))
    allowed = dimensions(name)
    if quantity.dimension not in allowed:
        wanted = " or ".join(unit_of(dimension) for dimension in allowed[:2])
        raise ValueError(f"'{text}' has a unit of {quantity.dimension}, not one such as {wanted}")
    return True


def _reads(reader: Callable[[str], Quantity | SupplyPoint | Size], text: Any) -> bool:
    reader(str(text))
    return True


FORMATS: dict[str, Callable[[Any], bool]] = {
    "quantity": partial(_reads, read),
    "single": partial(_reads, read_quantity),
    "supply": partial(_reads, read_supply),
    "size": partial(_reads, read_size),
}

# sentences: one function a keyword of the schema, from jsonschema's error to mistakes


def _unknown_value(error: Any) -> Iterator[Mistake]:
    names = [name for name in error.validator_value if isinstance(name, str)]
    hint = nearest(str(error.instance), names)
    if "propertyNames" in error.absolute_schema_path:
        path = (*_path(error), error.instance)
        yield Mistake(path, f"'{error.instance}' is not known", hint, at_key=True)
    else:
        yield Mistake(_path(error), f"{_label(error)} '{error.instance}' is not known", hint)


def _unknown_keys(error: Any) -> Iterator[Mistake]:
    names = error.schema["properties"]
    for key in error.instance:
        if key not in names:
            what = f"'{key}' is not a name that belongs here"
            yield Mistake((*_path(error), key), what, nearest(key, names), at_key=True)


def _missing_keys(error: Any) -> Iterator[Mistake]:
    for name in error.validator_value:
        if name not in error.instance:
            yield Mistake(_path(error), f"{_label(error)} has no '{name}'")


def _wrong_type(error: Any) -> Iterator[Mistake]:
    wanted = error.validator_value
    wanted = wanted if isinstance(wanted, str) else wanted[0]
    if error.instance is None:
        yield Mistake(_path(error), f"{_label(error)} is empty")
    else:
        yield Mistake(_path(error), f"{_label(error)} must be {TYPES[wanted]}")


def _wrong_format(error: Any) -> Iterator[Mistake]:
    yield Mistake(_path(error), f"{_label(error)}: {error.cause}")


def _wrong_pattern(error: Any) -> Iterator[Mistake]:
    what, hint = PATTERNS[error.absolute_path[-1]]
    yield Mistake(_path(error), f"{_label(error)} '{error.instance}' {what}", hint)


def _empty(error: Any) -> Iterator[Mistake]:
    yield Mistake(_path(error), f"{_label(error)} is empty", "fill it in or take the line out")


SENTENCES: dict[str, Callable[[Any], Iterator[Mistake]]] = {
    "enum": _unknown_value,
    "additionalProperties": _unknown_keys,
    "required": _missing_keys,
    "type": _wrong_type,
    "format": _wrong_format,
    "pattern": _wrong_pattern,
    "minimum": _wrong_pattern,
    "minLength": _empty,
}


def nearest(name: str, names: Iterable[str]) -> str:
    """What to do about a name that is not known: the nearest one, or the choice if it is small."""
    known = list(names)
    if close := get_close_matches(name.lower(), known, n=1, cutoff=0.7):
        return f"did you mean '{close[0]}'?"
    return f"choose from {', '.join(known)}" if 0 < len(known) <= 9 else ""


def _path(error: Any) -> Path:
    return tuple(error.absolute_path)


def _label(error: Any) -> str:
    """What the sentence is about: the field's name, or the entry of which list."""
    path = _path(error)
    if not path:
        return "the record"
    if isinstance(path[-1], int):
        return f"entry {path[-1] + 1} of {path[-2]}"
    return str(path[-1])
