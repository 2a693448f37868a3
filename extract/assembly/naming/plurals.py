"""What "they" means: "four MOSFETs on one heat sink. They are made by Corvane"."""

from extract.assembly.draft import PartDraft
from extract.assembly.scene import Scene
from extract.assembly.sentences import item_at
from extract.assembly.trace import tell
from extract.assembly.word_lists import words

_LATELY = 1  # sentences since the group was named


def mean_the_group(scene: Scene) -> None:
    """Turn from a single part in focus to the group of its sentence that a sentence tells of."""
    focus, first = scene.talk.focus, item_at(scene.items, 0)
    if focus is None or first is None or focus.part.count > 1 or focus.group:
        return
    after = item_at(scene.items, 1)
    theirs = first.low == "their"
    they = first.low in ("they", "these", "those") and after is not None
    if not theirs and not (they and after is not None and after.low in words("plural telling")):
        return
    group = _group_beside(scene, focus)
    if group is not None:
        tell(first, "means", group, why="the part in focus is a single one")
        scene.turn_to(group)


def _group_beside(scene: Scene, focus: PartDraft) -> PartDraft | None:
    """The only group of like parts that was named in the sentence of the part in focus."""
    beside = [
        draft
        for draft in scene.talk.drafts
        if draft.sentence == focus.sentence >= scene.talk.number - _LATELY and draft.part.count > 1
    ]
    return beside[0] if len(beside) == 1 else None
