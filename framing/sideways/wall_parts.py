"""Outline + roof -> the walls in the wind, cut where a pressure, a held length, a line of the deck or a gable's height
may change, with what of each stands over the tie beam.

The upper half of a wall, pinned at the slab, is held at its top; the strip between the beam and the roof plane (the
heel), under a gable its triangle too, is wall as well. Source: own derivation: tests/statics/test_sideways.py.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from framing.frame_side import SIDES, FrameSide
from framing.members import Framing
from framing.plan import Plan
from framing.roof.surface import Roof
from framing.roof.wings import Wing
from framing.sideways.held import Held, Stretch
from framing.tolerances import TIE_FT, TIE_SINE
from framing.walls.outline import Outline
from framing.walls.porch_walls import porch_walls
from framing.wind.edge_widths import EdgeWidths
from framing.wind.patches import Bools, Floats

Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WallParts:
    """Arrays over n parts of walls, in the outline's frame, each wall's in their order along it.

    `name` (n,) of the wall or support, `wall` (n,) its place in the outline, -1 for a support behind a porch; `from_ft`
    and `to_ft` (n,) stations; `outward` (n, 2); `middle_ft` (n, 2) on the face; `faces` (n, 4) the side of the frame
    that it faces most nearly (both at 45 degrees); `claims` (n, n_wings) the wings on whose side it stands, all of them
    where it stands on none, `on_wing` (n,) whether on one.

    `half_ft` (n,) is how much of the wall's height its top holds, 0 over a porch beam; `above_ft2` (n,) what stands
    over the beam, `above_middle_ft` (n, 2) its middle in plan, `low_ft` and `high_ft` (n,) its height at either end,
    `gable` (n,) whether it is a gable's triangle.
    """

    name: NDArray[np.str_]
    wall: Ints
    from_ft: Floats
    to_ft: Floats
    outward: Floats
    middle_ft: Floats
    faces: Bools
    claims: Bools
    on_wing: Bools
    half_ft: Floats
    above_ft2: Floats
    above_middle_ft: Floats
    low_ft: Floats
    high_ft: Floats
    gable: Bools

    @property
    def length_ft(self) -> Floats:
        """Along the face. (n,) [ft]"""
        return self.to_ft - self.from_ft

    @property
    def half_ft2(self) -> Floats:
        """The upper half of the wall. (n,) [ft2]"""
        return self.half_ft * self.length_ft


class _Part(NamedTuple):
    """One part while it is made; `numbers` are its stations, heights over the beam there, what its top holds."""

    name: str
    wall: int
    numbers: tuple[float, float, float, float, float]
    start_ft: Floats
    unit: Floats
    outward: Floats
    faces: Bools
    claims: list[bool]
    gable: bool


def build_wall_parts(
    plan: Plan,
    outline: Outline,
    roof: Roof,
    framing: Framing,
    widths: EdgeWidths,
    held: tuple[Held, ...],
    stretches: tuple[Stretch, ...],
    lines_ft: tuple[Floats, Floats],
) -> WallParts:
    """Every outside wall, what stands over porch beams, and the walls between porches and rooms; `lines_ft` are the
    coordinates of the deck's lines across x and across y.
    """
    rows: list[_Part] = []
    for k in range(len(outline.walls)):
        rows += _parts_of_wall(plan, outline, roof, framing, widths, held, lines_ft, k)
    for name, stretch in porch_walls(plan).items():
        own = [h for h in held if stretches[h.stretch].name == name]
        rows += _parts_of_porch_wall(plan, outline, roof, name, stretch, framing, own)
    from_ft, to_ft, low, high, half = np.array([r.numbers for r in rows]).T
    start, unit, outward = (np.array([r[k] for r in rows]) for k in (3, 4, 5))
    length = to_ft - from_ft
    both = low + high
    far = length * np.divide(low + 2.0 * high, 3.0 * both, out=np.full(len(low), 0.5), where=both > 0.0)
    claims = np.array([r.claims for r in rows], dtype=bool)
    on_wing: Bools = np.asarray(claims.any(axis=1))
    return WallParts(
        name=np.array([r.name for r in rows]),
        wall=np.array([r.wall for r in rows], dtype=np.int64),
        from_ft=from_ft,
        to_ft=to_ft,
        outward=outward,
        middle_ft=start + unit * ((from_ft + to_ft) / 2.0)[:, None],
        faces=np.array([r.faces for r in rows]),
        claims=claims | ~on_wing[:, None],
        on_wing=on_wing,
        half_ft=half,
        above_ft2=both / 2.0 * length,
        above_middle_ft=start + unit * (from_ft + far)[:, None],
        low_ft=low,
        high_ft=high,
        gable=np.array([r.gable for r in rows]),
    )


def _parts_of_wall(
    plan: Plan,
    outline: Outline,
    roof: Roof,
    framing: Framing,
    widths: EdgeWidths,
    held: tuple[Held, ...],
    lines_ft: tuple[Floats, Floats],
    k: int,
) -> list[_Part]:
    wall, corners = outline.walls[k], outline.local_ft
    start, end = np.array(corners[k]), np.array(corners[(k + 1) % len(corners)])
    unit = (end - start) / wall.length_ft
    outward = np.array([unit[1], -unit[0]])
    faces = _faces(outward)
    side = FrameSide(int(faces.argmax()))
    beams, axis = [b for b in framing.porch_beams if b.wall == k], side.along
    square = outline.axes[k] is not None
    own = {i: w for i, w in enumerate(roof.wings) if square and _on_side(w, side, start, end)}
    at = {0.0, wall.length_ft, *(s for h in held if h.wall == k for s in (h.from_ft, h.to_ft))}
    at |= {s for b in beams for s in (b.from_ft, b.to_ft)}
    for t in (axis,) if square else (0, 1):
        places = [*_zone_places(own, side, widths), *_gable_places(own, side)] if square else []
        at |= {float((c - start[t]) / unit[t]) for c in (*lines_ft[1 - t], *places)}
    stations = np.array(_apart(sorted(s for s in at if 0.0 <= s <= wall.length_ft)))
    middle = (stations[:-1] + stations[1:]) / 2.0
    along = [start[axis] + unit[axis] * at for at in (stations, middle)]
    claims = np.zeros((len(middle), len(roof.wings)), dtype=bool)
    run_ft, gable = np.zeros(len(stations)), np.zeros(len(middle), dtype=bool)
    for i, wing in own.items():
        low, high = wing.side_interval_ft(side)
        claims[:, i] = (low - TIE_FT <= along[1]) & (along[1] <= high + TIE_FT)
        if wing.gable[side]:
            own_run = np.minimum(np.minimum(along[0] - low, high - along[0]), wing.half_width_ft)
            run_ft, gable = np.maximum(run_ft, own_run), gable | claims[:, i]
    height = roof.heel_ft + roof.rise_per_run * run_ft
    half = [0.0 if any(b.from_ft < m < b.to_ft for b in beams) else plan.wall_height_ft / 2.0 for m in middle.tolist()]
    numbers = zip(stations[:-1], stations[1:], height[:-1], height[1:], half, strict=True)
    rows = zip(numbers, claims.tolist(), gable.tolist(), strict=True)
    return [_Part(wall.name, k, n, start, unit, outward, faces, claim, at_gable) for n, claim, at_gable in rows]


def _faces(outward: Floats) -> Bools:
    """The sides of the frame that a wall faces most nearly. (4,)"""
    toward = np.array([s.outward for s in SIDES]) @ outward
    out: Bools = toward > toward.max() - TIE_SINE
    return out


def _on_side(wing: Wing, side: FrameSide, start: Floats, end: Floats) -> bool:
    """Whether a wall lies on the line of a wing's side and along some of it."""
    axis = side.along
    low, high = wing.side_interval_ft(side)
    a, b = sorted((start[axis], end[axis]))
    return bool(abs(wing.side_ft(side) - start[side.axis]) <= TIE_FT and min(b, high) - max(a, low) > TIE_FT)


