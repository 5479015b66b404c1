"""Outline -> wings: every largest rectangle, highest first, and which of their sides are gables."""

from __future__ import annotations

from dataclasses import replace

from framing.errors import PlanError
from framing.frame_side import SIDES, FrameSide
from framing.plan import Plan, Point, RoofType
from framing.roof.wings import Box, Part, Wing, largest_rectangles
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline, on_grid, tie_key
from framing.walls.squared_outline import Squared


def build_wings(plan: Plan, squared: Squared) -> tuple[Wing, ...]:
    """Every largest rectangle of the squared outline, highest first, with its gables.

    Source: own derivation: tests/invariants (the roof over equal pitches is the upper envelope).

    Raises
    ------
    PlanError
        If a gable mark changes nothing, or would gable two neighbouring sides of a wing.
    """
    outline = squared.outline
    rectangles = largest_rectangles(outline)
    start = squared.house.wall(plan.trusses.start).start_ft
    origin = outline.frame.to_local(start)
    typed_first = min(range(len(outline.walls)), key=lambda i: outline.walls[i].typed_order)
    plain = [_plain_wing(low, high, typed_first % 2) for low, high in rectangles]
    ordered = sorted(plain, key=lambda w: _rank(w, origin, outline))
    named = [replace(w, name=f"wing {i + 1}") for i, w in enumerate(ordered)]
    marks = _gable_marks(plan, squared, named)
    wings = tuple(_without_pent(_gabled(w, marks, outline), marks, outline, plan.roof.overhang_ft) for w in named)
    _refuse_idle_marks(plan, squared, wings)
    return wings


def _plain_wing(low: Point, high: Point, square_axis: int) -> Wing:
    sx, sy = high[0] - low[0], high[1] - low[1]
    axis = square_axis if abs(sx - sy) <= TIE_FT else (0 if sx > sy else 1)
    return Wing(name="", low_ft=low, high_ft=high, ridge_axis=axis, gable=(False, False, False, False))


def _rank(wing: Wing, origin: Point, outline: Outline) -> tuple[int, ...]:
    """Highest first; ties by length, nearness to the layout's start, and the order the outline was typed."""
    sx, sy = wing.size_ft
    near = tuple(max(wing.low_ft[k] - origin[k], origin[k] - wing.high_ft[k], 0.0) for k in (0, 1))
    cx, cy = (wing.low_ft[0] + wing.high_ft[0]) / 2 - origin[0], (wing.low_ft[1] + wing.high_ft[1]) / 2 - origin[1]
    touching = [w.typed_order for i, w in enumerate(outline.walls) if _on_side(wing, i, outline)]
    return (
        -tie_key(min(sx, sy)),
        -tie_key(max(sx, sy)),
        tie_key(near[0] ** 2 + near[1] ** 2),
        tie_key(cx**2 + cy**2),
        min(touching),
    )


def _on_side(wing: Wing, wall_index: int, outline: Outline) -> bool:
    a, b = outline.local_ft[wall_index], outline.local_ft[(wall_index + 1) % len(outline.walls)]
    axis = 0 if wall_index % 2 == 0 else 1
    low, high = sorted((a[axis], b[axis]))
    return (
        min(abs(a[1 - axis] - wing.low_ft[1 - axis]), abs(a[1 - axis] - wing.high_ft[1 - axis])) <= TIE_FT
        and low < wing.high_ft[axis] - TIE_FT
        and high > wing.low_ft[axis] + TIE_FT
    )


def gable_walls(squared: Squared, wings: tuple[Wing, ...]) -> frozenset[int]:
    """The house's walls on which a wing has a gable."""
    n = len(squared.outline.walls)
    return frozenset(
        squared.stands_for[k]
        for k in range(n)
        if any(w.gable[s] and _overlap(w, s, k, squared.outline) is not None for w in wings for s in SIDES)
    )


