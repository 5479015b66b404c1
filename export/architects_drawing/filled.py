"""Walls drawn as fill alone: the edges of a line with a width, and of a hatch."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import shapely
from ezdxf.entities.boundary_paths import EdgePath, LineEdge, PolylinePath
from ezdxf.entities.hatch import Hatch
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.entities.mpolygon import MPolygon
from ezdxf.entities.polyline import Polyline

from framing.plan import Point

EVEN = 0.01
MITRE = 6.0
TEXT_BOX = 8


def width_of(line: LWPolyline | Polyline) -> float:
    """The width that a polyline has all along; 0 where it is thin or tapers. [drawing units]."""
    if isinstance(line, LWPolyline):
        widths = [w for pair in line.get_points("se") for w in pair] or [0.0]
        if not any(widths):
            widths = [float(line.dxf.get("const_width", 0.0))]
    else:
        ends = [(v.dxf.get("start_width", 0.0), v.dxf.get("end_width", 0.0)) for v in line.vertices]
        widths = [w for pair in ends for w in pair] or [0.0]
        if not any(widths):
            widths = [line.dxf.get("default_start_width", 0.0), line.dxf.get("default_end_width", 0.0)]
    return float(widths[0]) if max(widths) - min(widths) <= EVEN * max(widths) else 0.0


def edges_of_wide(points: Sequence[Point], width: float) -> Iterator[list[Point]]:
    """The closed edges around a straight-sided line of some width, as it is seen on paper."""
    if len(set(points)) < 2:
        return
    closed = points[0] == points[-1] and len(points) > 3
    middle = shapely.LinearRing(points) if closed else shapely.LineString(points)
    body = middle.buffer(width / 2.0, cap_style="flat", join_style="mitre", mitre_limit=MITRE)
    for part in shapely.get_parts(body):
        for ring in (part.exterior, *part.interiors):
            yield [(x, y) for x, y, *_ in ring.coords]


def edges_of(fill: Hatch | MPolygon) -> Iterator[list[Point]]:
    """The straight edges of a hatch, its islands' too, in the drawing's coordinates; what bends is left out."""
    ocs, height = fill.ocs(), fill.dxf.elevation.z
    for path in fill.paths:
        if path.path_type_flags & TEXT_BOX:
            continue
        runs: list[list[tuple[float, float]]] = []
        if isinstance(path, PolylinePath):
            runs = _straight([(x, y, bulge) for x, y, bulge in path.vertices])
        elif isinstance(path, EdgePath):
            edges = [e for e in path.edges if isinstance(e, LineEdge)]
            runs = [[(e.start.x, e.start.y), (e.end.x, e.end.y)] for e in edges]
        for run in runs:
            made = [ocs.to_wcs((x, y, height)) for x, y in run]
            yield [(p.x, p.y) for p in made]


def _straight(corners: Sequence[tuple[float, float, float]]) -> list[list[tuple[float, float]]]:
    """The straight sides of a closed polygon whose corners say how much the side after them bends."""
    after = (*corners[1:], *corners[:1])
    return [[(a[0], a[1]), (b[0], b[1])] for a, b in zip(corners, after, strict=True) if not a[2]]
