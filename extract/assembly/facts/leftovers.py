"""Figures that nothing took: none that was said is dropped."""

from decimal import Decimal

from extract.assembly.scene import Scene
from extract.assembly.sentences import FIGURES, Item
from extract.assembly.trace import tell
from extract.units import Quantity

_OF_NO_PART = "its phrase opens no part"


def keep_the_rest(scene: Scene) -> None:
    """Keep the figures of a sentence that went nowhere, unless a part has just that value."""
    for item in scene.items:
        if item.label in FIGURES and item.first not in scene.talk.stands:
            if _is_a_value(scene, item):
                tell(item, "left out", why=f"{_OF_NO_PART}, and a part has just this value")
            else:
                scene.talk.unplace(item, _OF_NO_PART)


def _is_a_value(scene: Scene, item: Item) -> bool:
    """ "Next to the 22 ohm resistor": the figure only tells which part is meant."""
    said = Quantity(Decimal(item.reading), "") if item.label == "pins" else item.reading.quantity
    return isinstance(said, Quantity) and any(
        value.dimension == said.dimension and value.si() == said.si()
        for draft in scene.talk.drafts
        for value in draft.part.values.values()
    )
