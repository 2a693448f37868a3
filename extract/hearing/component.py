"""The first component of the pipeline: the words of a text become the words that were meant."""

from collections.abc import Callable, Iterable, Mapping
from typing import cast

from spacy.tokens import Doc

from extract.hearing.case_repair import case_edits
from extract.hearing.code_repair import code_edits
from extract.hearing.count_repair import count_edits
from extract.hearing.doubled import doubled_edits
from extract.hearing.edits import WORD, Edit, Repair, apply
from extract.hearing.glue import glued_edits
from extract.hearing.letter_repair import letter_edits
from extract.hearing.maker_repair import MakerEar
from extract.hearing.number_repair import number_edits
from extract.hearing.package_repair import package_edits
from extract.hearing.scene import Scene
from extract.hearing.slot_repair import slot_edits
from extract.hearing.unit_repair import unit_edits
from extract.hearing.word_repair import word_edits
from extract.mentions.phrases import PhraseTable
from extract.mentions.words import Word, keep_words, words_of

NAME = "partsaloud_hearing"
_KEY = "partsaloud.repairs"


class Hearing:
    """Repairs what the recogniser mangled; `mishearings` tells for what is meant what is often
    written in its place ("Dunmarrow": ["done marrow"]), `makers` how the names of makers sound."""

    def __init__(
        self,
        mishearings: Mapping[str, Iterable[str]] | None = None,
        makers: Mapping[str, Iterable[str]] | None = None,
    ) -> None:
        self._makers = MakerEar(makers or {})
        self._own: PhraseTable[tuple[str, ...]] = PhraseTable()
        for meant, written in (mishearings or {}).items():
            for phrase in written:
                self._own.add(phrase, tuple(meant.split()))

    def __call__(self, doc: Doc) -> Doc:
        words, repairs = self.hear(doc.text, words_of(doc))
        keep_words(doc, words)
        doc.user_data[_KEY] = repairs
        return doc

    def hear(self, text: str, words: list[Word]) -> tuple[list[Word], list[Repair]]:
        """The words that were meant by the `words` of `text`, and what was changed."""
        made: list[_Made] = []
        words = _edited(text, words, [*self._own_edits(words)], made)
        words = _edited(text, words, self._makers.edits(words), made)
        words = _edited(text, words, doubled_edits(words), made)
        words = _edited(text, words, glued_edits(words), made)
        scene = Scene(words)
        for find in _PASSES:
            edited = _edited(text, scene.words, find(scene), made)
            if edited is not scene.words:
                scene = Scene(edited)
        return scene.words, _in_order(scene.words, made)

    def _own_edits(self, words: list[Word]) -> Iterable[Edit]:
        for first, last, meant in self._own.find(words):
            yield Edit(first, last, meant, WORD, "note", "it is in your own list")


_PASSES: tuple[Callable[[Scene], list[Edit]], ...] = (
    letter_edits,
    word_edits,
    package_edits,
    code_edits,
    case_edits,
    count_edits,
    number_edits,
    unit_edits,
    slot_edits,
)
_Made = tuple[Edit, int, int, str]


def _edited(text: str, words: list[Word], edits: list[Edit], made: list[_Made]) -> list[Word]:
    """The words with the edits made; they are added to `made` with their place and quotation."""
    if not edits:
        return words
    for edit in edits:
        if edit.rule:
            start, end = words[edit.first].start, words[edit.last - 1].end
            first, last = edit.quoted or (edit.first, edit.last)
            made.append((edit, start, end, text[words[first].start : words[last - 1].end]))
    return apply(words, edits)


def _in_order(words: list[Word], made: list[_Made]) -> list[Repair]:
    """The repairs with their place among the words as they are now."""
    found = []
    for edit, start, end, heard in sorted(made, key=lambda row: row[1]):
        inside = [at for at, word in enumerate(words) if start <= word.start < end]
        if inside:
            found.append(
                Repair(
                    first=inside[0],
                    last=inside[-1] + 1,
                    start=start,
                    end=end,
                    heard=heard,
                    meant=" ".join(edit.meant),
                    rule=edit.rule,
                    level=edit.level,
                    why=edit.why,
                    alternatives=edit.alternatives,
                    score=edit.score,
                )
            )
    return found


def repairs_of(doc: Doc) -> list[Repair]:
    """What was repaired in the words of the document, in order of the text."""
    return cast(list[Repair], doc.user_data.get(_KEY, []))


def message(repair: Repair, value: str = "") -> str:
    """The flag's sentence; `value` is what now stands in the field ("22 µF")."""
    sentence = f'heard "{repair.heard}", read as {value or repair.meant}'
    if repair.why:
        sentence += f": {repair.why}"
    if repair.alternatives:
        sentence += f"; it could also be {' or '.join(repair.alternatives)}"
    return sentence
