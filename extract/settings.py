"""A user's own entries: the file partsaloud.yaml beside the narrations, or in a folder above them.

    makers: [Pellmoor, Haskelby]
    kinds:
      electrolytic capacitor: [lytic, tin can]
    mishearings:
      Dunmarrow: [done marrow, Dunmarro]
    limits:
      electrolytic capacitor: {capacitance: 1 µF to 100 mF}
    rules:
      usual-range: off

Every section may be left out; schema/settings.schema.json describes the file to editors.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from extract.errors import RecordError, VocabularyError
from extract.vocabulary import UserWords

if TYPE_CHECKING:
    from extract.units import Quantity

FILE = "partsaloud.yaml"
SCHEMA = "settings.schema.json"
OFF = frozenset({"off", "false"})


@dataclass(frozen=True, slots=True)
class Settings:
    """What a user lays over the vocabulary and the limits.

    `words` are nicknames of kinds and names of makers; `mishearings` tells for what is meant what
    the recogniser writes in its place; `limits` is the usual range by kind and quantity;
    `rules_off` are the names of rules that are switched off.
    """

    words: UserWords = field(default_factory=UserWords)
    mishearings: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    limits: Mapping[str, Mapping[str, Quantity]] = field(default_factory=dict)
    rules_off: frozenset[str] = frozenset()


DEFAULT = Settings()


def settings_for(path: Path, folder: Path | None = None, named: Path | None = None) -> Settings:
    """The settings for a file: those of the file `named`, else of the nearest partsaloud.yaml from
    the file's own folder up to `folder`, else the default.

    VocabularyError, the first mistake, if they are not in order.
    """
    found = named or _nearest(path.parent, folder or path.parent)
    return load_settings(found) if found else DEFAULT


def _nearest(start: Path, top: Path) -> Path | None:
    for folder in (start, *start.parents):
        if (folder / FILE).is_file():
            return folder / FILE
        if folder == top:
            return None
    return None


@cache
def load_settings(path: Path) -> Settings:
    """The settings in a file; VocabularyError, the first mistake, if they are not in order."""
    try:
        return _settings(_checked(path))
    except RecordError as error:
        raise VocabularyError(str(path), error.what, error.hint, error.line, error.column) from None
    except OSError as error:
        raise VocabularyError(str(path), f"cannot be read: {error.strerror}") from None


def _checked(path: Path) -> dict[str, Any]:
    from extract.record.check import located
    from extract.record.compose import compose
    from extract.record.validate import schema_mistakes

    document = compose(path.read_bytes(), str(path))
    if not isinstance(document.data, dict):
        raise VocabularyError(str(path), "holds no section", "write one such as 'makers: [Tarn]'")
    for mistake in schema_mistakes(document.data, SCHEMA):
        raise located(document, mistake)
    return document.data


def _settings(plain: Mapping[str, Any]) -> Settings:
    from extract.record.plain import read_quantity

    limits = plain.get("limits", {})
    return Settings(
        words=UserWords(
            nicknames=_words(plain.get("kinds", {})), makers=tuple(plain.get("makers", ()))
        ),
        mishearings=_words(plain.get("mishearings", {})),
        limits={
            kind: {quantity: read_quantity(usual) for quantity, usual in rows.items()}
            for kind, rows in limits.items()
        },
        rules_off=frozenset(
            rule for rule, state in plain.get("rules", {}).items() if state.lower() in OFF
        ),
    )


def _words(plain: Mapping[str, list[str]]) -> dict[str, tuple[str, ...]]:
    return {name: tuple(words) for name, words in plain.items()}
