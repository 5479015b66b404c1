"""A DXF document -> every straight stroke that a person sees in its model, blocks and all; arcs and words beside."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np
from ezdxf.entities.dxfgfx import DXFGraphic
from ezdxf.entities.hatch import Hatch
from ezdxf.entities.insert import Insert
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.entities.mpolygon import MPolygon
from ezdxf.entities.polyline import Polyline
from ezdxf.lldxf.const import DXFError

from export.architects_drawing.filled import edges_of, edges_of_wide, width_of
from framing.plan import Point

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from numpy.typing import NDArray

DEEPEST_BLOCK = 6
BENT_STEP_DEG = 11.25
MOST_PIECES = 400_000
"""A sheet with more is read so far: nobody looks for a house among more strokes."""
DASHED = ("dash", "hidden", "cent", "phantom", "dot", "divide", "border", "tratt", "strich", "iso0", "iso1")
BROKEN = (DXFError, ValueError, TypeError, AttributeError, LookupError, ArithmeticError, RecursionError)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strokes:
    """What is seen, in the drawing's own unit.

    `segments` (n, 4) x0 y0 x1 y1; `layer` (n,) index into `names`; `shape` (n,) the number of the line or
    polyline that a segment belongs to; `arcs` (k, 4) x y radius sweep in degrees; `words` (x, y, text);
    `measured` (length, text) of each dimension that shows a text; `dashed` and `bent` (n, 4) what is seen and is
    no wall; `unread` how many pieces the library could not read. `wide` (n,) is 0 for a thin line, the width of a
    wide one for its edges, and that less than 0 for its middle: what it is hangs on the unit. `hatched` are the
    numbers in `names` that hold edges of hatches; a layer's name stands twice where it has lines and hatches.
    """

    segments: NDArray[np.float64]
    layer: NDArray[np.int64]
    shape: NDArray[np.int64]
    names: tuple[str, ...]
    arcs: NDArray[np.float64]
    words: tuple[tuple[float, float, str], ...]
    measured: tuple[tuple[float, str], ...]
    dashed: NDArray[np.float64]
    bent: NDArray[np.float64]
    wide: NDArray[np.float64]
    hatched: frozenset[int] = frozenset()
    unread: int = 0

    def only(self, keep: NDArray[np.bool_]) -> Strokes:
        """The same with some of the (n,) segments alone."""
        return replace(
            self,
            segments=self.segments[keep],
            layer=self.layer[keep],
            shape=self.shape[keep],
            wide=self.wide[keep],
        )


@dataclass(slots=True, kw_only=True)
class _Gathering:
    """Filled while the drawing is walked."""

    looks: dict[str, tuple[bool, bool, str]]
    names: dict[tuple[str, bool], int] = field(default_factory=dict)
    spelt: list[str] = field(default_factory=list)
    segments: list[tuple[float, float, float, float]] = field(default_factory=list)
    dashed: list[tuple[float, float, float, float]] = field(default_factory=list)
    bent: list[tuple[float, float, float, float]] = field(default_factory=list)
    layer: list[int] = field(default_factory=list)
    shape: list[int] = field(default_factory=list)
    wide: list[float] = field(default_factory=list)
    hatched: set[int] = field(default_factory=set)
    arcs: list[tuple[float, float, float, float]] = field(default_factory=list)
    words: list[tuple[float, float, str]] = field(default_factory=list)
    measured: list[tuple[float, str]] = field(default_factory=list)
    unread: int = 0
    n_shapes: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Holder:
    """What a piece inside a block takes from where the block stands."""

    layer: str = "0"
    linetype: str = "continuous"
    within: tuple[str, ...] = ()

    @property
    def deep(self) -> int:
        """In how many blocks a piece lies."""
        return len(self.within)


def strokes_of(document: Drawing) -> Strokes:
    """Everything straight that is seen in the model: hidden layers, sheets and dashed lines are passed by.

    Parameters
    ----------
    document : Drawing
        As it was opened.

    Returns
    -------
    Strokes
        A piece that the library cannot read is counted, not more.
    """
    looks = {
        e.dxf.name.lower(): (e.is_frozen(), e.is_off(), str(e.dxf.get("linetype", "")).lower()) for e in document.layers
    }
    g = _Gathering(looks=looks)
    for entity in document.modelspace():
        _take(entity, _Holder(), g)
    return Strokes(
        segments=np.array(g.segments, float).reshape(-1, 4),
        layer=np.array(g.layer, int),
        shape=np.array(g.shape, int),
        names=tuple(g.spelt),
        arcs=np.array(g.arcs, float).reshape(-1, 4),
        words=tuple(g.words),
        measured=tuple(g.measured),
        dashed=np.array(g.dashed, float).reshape(-1, 4),
        bent=np.array(g.bent, float).reshape(-1, 4),
        wide=np.array(g.wide, float),
        hatched=frozenset(g.hatched),
        unread=g.unread,
    )


def _take(entity: object, holder: _Holder, g: _Gathering) -> None:
    """One entity of the drawing; whatever is wrong with it stays its own affair."""
    if not isinstance(entity, DXFGraphic) or len(g.segments) > MOST_PIECES:
        return
    try:
        name = entity.dxf.layer if entity.dxf.layer != "0" or holder.deep == 0 else holder.layer
        frozen, off, of_layer = g.looks.get(name.lower(), (False, False, ""))
        if frozen or entity.dxf.get("invisible", 0):
            return
        linetype = str(entity.dxf.get("linetype", "bylayer")).lower()
        linetype = {"bylayer": of_layer, "byblock": holder.linetype}.get(linetype, linetype)
        if isinstance(entity, Insert):
            _take_block(entity, replace(holder, layer=name, linetype=linetype), g)
        elif not off:
            _take_seen(entity, name, any(word in linetype for word in DASHED), g)
    except BROKEN:
        g.unread += 1


def _take_block(insert: Insert, holder: _Holder, g: _Gathering) -> None:
    name = insert.dxf.name.lower()
    if holder.deep >= DEEPEST_BLOCK or insert.block() is None or name in holder.within:
        g.unread += name in holder.within
        return
    holder = replace(holder, within=(*holder.within, name))
    many = insert.multi_insert() if insert.mcount > 1 else (insert,)
    for one in many:
        for entity in one.virtual_entities(skipped_entity_callback=lambda *_: None):
            _take(entity, holder, g)
        for note in one.attribs:
            _take(note, holder, g)


def _take_seen(entity: DXFGraphic, name: str, dashed: bool, g: _Gathering) -> None:
    kind = entity.dxftype()
    if kind == "LINE":
        _add([entity.dxf.start, entity.dxf.end], name, dashed, g)
    elif isinstance(entity, LWPolyline):
        bulges = [b for (b,) in entity.get_points("b")]
        _add_polyline(list(entity.vertices_in_wcs()), bulges, entity.closed, name, dashed, g, width_of(entity))
    elif isinstance(entity, Polyline):
        if entity.is_2d_polyline or entity.is_3d_polyline:
            bulges = [v.dxf.get("bulge", 0.0) for v in entity.vertices]
            points = list(entity.points_in_wcs())
            _add_polyline(points, bulges, entity.is_closed, name, dashed, g, width_of(entity))
    elif kind == "MLINE":
        for piece in entity.virtual_entities():  # type: ignore[attr-defined]
            _take(piece, _Holder(layer=name, within=("*mline",)), g)
    elif kind in ("SOLID", "TRACE"):
        _add([*entity.wcs_vertices(close=True)], name, dashed, g)  # type: ignore[attr-defined]
    elif isinstance(entity, (Hatch, MPolygon)):
        for points in edges_of(entity):
            _add(points, name, dashed, g, hatched=True)
    else:
        _take_evidence(entity, kind, g)


def _take_evidence(entity: DXFGraphic, kind: str, g: _Gathering) -> None:
    """What is no wall and tells of one: swings of doors, names of rooms, dimensions."""
    if kind == "ARC":
        x, y = _flat(entity.ocs().to_wcs(entity.dxf.center))
        sweep = (entity.dxf.end_angle - entity.dxf.start_angle) % 360.0
        g.arcs.append((x, y, _flat((entity.dxf.radius, 0.0))[0], sweep))
        _add_bent(entity, entity.dxf.start_angle, sweep or 360.0, g)
    elif kind == "CIRCLE":
        _add_bent(entity, 0.0, 360.0, g)
    elif kind in ("TEXT", "ATTRIB"):
        g.words.append((entity.dxf.insert.x, entity.dxf.insert.y, str(entity.dxf.text)))
    elif kind == "MTEXT":
        g.words.append((entity.dxf.insert.x, entity.dxf.insert.y, entity.plain_text()))  # type: ignore[attr-defined]
    elif kind == "DIMENSION":
        _add_dimension(entity, g)


def _add_bent(entity: DXFGraphic, start_deg: float, sweep_deg: float, g: _Gathering) -> None:
    """An arc as short strokes, for the eye alone."""
    centre, radius, ocs = entity.dxf.center, entity.dxf.radius, entity.ocs()
    n = max(2, round(sweep_deg / BENT_STEP_DEG))
    angles = [math.radians(start_deg + sweep_deg * k / n) for k in range(n + 1)]
    turned = [(centre.x + radius * math.cos(a), centre.y + radius * math.sin(a), centre.z) for a in angles]
    points = [_flat(ocs.to_wcs(p)) for p in turned]
    g.bent += [(*p, *q) for p, q in itertools.pairwise(points)]


def _add_dimension(entity: DXFGraphic, g: _Gathering) -> None:
    """A dimension's length and the text that somebody typed or that its block shows."""
    length = entity.get_measurement()  # type: ignore[attr-defined]
    text = str(entity.dxf.get("text", ""))
    if text in ("", "<>", " "):
        shown = [e for e in entity.virtual_entities() if e.dxftype() in ("TEXT", "MTEXT")]  # type: ignore[attr-defined]
        text = " ".join(e.plain_text() if e.dxftype() == "MTEXT" else str(e.dxf.text) for e in shown)
    if isinstance(length, float) and math.isfinite(length) and length > 0 and text.strip():
        g.measured.append((length, text))


