"""What is drawn on a sheet of the anchor plan, as shapes that can be measured against each other; odd outlines."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator

import shapely
from shapely.geometry import LineString, Point, Polygon, box
from shapely.geometry.base import BaseGeometry

from export.paper.sheet import Circle, Layer, Line, Polyline, RunningDimension, Shape, Sheet, Symbol, Text
from export.paper.symbols import RADIUS_IN, UNRESOLVED_RADIUS_IN, plain_strokes
from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan_file import plan_from_text
from framing.run import Run, make_run

TOUCH_IN = 0.001


def texts(sheet: Sheet) -> list[Text]:
    return [s for s in sheet.strokes if isinstance(s, Text)]


def overlaps(sheet: Sheet) -> list[str]:
    """Every text of a sheet that meets another text, a dimension, an anchor, a frame, or leaves the paper."""
    found = texts(sheet)
    boxes = [Polygon(t.box).buffer(-TOUCH_IN) for t in found]
    tree = shapely.STRtree(boxes)
    said = [
        f"'{found[i].text}' on '{found[j].text}'"
        for i, j in zip(*tree.query(boxes, "intersects"), strict=True)
        if i < j
    ]
    for what, shape in _obstacles(sheet):
        said += [f"'{found[i].text}' on {what}" for i in tree.query(shape, "intersects")]
    paper = box(0, 0, sheet.width_in, sheet.height_in)
    said += [f"'{t.text}' leaves the paper" for t, b in zip(found, boxes, strict=True) if not paper.contains(b)]
    return said


def _obstacles(sheet: Sheet) -> Iterator[tuple[str, BaseGeometry]]:
    for s in sheet.strokes:
        if isinstance(s, Symbol):
            reach = UNRESOLVED_RADIUS_IN if s.sign.shape in (Shape.UNRESOLVED, Shape.NUMBERED) else RADIUS_IN
            yield f"anchor {s.mark}", Point(s.at).buffer(reach)
            continue
        lines = plain_strokes(s)
        dimension = isinstance(s, RunningDimension)
        for line in lines:
            if not isinstance(line, Text) and (dimension or line.layer is not Layer.TRUSS):
                yield ("a dimension" if dimension else f"a line on {line.layer.value}"), _stroke(line)


def _stroke(s: Line | Polyline | Circle) -> BaseGeometry:
    if isinstance(s, Line):
        return LineString([s.start, s.end])
    if isinstance(s, Circle):
        return Point(s.centre).buffer(s.radius_in).boundary
    return LineString([*s.points, s.points[0]] if s.closed else s.points)


def rambling_outline(seed: int) -> tuple[tuple[float, float], ...]:
    """A house of two to six rectangles run together, walls in feet and half feet, without a court."""
    draw = random.Random(seed)
    for _ in itertools.count():
        shape: BaseGeometry = box(0, 0, draw.randint(24, 60), draw.randint(20, 36))
        for _wing in range(draw.randint(1, 5)):
            x0, y0, x1, y1 = shape.bounds
            at = (draw.randint(int(x0) - 6, int(x1) - 4), draw.randint(int(y0) - 6, int(y1) - 4))
            wide, deep = draw.randint(8, 50) / 2 + 4, draw.randint(8, 50) / 2 + 4
            shape = shape.union(box(*at, at[0] + wide, at[1] + deep))
        if isinstance(shape, Polygon) and not shape.interiors:
            return tuple((x, y) for x, y in list(shape.simplify(0).exterior.coords)[:-1])
    raise AssertionError


def run_of_outline(outline: tuple[tuple[float, float], ...], kind: str = "hip", more: str = "") -> Run:
    """A run over any outline with the shipped, invented catalogue."""
    corners = ", ".join(f"[{x}, {y}]" for x, y in outline)
    text = (
        f'[walls]\noutline = [{corners}]\n[roof]\ntype = "{kind}"\npitch = "5:12"\n'
        f'[wind]\nspeed = 150\nexposure = "C"\n{more}'
    )
    return make_run(plan_from_text(text, "drawn.toml"), shipped_catalogue())


def supported_house() -> Run:
    """An L with a tied and two untied walls inside and an untied beam over its garage; invented."""
    supports = (
        ("bearing wall", "[22, 16]", "[58, 16]", "true"),
        ("bearing wall", "[0, 16]", "[22, 16]", "false"),
        ("bearing wall", "[11, 32]", "[11, 54]", "false"),
        ("beam", "[0, 32]", "[22, 32]", "false"),
    )
    tables = (
        f'[[support]]\nkind = "{kind}"\nfrom = {start}\nto = {end}\nholds_down = {holds_down}\n'
        for kind, start, end, holds_down in supports
    )
    return run_of_outline(((0, 0), (58, 0), (58, 32), (22, 32), (22, 54), (0, 54)), more="".join(tables))
