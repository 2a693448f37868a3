"""Parts that drive others: "both coils are driven by a transistor each", "one NPN works both"."""

from extract.assembly.draft import PartDraft
from extract.assembly.naming.nouns import NounPhrase
from extract.assembly.scene import Scene
from extract.assembly.trace import tell
from extract.assembly.word_lists import words
from extract.vocabulary import is_a, pieces

_ROLES = {"relay": "relay driving", "motor": "motor driving", "led": "led driving"}
_DRIVERS = ("transistor", "integrated circuit", "optocoupler")


def give_driving_roles(scene: Scene) -> None:
    """Give the part that something is driven by its role."""
    for phrase in scene.phrases:
        draft = _named_by(scene, phrase)
        if draft is None or draft.part.role is not None or not _is_by(scene, phrase):
            continue
        role = _role(scene, phrase, draft)
        if role is not None and any(is_a(draft.kind, kind) for kind in _DRIVERS):
            draft.part.role = role
            tell(scene.items[phrase.head], "goes to", draft, "role", "what it drives is named")


def _named_by(scene: Scene, phrase: NounPhrase) -> PartDraft | None:
    head = scene.items[phrase.head].first
    return next((draft for word, draft in scene.named if word == head), None)


def _is_by(scene: Scene, phrase: NounPhrase) -> bool:
    """Whether "driven by" stands right before a phrase."""
    before = [item.low for item in scene.items[max(phrase.first - 2, 0) : phrase.first]]
    return len(before) == 2 and before[1] in ("by", "with") and before[0] in words("driven")


def _role(scene: Scene, phrase: NounPhrase, driver: PartDraft) -> str | None:
    """What the driving of the thing before "driven by" is called."""
    drafts = scene.talk.drafts
    for item in reversed(scene.items[: phrase.first]):
        named = [item.reading.kind] if item.label == "kind" else []
        named += [d.kind for d in reversed(drafts) if item.low in pieces(d.kind)][:1]
        for kind in reversed(named):
            if (role := _role_of(kind)) is not None:
                return role
    at = drafts.index(driver)
    return _role_of(drafts[at - 1].kind) if at else None


def _role_of(kind: str) -> str | None:
    return next((role for driven, role in _ROLES.items() if is_a(kind, driven)), None)
