"""Pieces that are told apart by their colours alone: "three LEDs, red, green and yellow"."""

from extract.assembly.counts.groups import split
from extract.assembly.draft import PartDraft
from extract.assembly.scene import Scene
from extract.assembly.trace import tell


def split_by_colour(scene: Scene, at: int) -> bool:
    """Give each piece of the group in view a line and a colour of its own, if as many colours
    follow from item `at` on as there are pieces, and nothing else is said of them."""
    group = scene.holder
    if group is None or not group.counted or group.part.count < 2 or group.part.colour:
        return False
    rest = scene.items[at:]
    named = [(name, i) for i in rest if i.label == "colour" for name in i.reading.split(" and ")]
    told = any(item.label not in ("colour", "word") for item in rest)
    if told or len({name for name, _ in named}) != group.part.count:
        return False
    if len({item.first for _, item in named}) == 1:
        return False  # "two wires, red and black": each may be striped
    lines = [group, *(_line(scene, group, item.first) for _, item in named[1:])]
    for line, (name, item) in zip(lines, named, strict=True):
        line.part.colour = name
        line.hear(item.first, item.last)
        scene.used.add(item.first)
        tell(item, "goes to", line, "colour", "as many colours are named as there are pieces")
    return True


def _line(scene: Scene, group: PartDraft, word: int) -> PartDraft:
    return scene.talk.open(split(group, 1, word))
