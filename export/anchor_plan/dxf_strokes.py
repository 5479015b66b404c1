"""Plain strokes straight to DXF tags: thousands of lines and texts in a hundredth of the time of entity objects.

Everything a CAD program should find by its data (anchors, dimensions, hatches, viewports) stays an ezdxf entity.
Group codes as the published DXF reference for R2010 gives them (TEXT, LINE, CIRCLE, LWPOLYLINE).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.layouts.base import BaseLayout
from ezdxf.lldxf.tagwriter import AbstractTagWriter

from export.sheet import Circle, Line, Pen, Point, Polyline, Primitive, Text, along

LINEWEIGHT = {Pen.FINE: 18, Pen.MEDIUM: 35, Pen.HEAVY: 70}
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


def add_strokes(layout: BaseLayout, strokes: list[Primitive], here: Placement) -> None:
    """Plain strokes into a layout, without their fills."""
    handles = layout.doc.entitydb.handles
    head = f"330\n{layout.layout_key}\n100\nAcDbEntity\n" + ("67\n1\n" if layout.is_any_paperspace else "")
    text = "".join(
        f"0\n{kind}\n5\n{handles.next()}\n{head}8\n{s.layer.value}\n{tags}"
        for s in strokes
        for kind, tags in _tags(s, here)
    )
    layout.entity_space.add(_Batch(text))


def _tags(s: Primitive, here: Placement) -> Iterator[tuple[str, str]]:
    if isinstance(s, Text):
        yield "TEXT", _text(s, here)
        return
    weight = f"370\n{LINEWEIGHT[s.pen]}\n100\n"
    if isinstance(s, Line):
        a, b = here.point(s.start), here.point(s.end)
        yield "LINE", f"{weight}AcDbLine\n{_xyz(10, a)}{_xyz(11, b)}"
    elif isinstance(s, Circle):
        yield "CIRCLE", f"{weight}AcDbCircle\n{_xyz(10, here.point(s.centre))}40\n{s.radius_in * here.factor:.10g}\n"
    elif isinstance(s, Polyline):
        points = "".join(f"10\n{x:.10g}\n20\n{y:.10g}\n" for x, y in map(here.point, s.points))
        yield "LWPOLYLINE", f"{weight}AcDbPolyline\n90\n{len(s.points)}\n70\n{int(s.closed)}\n{points}"


def _text(s: Text, here: Placement) -> str:
    """A text fitted between the two ends of its measured baseline, so that no reader's font makes it wider."""
    start, end = here.point(s.start), here.point(along(s.start, s.angle_deg, s.width_in))
    words = s.text.replace("%%", "% %").replace("^", "^ ")  # both begin codes inside a DXF text
    return (
        f"100\nAcDbText\n{_xyz(10, start)}40\n{s.height_in * here.factor:.10g}\n1\n{words}\n"
        f"50\n{s.angle_deg + here.turn_deg:.10g}\n7\n{'PLAN-BOLD' if s.bold else 'PLAN'}\n72\n{FITTED}\n"
        f"{_xyz(11, end)}100\nAcDbText\n"
    )


def _xyz(code: int, p: Point) -> str:
    return f"{code}\n{p[0]:.10g}\n{code + 10}\n{p[1]:.10g}\n{code + 20}\n0.0\n"
