"""The cases and sizes of vocabulary/packages.yaml, ready to be looked up by the words for them."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from extract.mentions.phrases import PhraseTable
from extract.resources import load_words


@dataclass(frozen=True, slots=True)
class PackageReading:
    """A case or size: `name` as an engineer writes it ("SOT-23-6", "DFN 5x6", "1206"), `family`
    ("SOT", "chip", "cell", "core", "bridge", ...), `pins` if the name says them, `size` the body
    in mm ("3.2x1.6") or a diameter ("10"). Not `certain` if the words may mean something else."""

    name: str
    family: str
    pins: int | None = None
    size: str | None = None
    certain: bool = True


@dataclass(frozen=True, slots=True)
class Code:
    """One figure of a family: SOT-23 with the pin counts and letters that may follow it."""

    pins: int | None = None
    size: str | None = None
    more: frozenset[str] = frozenset()
    letters: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Family:
    """A family of cases and what may follow its name; see the head of packages.yaml."""

    form: str
    name: str
    group: str
    care: str = ""
    alone: str = "yes"
    open: bool = False
    sized: bool = False
    in_phrase: bool = False
    join: str = "-"
    pins: int | None = None
    size: str | None = None
    codes: Mapping[str, Code] = field(default_factory=dict)
    counts: frozenset[str] = frozenset()
    bodies: Mapping[str, str] = field(default_factory=dict)
    not_before: frozenset[str] = frozenset()
    near: frozenset[str] = frozenset()


def _number(text: str | None) -> int | None:
    return None if text is None else int(text)


def _code(row: Mapping[str, Any]) -> Code:
    return Code(
        pins=_number(row.get("pins")),
        size=row.get("body"),
        more=frozenset(row.get("more", ())),
        letters=frozenset(row.get("letters", ())),
    )


def _family(form: str, name: str, row: Mapping[str, Any]) -> Family:
    return Family(
        form=form,
        name=row.get("name", name),
        group=row.get("group", row.get("name", name)),
        care=row.get("care", ""),
        alone=row.get("alone", "yes"),
        open=row.get("open") == "yes",
        sized=row.get("sized") == "yes",
        in_phrase=row.get("in phrase") == "yes",
        join=row.get("join", "-"),
        pins=_number(row["pins"]) if form == "named" and "pins" in row else None,
        size=row.get("body"),
        codes={figures: _code(what) for figures, what in row.get("codes", {}).items()},
        counts=frozenset(row["pins"] if form == "counted" else row.get("sizes", ())),
        bodies=row.get("bodies", {}),
        not_before=frozenset(row.get("not before", ())),
        near=frozenset(row.get("near", ())),
    )


def _letters(name: str) -> str | None:
    """ "SOT" letter by letter, None if the name has signs in it."""
    return " ".join(name.lower()) if name.isalnum() else None


def _names(table: Mapping[str, Any]) -> Iterator[tuple[str, Family]]:
    """Each family with the words for it; the last that is given for a phrase holds."""
    rows = [
        (form, name, row)
        for form in ("coded", "counted", "named", "cores")
        for name, row in table[form].items()
    ]
    known = {name for _, name, _ in rows}
    families = [(name, row, _family(form, name, row)) for form, name, row in rows]
    for name, _, family in families:
        yield name, family
        if letters := _letters(name):
            yield letters, family
        if name[1:] in known and len(name) > 3:
            yield f"{name[0]} {name[1:]}", family
    for _, row, family in families:
        for phrase in row.get("say", ()):
            yield phrase, family


def _tantalum(table: Mapping[str, Any]) -> Iterator[tuple[str, Family]]:
    for letter, metric in table["tantalum"].items():
        family = Family(
            form="named",
            name=f"{letter} case",
            group="tantalum",
            care="upper" if letter == "A" else "",
            in_phrase=letter == "A",
            pins=2,
            size=_tenths(metric[:4]),
        )
        for phrase in ("{} case", "case {}", "{} size case", "case size {}"):
            yield phrase.format(letter), family


def _shapes(table: Mapping[str, Any]) -> Iterator[tuple[str, Family]]:
    for name, phrases in table["shapes"].items():
        for phrase in phrases:
            yield phrase, Family(form="shape", name=name, group=name)


def _tenths(code: str) -> str:
    """A size code in 0.1 mm as a body: "3528" is 3.5x2.8."""
    return f"{int(code[:2]) / 10:g}x{int(code[2:]) / 10:g}"


def _bare(table: Mapping[str, Any]) -> Iterator[PackageReading]:
    """The sizes that are nothing but figures."""
    for row in table["chips"].values():
        yield PackageReading(row["metric"], "metric", 2, row["body"], certain=False)
    for code in table["metric"]:
        yield PackageReading(code, "metric", None, _tenths(code), certain=False)
    for code, row in table["chips"].items():
        yield PackageReading(code, "chip", 2, row["body"], certain=code.startswith("0"))
    for code in table["cells"]:
        yield PackageReading(code, "cell", certain=len(code) == 5)


@dataclass(frozen=True)
class PackageTable:
    """Everything in packages.yaml: families by the phrases for them, bare sizes by their
    figures, and the words around a size."""

    families: PhraseTable[Family]
    sized: frozenset[str]
    bare: Mapping[str, PackageReading]
    bodies: frozenset[str]
    after_size: frozenset[str]
    before_size: frozenset[str]
    before_name: frozenset[str]
    pin_words: frozenset[str]
    processors: frozenset[str]
    years: frozenset[str]
    before_year: frozenset[str]
    chip_parts: frozenset[str]
    millimetres: frozenset[str]
    settled: frozenset[str]


def package_table(table: Mapping[str, Any] | None = None) -> PackageTable:
    """The table of vocabulary/packages.yaml, or of another one in its form."""
    table = table or load_words("vocabulary/packages.yaml")
    names = [*_names(table), *_tantalum(table), *_shapes(table)]
    return PackageTable(
        families=PhraseTable(names),
        sized=frozenset(family.group for _, family in names if family.sized),
        bare={reading.name: reading for reading in _bare(table)},
        bodies=frozenset(table["bodies"]),
        after_size=frozenset(table["size words"]),
        before_size=frozenset(table["before a size"]),
        before_name=frozenset(table["before a name"]),
        pin_words=frozenset(table["pin words"]),
        processors=frozenset(table["processors"]),
        years=frozenset(table["years"]),
        before_year=frozenset(table["before a year"]),
        chip_parts=frozenset(table["chip parts"]),
        millimetres=frozenset(table["millimetres"]),
        settled=frozenset(table["after a package"]),
    )
