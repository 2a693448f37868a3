"""Wording with alternatives: "(there is|there's) {thing}[, right at the edge]".

`(a|b|c)` takes one of the alternatives, `[a]` is said or left out, `{name}` is filled in. They may
stand in one another. A template is read once and kept.
"""

import re
from collections.abc import Callable, Mapping
from functools import cache
from random import Random
from typing import TypeAlias

Node: TypeAlias = "str | tuple[str, tuple[tuple[Node, ...], ...]]"
_TOKEN = re.compile(r"[()\[\]|]|\{[\w']+\}|[^()\[\]|{}]+")


@cache
def _read(template: str) -> tuple[Node, ...]:
    tokens = _TOKEN.findall(template)
    if "".join(tokens) != template:
        raise ValueError(f"a brace too many or too few: {template!r}")
    position = 0

    def choices(closing: str) -> tuple[tuple[Node, ...], ...]:
        nonlocal position
        rows: list[tuple[Node, ...]] = []
        row: list[Node] = []
        while position < len(tokens):
            token = tokens[position]
            position += 1
            if token == closing:
                return (*rows, tuple(row))
            if token == "|" and closing:
                rows.append(tuple(row))
                row = []
            elif token == "(":
                row.append(("(", choices(")")))
            elif token == "[":
                row.append(("[", choices("]")))
            elif token in ")]":
                raise ValueError(f"brackets do not match: {template!r}")
            else:
                row.append(token)
        if closing:
            raise ValueError(f"brackets do not match: {template!r}")
        return (*rows, tuple(row))

    return choices("")[0]


def expand(template: str, rng: Random, fill: Mapping[str, str | Callable[[], str]]) -> str:
    """One way of saying `template`; raises KeyError for a name that `fill` does not know."""
    return _say(_read(template), rng, fill)


def _say(row: tuple[Node, ...], rng: Random, fill: Mapping[str, str | Callable[[], str]]) -> str:
    said = []
    for node in row:
        if isinstance(node, str):
            if node[0] == "{":
                filling = fill[node[1:-1]]
                said.append(filling if isinstance(filling, str) else filling())
            else:
                said.append(node)
        elif node[0] == "(" or rng.random() < 0.5:
            said.append(_say(rng.choice(node[1]), rng, fill))
    return "".join(said)


def names_in(template: str) -> set[str]:
    """The names that a template wants filled in, in any of its alternatives."""
    return {token[1:-1] for token in _TOKEN.findall(template) if token[0] == "{"}
