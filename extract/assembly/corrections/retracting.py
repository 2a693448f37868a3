"""What gives way to what is said of the same part after "scratch that", "sorry"."""

from extract.assembly.draft import PartDraft
from extract.assembly.facts.attach import contradicted
from extract.assembly.scene import Scene
from extract.assembly.sentences import Item
from extract.assembly.trace import tell

_RETRACTED = 3  # sentences back that "scratch that" reaches
_NAMED_BEFORE = 5  # sentences back that the correction of a name reaches
_NAMES = {"marking": "part_number", "package": "package", "maker": "maker", "colour": "colour"}


def retract(scene: Scene, draft: PartDraft, item: Item) -> None:
    """ "5 amps. Scratch that. 4 amps.": what was said a sentence ago gives way."""
    talk, correcting = scene.talk, scene.correcting
    if talk.retracted or correcting:
        _retract_name(scene, draft, item)
    name = contradicted(draft, item, scene.sentence) if talk.retracted or correcting else None
    if name is not None and (correcting or talk.number - draft.told.get(name, -9) <= _RETRACTED):
        old = draft.part.values.pop(name)
        draft.flag("corrected", "note", f"first said {old}, then corrected", f"values.{name}")
        tell(item, "replaces", draft, f"values.{name}", f"{old} was said before")


def _retract_name(scene: Scene, draft: PartDraft, item: Item) -> None:
    """ "Marked LM 661. Sorry, LN 661.": a marking, package, maker or colour gives way."""
    field = _NAMES.get(item.label)
    old = getattr(draft.part, field) if field is not None else None
    if field is None or old is None or old == _name_said(item):
        return
    if scene.correcting or scene.talk.number - draft.told.get(field, -9) <= _NAMED_BEFORE:
        setattr(draft.part, field, None)
        draft.flag("corrected", "note", f"first said {old}, then corrected", field)
        tell(item, "replaces", draft, field, f"{old} was said before")


def _name_said(item: Item) -> str:
    reading = item.reading
    return str(getattr(reading, "text", None) or getattr(reading, "name", None) or reading)
