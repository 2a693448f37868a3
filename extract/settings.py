"""A user's own entries: the file partsaloud.yaml beside the narrations, or in a folder above them.

    makers: [Pellmoor, Haskelby]
    kinds:
      electrolytic capacitor: [lytic, tin can]
    sounds:
      Quessel: [kwessel, kay sell]
    mishearings:
      Dunmarrow: [Dunmarro, done marrow]
    roles:
      snubber: [eats the spikes]
    limits:
      electrolytic capacitor: {capacitance: 1 µF to 100 mF}
    rules:
      usual-range: off
    learned:                                      # written by `partsaloud limits`
      relay: {rated_voltage: {usual: 4.9 V to 25 V, values: 62}}

Every section may be left out; schema/settings.schema.json describes the file to editors.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from extract.errors import RecordError, VocabularyError
from extract.plausibility import Experience, UserLimits
from extract.record.check import located
from extract.record.compose import compose
from extract.record.plain import read_quantity
from extract.record.validate import schema_mistakes
from extract.vocabulary import UserWords

FILE = "partsaloud.yaml"
SCHEMA = "settings.schema.json"
OFF = frozenset({"off", "false"})


@dataclass(frozen=True, slots=True)
class Settings:
    """What a user lays over the vocabulary and the limits.

    `words` are nicknames of kinds, names of makers and how they sound, what is often mis-heard and
    phrases that name roles; `limits` are usual ranges by kind and quantity, those that were
    learned, and the rules that are switched off.
    """

    words: UserWords = field(default_factory=UserWords)
    limits: UserLimits = field(default_factory=UserLimits)


DEFAULT = Settings()


def settings_for(path: Path, folder: Path | None = None, named: Path | None = None) -> Settings:
    """The settings for a file: those of the file `named`, else of the nearest partsaloud.yaml from
    the file's own folder up to `folder`, else the default.

    VocabularyError, the first mistake, if they are not in order.
    """
    found = find_settings(path, folder, named)
    return load_settings(found) if found else DEFAULT


def find_settings(path: Path, folder: Path | None, named: Path | None) -> Path | None:
    """The settings file that goes for a file, None if there is none."""
    return named or _nearest(path.parent, folder or path.parent)


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
        content = path.read_bytes()
    except OSError as error:
        raise VocabularyError(str(path), f"cannot be read: {error.strerror}") from None
    return settings_in(content, path)


@cache
def settings_in(content: bytes, path: Path) -> Settings:
    """The settings in the content of a file, as `load_settings` has them."""
    return _settings(check_settings(content, path))


def check_settings(content: bytes, path: Path) -> dict[str, Any]:
    """The plain form of settings; VocabularyError, the first mistake, if they are not in order."""
    try:
        return _checked(content, path)
    except RecordError as error:
        raise VocabularyError(str(path), error.what, error.hint, error.line, error.column) from None


def _checked(content: bytes, path: Path) -> dict[str, Any]:
    document = compose(content, str(path))
    if not isinstance(document.data, dict):
        raise VocabularyError(str(path), "holds no section", "write one such as 'makers: [Tarn]'")
    for mistake in schema_mistakes(document.data, SCHEMA):
        raise located(document, mistake)
    return document.data


def _settings(plain: Mapping[str, Any]) -> Settings:
    heard = {meant: tuple(ways) for meant, ways in plain.get("mishearings", {}).items()}
    nicknames = {kind: tuple(names) for kind, names in plain.get("kinds", {}).items()}
    usual = {
        kind: {quantity: read_quantity(text) for quantity, text in rows.items()}
        for kind, rows in plain.get("limits", {}).items()
    }
    rules = plain.get("rules", {})
    off = frozenset(rule for rule, state in rules.items() if state.lower() in OFF)
    said = {role: tuple(phrases) for role, phrases in plain.get("roles", {}).items()}
    sounds = {maker: tuple(ways) for maker, ways in plain.get("sounds", {}).items()}
    words = UserWords(nicknames, tuple(plain.get("makers", ())), heard, said, sounds)
    return Settings(words, UserLimits(usual, off, dict(_learned(plain))))


def _learned(plain: Mapping[str, Any]) -> Iterator[tuple[tuple[str, str], Experience]]:
    for kind, rows in plain.get("learned", {}).items():
        for quantity, row in rows.items():
            yield (kind, quantity), Experience(read_quantity(row["usual"]), int(row["values"]))