def _gable_marks(plan: Plan, squared: Squared, wings: list[Wing]) -> tuple[Part, ...]:
    """The parts of walls that are gable: by the roof's type first, then as the plan's edges say.

    Beside angled walls a gable takes a whole wall between two square outside corners, or none.
    """
    outline, parts = squared.outline, []
    if plan.roof.type is RoofType.GABLE:
        parts = [p for p in _gables_by_type(outline, wings) if all(squared.whole) or _takes_all(p, squared)]
    for edge in plan.roof.edges:
        wall = int(edge.wall[1:]) - 1
        i = squared.line_of(wall)
        if i is None and edge.type is RoofType.HIP:
            continue
        if i is None:
            raise _not_square(edge.wall)
        from_ft = squared.from_ft[i] or 0.0
        low = from_ft + (0.0 if edge.from_ft is None else edge.from_ft)
        high = from_ft + edge.to_ft if edge.to_ft is not None else outline.walls[i].length_ft
        parts = [p for q in parts for p in _cut(q, i, low, high)]
        if edge.type is RoofType.GABLE:
            parts.append((i, low, high))
            if not all(squared.whole) and not _takes_all(parts[-1], squared):
                raise _not_square(edge.wall)
    return tuple(parts)


def _takes_all(part: Part, squared: Squared) -> bool:
    """Whether a part is all of a wall of the house between two outside corners."""
    i, low, high = part
    outline, n = squared.outline, len(squared.outline.walls)
    ends = _is_outside_corner(outline, i) and _is_outside_corner(outline, (i + 1) % n)
    beside = squared.from_ft[i - 1], squared.from_ft[(i + 1) % n]
    return (
        squared.whole[i]
        and None not in beside
        and ends
        and low <= TIE_FT
        and high >= outline.walls[i].length_ft - TIE_FT
    )


def _not_square(wall: str) -> PlanError:
    return PlanError(
        f"roof.edge wall {wall}: in a plan with angled walls a gable takes a whole wall between two square outside "
        "corners; mark such a wall or leave the mark out"
    )


def _cut(part: Part, wall: int, low: float, high: float) -> list[Part]:
    i, a, b = part
    if i != wall:
        return [part]
    pieces = [(i, a, min(b, low)), (i, max(a, high), b)]
    return [p for p in pieces if p[2] - p[1] > TIE_FT]


def _gables_by_type(outline: Outline, wings: list[Wing]) -> list[Part]:
    """The main wing at both ends where they are wholly outside wall; other wings at their free end."""
    n = len(outline.walls)
    parts: list[Part] = []
    main = wings[0]
    for side in main.ends:
        cover = [p for i in range(n) if (p := _overlap(main, side, i, outline)) is not None]
        low, high = main.side_interval_ft(side)
        if sum(b - a for _, a, b in cover) >= high - low - TIE_FT:
            parts += cover
    for i in range(n):
        if not (_is_outside_corner(outline, i) and _is_outside_corner(outline, (i + 1) % n)):
            continue
        for wing in wings[1:]:
            for side in wing.ends:
                part = _overlap(wing, side, i, outline)
                low, high = wing.side_interval_ft(side)
                whole = part is not None and abs(outline.walls[i].length_ft - (high - low)) <= TIE_FT
                if whole and part is not None and part[2] - part[1] >= high - low - TIE_FT and part not in parts:
                    parts.append(part)
    return parts


def _is_outside_corner(outline: Outline, i: int) -> bool:
    n = len(outline.walls)
    (ax, ay), (bx, by), (cx, cy) = outline.local_ft[i - 1], outline.local_ft[i], outline.local_ft[(i + 1) % n]
    return (bx - ax) * (cy - by) - (by - ay) * (cx - bx) > 0


