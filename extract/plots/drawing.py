"""What all plots share: how they look, and how a point tells its record when it is pointed at."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from io import StringIO
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from pandas import DataFrame

SVG = "http://www.w3.org/2000/svg"
XLINK = "http://www.w3.org/1999/xlink"
# Readable on paper without colour: shades of grey that differ, and shapes.
INK, SHADE, FAINT = "#111111", "#6b6b6b", "#c9c9c9"
MARKERS = ("o", "^", "s", "D", "v", "P", "X")
DASHES: tuple[Any, ...] = ("-", "--", ":", "-.", (0, (5, 1, 1, 1, 1, 1)), (0, (1, 3)))
_NO_METADATA = dict.fromkeys(("Date", "Creator", "Format", "Type"))
_STYLE: Any = {
    "svg.fonttype": "none",
    "svg.hashsalt": "partsaloud",
    "font.family": "sans-serif",
    "font.size": 10,
    "axes.titlesize": 12,
    "axes.titlelocation": "left",
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.edgecolor": SHADE,
    "axes.grid": True,
    "axes.axisbelow": True,
    "grid.color": "#e6e6e6",
    "legend.frameon": False,
    "figure.constrained_layout.use": True,
}


@dataclass(frozen=True)
class Plot:
    """A plot of a report: its title, what it is drawn from, the picture as SVG (empty where nothing
    is to be drawn), what it says, and the records behind it."""

    title: str
    of: str
    svg: str
    says: str
    table: DataFrame


@dataclass
class Sketch:
    """A figure that is being drawn, and what is told of its marks, by the id of their group."""

    figure: Figure
    axes: Axes
    told: dict[str, Sequence[str]] = field(default_factory=dict)

    def points(self, x: Any, y: Any, told: Sequence[str], **how: Any) -> None:
        """Draw points, each of which tells a sentence when it is pointed at."""
        name = f"marks-{len(self.told)}"
        self.told[name] = told
        look = {"color": INK, "markersize": 4.5, "alpha": 0.75, "markeredgewidth": 0, "marker": "o"}
        self.axes.plot(x, y, linestyle="none", gid=name, **{**look, **how})

    def svg(self) -> str:
        """The picture as an SVG element for a page."""
        import matplotlib

        with matplotlib.rc_context(_STYLE):
            text = StringIO()
            self.figure.savefig(text, format="svg", metadata=_NO_METADATA)
        return _with_titles(text.getvalue(), self.told)


def sketch(width: float = 7.5, height: float = 4.4) -> Sketch:
    """A figure with one pair of axes, in inches."""
    import matplotlib
    from matplotlib.figure import Figure

    with matplotlib.rc_context(_STYLE):
        figure = Figure(figsize=(width, height))
        return Sketch(figure, figure.subplots())


def _with_titles(svg: str, told: Mapping[str, Sequence[str]]) -> str:
    """The SVG with a title, which a browser shows, in every mark of the groups that are told."""
    ET.register_namespace("", SVG)
    ET.register_namespace("xlink", XLINK)
    root = ET.fromstring(svg.partition("<svg")[1] + svg.partition("<svg")[2])
    for group in root.iter(f"{{{SVG}}}g"):
        sentences = told.get(group.attrib.pop("id", ""))
        if sentences is not None:
            for mark, sentence in zip(group.iter(f"{{{SVG}}}use"), sentences, strict=True):
                ET.SubElement(mark, f"{{{SVG}}}title").text = sentence
    root.set("role", "img")
    for size in ("width", "height"):
        root.attrib.pop(size, None)
    return ET.tostring(root, encoding="unicode")


def rows_of(table: DataFrame) -> list[Any]:
    """The rows of a table, whose columns are attributes."""
    return list(table.itertuples())