def _zone_places(own: dict[int, Wing], side: FrameSide, widths: EdgeWidths) -> list[float]:
    """Coordinates along a side at which a zone of a wing's wall ends: a and 2a from its corners, and the corners."""
    ends = [w.side_interval_ft(side) for w in own.values()]
    return [c for low, high in ends for d in (0.0, widths.a_ft, widths.end_zone_ft) for c in (low + d, high - d)]


def _gable_places(own: dict[int, Wing], side: FrameSide) -> list[float]:
    """Coordinates along a side at which the top of a gable over it may turn, or pass from one gable to another that is
    level there: of two that share a stretch of wall one lies within the other.
    """
    gables = [w for w in own.values() if w.gable[side]]
    ends = [w.side_interval_ft(side) for w in gables]
    return [c for low, high in ends for w in gables for c in (low + w.half_width_ft, high - w.half_width_ft)]


def _parts_of_porch_wall(
    plan: Plan,
    outline: Outline,
    roof: Roof,
    name: str,
    stretch: shapely.Geometry,
    framing: Framing,
    held: list[Held],
) -> list[_Part]:
    """The wall between a porch and the rooms, in the wind as an outside wall is; nothing stands over its beam."""
    support = plan.supports[int(name[1:]) - 1]
    start, end = (np.array(outline.frame.to_local(p)) for p in (support.start_ft, support.end_ft))
    length = float(np.hypot(*(end - start)))
    unit = (end - start) / length
    along = [outline.frame.to_local(p) for p in shapely.get_coordinates(stretch).tolist()]
    low_ft, high_ft = (f(float(np.dot(np.subtract(p, start), unit)) for p in along) for f in (min, max))
    outward = np.array([unit[1], -unit[0]])
    floors = shapely.union_all([shapely.Polygon(p.ring_ft) for p in framing.porches])
    if not shapely.contains_xy(floors, *(start + unit * (low_ft + high_ft) / 2.0 + outward)):
        outward = -outward
    faces = _faces(outward)
    own = [s for h in held for s in (h.from_ft, h.to_ft)]
    at = _apart(sorted({low_ft, high_ft, *(s for s in own if low_ft < s < high_ft)}))
    none = [False] * len(roof.wings)
    half = plan.wall_height_ft / 2.0
    return [_Part(name, -1, (a, b, 0.0, 0.0, half), start, unit, outward, faces, none, False) for a, b in pairwise(at)]


def _apart(places: list[float]) -> list[float]:
    """Places without those within a tie of the one before; the last one stays."""
    out = places[:1]
    for p in places[1:]:
        if p - out[-1] > TIE_FT:
            out.append(p)
    return out


def parts_of(parts: WallParts, held: tuple[Held, ...], stretches: tuple[Stretch, ...]) -> list[slice]:
    """For each held length its parts of the wall: they stand in their order along each wall."""
    middle = (parts.from_ft + parts.to_ft) / 2.0
    names = parts.name.tolist()
    first: dict[str, int] = {}
    n_of: dict[str, int] = {}
    for i, name in enumerate(names):
        first.setdefault(name, i)
        n_of[name] = n_of.get(name, 0) + 1
    out = []
    for h in held:
        name = stretches[h.stretch].name
        a = first.get(name, 0)
        own = middle[a : a + n_of.get(name, 0)]
        low, high = np.searchsorted(own, (h.from_ft, h.to_ft))
        out.append(slice(a + int(low), a + int(high)))
    return out