def _add_polyline(
    points: list[Iterable[float]],
    bulges: list[float],
    closed: bool,
    name: str,
    dashed: bool,
    g: _Gathering,
    width: float = 0.0,
) -> None:
    """The straight sides of a polyline and, of a wide one, its edges; a bent side is only evidence of a door."""
    if closed and points:
        points = [*points, points[0]]
    if width and not any(bulges):
        for edge in edges_of_wide([_flat(p) for p in points], width):
            _add(edge, name, dashed, g, wide=width)
    run: list[Iterable[float]] = points[:1]
    for a, b, bulge in zip(points[:-1], points[1:], bulges, strict=False):
        if abs(bulge) > 1e-9:
            _add(run, name, dashed, g)
            run = [b]
            (ax, ay, *_), (bx, by, *_) = a, b
            half = math.atan(abs(bulge)) * 2.0
            radius = math.dist((ax, ay), (bx, by)) / 2.0 / max(math.sin(half), 1e-9)
            g.arcs.append((ax, ay, radius, math.degrees(2.0 * half)))
        else:
            run.append(b)
    _add(run, name, dashed, g, wide=0.0 if any(bulges) else -width)


def _add(
    points: Sequence[Iterable[float]],
    name: str,
    dashed: bool,
    g: _Gathering,
    *,
    wide: float = 0.0,
    hatched: bool = False,
) -> None:
    flat = [_flat(p) for p in points]
    at = g.names.get((name.lower(), hatched))
    if at is None:
        at = g.names[name.lower(), hatched] = len(g.spelt)
        g.spelt.append(name)
        if hatched:
            g.hatched.add(at)
    for p, q in _sides(flat):
        if dashed:
            g.dashed.append((*p, *q))
        else:
            g.segments.append((*p, *q))
            g.layer.append(at)
            g.wide.append(wide)
            g.shape.append(g.n_shapes)
    g.n_shapes += 1


def _sides(points: list[Point]) -> Iterator[tuple[Point, Point]]:
    return ((p, q) for p, q in itertools.pairwise(points) if p != q)


def _flat(p: Iterable[float]) -> Point:
    x, y, *_ = p
    if not (math.isfinite(x) and math.isfinite(y)) or max(abs(x), abs(y)) > 1e12:
        raise ValueError("a coordinate that is no number")
    return (float(x), float(y))
