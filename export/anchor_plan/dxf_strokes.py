"""Plain strokes straight to DXF tags: thousands of lines and texts in a hundredth of the time of entity objects.

The library makes the document, its tables, blocks and layouts, and writes it; what fills them comes as text.
Group codes as the published DXF reference for R2010 gives them (TEXT, LINE, CIRCLE, LWPOLYLINE, HATCH).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.layouts.base import BaseLayout
from ezdxf.lldxf.tagwriter import AbstractTagWriter

from export.paper.sheet import Circle, Fill, Line, Pen, Point, Polyline, Primitive, Text, along

LINEWEIGHT = {Pen.HAIR: 13, Pen.FINE: 18, Pen.MEDIUM: 35, Pen.HEAVY: 70}
FITTED = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """How paper inches become drawing units: a point map, a turn and a factor."""

    point: Callable[[Point], Point]
    turn_deg: float
    factor: float


class _Batch(DXFEntity):
    """Many entities that are written as one text."""

    DXFTYPE = "STROKES"

    def __init__(self, text: str) -> None:
        super().__init__()
        self.text = text

    def export_dxf(self, tagwriter: AbstractTagWriter) -> None:
        """Give the tags to ezdxf's writer."""
        tagwriter.write_str(self.text)


class Pencil:
    """Writes entities into a layout: each gets a handle and the head that all entities of the layout share."""

    def __init__(self, layout: BaseLayout) -> None:
        self._layout = layout
        self._handles = layout.doc.entitydb.handles
        paper = "67\n1\n" if layout.is_any_paperspace else ""
        self._head = f"330\n{layout.layout_key}\n100\nAcDbEntity\n{paper}8\n"
        self._written: list[str] = []

    def write(self, kind: str, layer: str, tags: str) -> None:
        """One entity; `tags` is all that follows its layer."""
        self._written.append(f"0\n{kind}\n5\n{self._handles.next()}\n{self._head}{layer}\n{tags}")

    def done(self) -> None:
        """Hand all that was written to the layout, in its order."""
        self._layout.entity_space.add(_Batch("".join(self._written)))
        self._written = []


def add_strokes(layout: BaseLayout, strokes: Iterable[Primitive], here: Placement) -> None:
    """Plain strokes, then their black fills as hatches; white fills are left out: the paper is white already."""
    pencil = Pencil(layout)
    fills = []
    for s in strokes:
        pencil.write(*_tags(s, here))
        if isinstance(s, Circle | Polyline) and s.fill is Fill.BLACK:
            fills.append(s)
    for s in fills:
        pencil.write("HATCH", s.layer.value, _solid(s, here))
    pencil.done()


def _tags(s: Primitive, here: Placement) -> tuple[str, str, str]:
    """Kind, layer and tags of a stroke."""
    if isinstance(s, Text):
        return "TEXT", s.layer.value, _text(s, here)
    weight = f"370\n{LINEWEIGHT[s.pen]}\n100\n"
    if isinstance(s, Line):
        return "LINE", s.layer.value, f"{weight}AcDbLine\n{xyz(10, here.point(s.start))}{xyz(11, here.point(s.end))}"
    if isinstance(s, Circle):
        round_ = f"{xyz(10, here.point(s.centre))}40\n{s.radius_in * here.factor:.10g}\n"
        return "CIRCLE", s.layer.value, f"{weight}AcDbCircle\n{round_}"
    points = "".join(f"10\n{x:.10g}\n20\n{y:.10g}\n" for x, y in map(here.point, s.points))
    return "LWPOLYLINE", s.layer.value, f"{weight}AcDbPolyline\n90\n{len(s.points)}\n70\n{int(s.closed)}\n{points}"


def _solid(s: Circle | Polyline, here: Placement) -> str:
    """The solid fill of a circle, as two half circles, or of a closed polyline, by one outer ring of points."""
    if isinstance(s, Circle):
        (x, y), r = here.point(s.centre), s.radius_in * here.factor
        ring, bulge = [(x - r, y), (x + r, y)], "42\n1.0\n"
    else:
        ring, bulge = [here.point(p) for p in s.points], ""
    points = "".join(f"10\n{x:.10g}\n20\n{y:.10g}\n{bulge}" for x, y in ring)
    return (
        f"100\nAcDbHatch\n{xyz(10, (0.0, 0.0))}210\n0.0\n220\n0.0\n230\n1.0\n2\nSOLID\n70\n1\n71\n0\n"
        f"91\n1\n92\n3\n72\n{int(bool(bulge))}\n73\n1\n93\n{len(ring)}\n{points}97\n0\n75\n1\n76\n1\n98\n0\n"
    )


def _text(s: Text, here: Placement) -> str:
    """A text fitted between the two ends of its measured baseline, so that no reader's font makes it wider."""
    start, end = here.point(s.start), here.point(along(s.start, s.angle_deg, s.width_in))
    words = s.text.replace("%%", "% %").replace("^", "^ ")  # both begin codes inside a DXF text
    return (
        f"100\nAcDbText\n{xyz(10, start)}40\n{s.height_in * here.factor:.10g}\n1\n{words}\n"
        f"50\n{s.angle_deg + here.turn_deg:.10g}\n7\n{'PLAN-BOLD' if s.bold else 'PLAN'}\n72\n{FITTED}\n"
        f"{xyz(11, end)}100\nAcDbText\n"
    )


def xyz(code: int, p: Point) -> str:
    """A point by its first group code."""
    return f"{code}\n{p[0]:.10g}\n{code + 10}\n{p[1]:.10g}\n{code + 20}\n0.0\n"
