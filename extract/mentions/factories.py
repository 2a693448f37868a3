"""The recognisers as spaCy components, by name: importing this module registers them.

They are entry points too, so `spacy.blank("en").add_pipe("partsaloud_numbers")` works wherever the
package is installed. Those that read other mentions must stand after the components that find
them.
"""

from collections.abc import Callable, Mapping
from typing import Any

from spacy.language import Language

import extract.hearing  # noqa: F401  registers the first component
from extract.mentions import boards, tables
from extract.mentions.colours import ColourFinder
from extract.mentions.counts import PinFinder
from extract.mentions.kinds import KindFinder
from extract.mentions.makers import MakerFinder
from extract.mentions.markings import MarkingFinder
from extract.mentions.numbers import NumberFinder
from extract.mentions.packages import PackageFinder
from extract.mentions.quantities import QuantityFinder
from extract.vocabulary import UserWords

FACTORIES: dict[str, Callable[[], Any]] = {
    "partsaloud_numbers": NumberFinder,
    "partsaloud_quantities": QuantityFinder,
    "partsaloud_packages": PackageFinder,
    "partsaloud_markings": MarkingFinder,
    "partsaloud_colours": ColourFinder,
    "partsaloud_roles": lambda: tables.TableFinder("role", tables.role_table(), overlapping=True),
    "partsaloud_properties": lambda: tables.TableFinder("property", tables.property_table()),
    "partsaloud_boards": lambda: tables.TableFinder("board", boards.board_table()),
    "partsaloud_cues": lambda: tables.TableFinder("cue", tables.cue_table(), overlapping=True),
    "partsaloud_pins": PinFinder,
}


def _register(name: str, build: Callable[[], Any]) -> None:
    Language.factory(name, func=lambda nlp, name: build())


for _name, _build in FACTORIES.items():
    _register(_name, _build)


@Language.factory("partsaloud_kinds", default_config={"nicknames": {}})
def make_kind_finder(nlp: Language, name: str, nicknames: Mapping[str, list[str]]) -> KindFinder:
    """Finds kinds, by a user's own `nicknames` too: kind, and what it is called."""
    return KindFinder(UserWords({kind: tuple(words) for kind, words in nicknames.items()}))


@Language.factory("partsaloud_makers", default_config={"makers": []})
def make_maker_finder(nlp: Language, name: str, makers: list[str]) -> MakerFinder:
    """Finds makers, those that a user knows by name among them."""
    return MakerFinder(UserWords(makers=tuple(makers)))