def _overlap(wing: Wing, side: FrameSide, wall_index: int, outline: Outline) -> Part | None:
    """The part of a wall, by stations, that a wing's side lies on."""
    n = len(outline.walls)
    a, b = outline.local_ft[wall_index], outline.local_ft[(wall_index + 1) % n]
    axis, along = side.axis, side.along
    if abs(a[axis] - b[axis]) > TIE_FT or abs(a[axis] - wing.side_ft(side)) > TIE_FT:
        return None
    outward = (b[1] - a[1], a[0] - b[0])[axis]
    if outward * side.inward >= 0:
        return None
    low, high = wing.side_interval_ft(side)
    toward = 1.0 if b[along] > a[along] else -1.0
    s0, s1 = sorted((toward * (low - a[along]), toward * (high - a[along])))
    s0, s1 = max(s0, 0.0), min(s1, abs(b[along] - a[along]))
    return (wall_index, s0, s1) if s1 - s0 > TIE_FT else None


def _gabled(wing: Wing, parts: tuple[Part, ...], outline: Outline) -> Wing:
    """The wing with a gable on each side that lies wholly on gable wall."""
    gable = tuple(_lies_on(wing, side, parts, outline) for side in SIDES)
    along_x, along_y = gable[0] or gable[1], gable[2] or gable[3]
    if along_x and along_y:
        a, b = wing.low_ft, wing.high_ft
        on = dict.fromkeys(outline.walls[i].name for s in SIDES for i, *_ in parts if _overlap(wing, s, i, outline))
        raise PlanError(
            f"roof edge: gables on neighbouring sides of the {b[0] - a[0]:.1f} x {b[1] - a[1]:.1f} ft {wing.name}, "
            f"{' and '.join(sorted(on, key=lambda w: int(w[1:])))}, leave no ridge; mark one of them, or two that face "
            "one another"
        )
    axis = 0 if along_x else 1 if along_y else wing.ridge_axis
    return replace(wing, gable=(gable[0], gable[1], gable[2], gable[3]), ridge_axis=axis)


def _without_pent(wing: Wing, parts: tuple[Part, ...], outline: Outline, overhang_ft: float) -> Wing:
    """The wing with no eave along the parts of its sides that are another wing's gable."""
    cuts: list[Box] = []
    for side in wing.eave_sides:
        axis = side.axis
        line, (low, high) = wing.side_ft(side), wing.side_interval_ft(side)
        for i, a, b in parts:
            on = _overlap(wing, side, i, outline)
            if on is None or min(b, on[2]) - max(a, on[1]) <= TIE_FT:
                continue
            start, end = outline.local_ft[i], outline.local_ft[(i + 1) % len(outline.walls)]
            toward = 1.0 if end[1 - axis] > start[1 - axis] else -1.0
            ends = sorted(start[1 - axis] + toward * s for s in (max(a, on[1]), min(b, on[2])))
            near = on_grid(ends[0] - (overhang_ft if abs(ends[0] - low) <= TIE_FT else 0.0))
            far = on_grid(ends[1] + (overhang_ft if abs(ends[1] - high) <= TIE_FT else 0.0))
            out = sorted((line, on_grid(line + (overhang_ft if side.is_high else -overhang_ft))))
            cuts.append((out[0], near, out[1], far) if axis == 0 else (near, out[0], far, out[1]))
    return replace(wing, no_eave_ft=tuple(cuts))


def _lies_on(wing: Wing, side: FrameSide, parts: tuple[Part, ...], outline: Outline) -> bool:
    low, high = wing.side_interval_ft(side)
    covered = 0.0
    for i, a, b in parts:
        on = _overlap(wing, side, i, outline)
        if on is not None:
            covered += max(0.0, min(b, on[2]) - max(a, on[1]))
    return covered >= high - low - TIE_FT


def _refuse_idle_marks(plan: Plan, squared: Squared, wings: tuple[Wing, ...]) -> None:
    for edge in plan.roof.edges:
        if edge.type is RoofType.GABLE:
            i = squared.line_of(int(edge.wall[1:]) - 1)
            used = i is not None and any(
                w.gable[s] and _overlap(w, s, i, squared.outline) is not None for w in wings for s in SIDES
            )
            if not used:
                raise PlanError(
                    f"roof.edge wall {edge.wall}: a gable there changes nothing, because no wing ends wholly on it; "
                    "mark the whole end of a wing or leave the mark out"
                )
