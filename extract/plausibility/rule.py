"""What a rule is and what it yields."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Generic, TypeVar

from extract.record.model import Part

Subject = TypeVar("Subject")
Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Doubt:
    """What speaks against one field: a sentence with the figures.

    `field` is the path of a flag; `part` is the part it belongs to, None for the record itself or
    where the rule judges one part anyway. `wanted` is the span, in SI, in which the check would
    hold: it ranks the values that may have been meant. `suggestion` is such a value where the check
    itself names one. `which` tells doubts apart that concern several values of one field.
    """

    field: str
    message: str
    wanted: Span | None = None
    suggestion: str | None = None
    part: Part | None = None
    which: str = ""


@dataclass(frozen=True, slots=True)
class Rule(Generic[Subject]):
    """A function that judges, how grave its doubts are, where its knowledge comes from.

    `judge` sees a value, a part in its circuit, or the whole circuit; its name with hyphens is that
    of the rule. A rule for parts names the `kinds` that it judges (their children included; none:
    all) and the values that it `needs`.
    """

    judge: Callable[[Subject], Doubt | Iterable[Doubt] | None]
    level: str
    source: str
    kinds: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        return self.judge.__name__.replace("_", "-")

    @property
    def about(self) -> str:
        """The first line of its docstring: what it checks."""
        return (self.judge.__doc__ or "").strip().split("\n\n")[0].replace("\n    ", " ")

    def doubts(self, subject: Subject) -> tuple[Doubt, ...]:
        """All that it finds."""
        found = self.judge(subject)
        if found is None:
            return ()
        return (found,) if isinstance(found, Doubt) else tuple(found)
