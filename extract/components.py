"""The recognisers as spaCy components, by name: importing this module registers them.

They are entry points too, so `spacy.blank("en").add_pipe("partsaloud_numbers")` works wherever the
package is installed, and their spans stand in `doc.spans`. In the order of this table each finds
what it reads already found; hearing comes first, since it rewrites the words for all of them.
"""

from collections.abc import Callable, Mapping
from typing import Any

from spacy.language import Language

from extract.hearing import Hearing
from extract.mentions.boards import board_table
from extract.mentions.colours import ColourFinder
from extract.mentions.counts import PinFinder
from extract.mentions.kinds import KindFinder
from extract.mentions.makers import MakerFinder
from extract.mentions.markings import MarkingFinder
from extract.mentions.numbers import NumberFinder
from extract.mentions.packages import PackageFinder
from extract.mentions.quantities import QuantityFinder
from extract.mentions.tables import TableFinder, cue_table, property_table, role_table
from extract.vocabulary import UserWords

Factory = Callable[[Language, str], Any]


def _component(name: str, build: Callable[[], Any]) -> Factory:
    """Register a component that takes no configuration."""

    def make(nlp: Language, name: str) -> Any:
        return build()

    Language.factory(name, func=make)
    return make


@Language.factory("partsaloud_hearing", default_config={"mishearings": {}, "makers": {}})
def hearing(
    nlp: Language, name: str, mishearings: Mapping[str, list[str]], makers: Mapping[str, list[str]]
) -> Hearing:
    """Repairs what the recogniser mangled, by a user's own `mishearings` too, and by how `makers`
    sound."""
    return Hearing(mishearings, makers)


numbers = _component("partsaloud_numbers", NumberFinder)
quantities = _component("partsaloud_quantities", QuantityFinder)
packages = _component("partsaloud_packages", PackageFinder)
markings = _component("partsaloud_markings", MarkingFinder)
colours = _component("partsaloud_colours", ColourFinder)


@Language.factory("partsaloud_kinds", default_config={"nicknames": {}})
def kinds(nlp: Language, name: str, nicknames: Mapping[str, list[str]]) -> KindFinder:
    """Finds kinds, by a user's own `nicknames` too: kind, and what it is called."""
    return KindFinder(UserWords({kind: tuple(words) for kind, words in nicknames.items()}))


@Language.factory("partsaloud_roles", default_config={"roles": {}})
def roles(nlp: Language, name: str, roles: Mapping[str, list[str]]) -> TableFinder:
    """Finds roles, by a user's own phrases too: role, and what is said of it."""
    return TableFinder("role", role_table(roles), overlapping=True)


properties = _component("partsaloud_properties", lambda: TableFinder("property", property_table()))
boards = _component("partsaloud_boards", lambda: TableFinder("board", board_table()))
cues = _component("partsaloud_cues", lambda: TableFinder("cue", cue_table(), overlapping=True))
pins = _component("partsaloud_pins", PinFinder)


@Language.factory("partsaloud_makers", default_config={"makers": []})
def makers(nlp: Language, name: str, makers: list[str]) -> MakerFinder:
    """Finds makers, those that a user knows by name among them."""
    return MakerFinder(UserWords(makers=tuple(makers)))


NAMES = tuple(
    f"partsaloud_{name}"
    for name in (
        "hearing",
        "packages",
        "numbers",
        "quantities",
        "markings",
        "colours",
        "kinds",
        "roles",
        "properties",
        "boards",
        "cues",
        "pins",
        "makers",
    )
)
