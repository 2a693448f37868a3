"""The only door to schema/: in the installed package it lies inside it, in a checkout beside it."""

from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any

import yaml


def resource(name: str) -> Traversable:
    """The data file `name` of schema/, for example "vocabulary/kinds.yaml"."""
    installed = files("extract") / "schema"
    root: Traversable = (
        installed if installed.is_dir() else Path(__file__).resolve().parent.parent / "schema"
    )
    return root.joinpath(*name.split("/"))


def read_text(name: str) -> str:
    """The text of a data file of schema/."""
    return resource(name).read_text(encoding="utf-8")


@cache
def load_words(name: str) -> Any:
    """A YAML data file of schema/ with every scalar as text, so that `no` and `on` stay words."""
    return yaml.load(read_text(name), Loader=getattr(yaml, "CBaseLoader", yaml.BaseLoader))


@cache
def load_yaml(name: str) -> Any:
    """A YAML data file of schema/, read once. Do not change what it returns."""
    return yaml.load(read_text(name), Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
