"""The trusses of an engineer's layout -> Framing: their lines and their marks, with nothing of ours in them."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

import shapely

from framing.layout.marks import MarkSpot, numbered_bearings
from framing.layout.porches import open_porches
from framing.layout.records import PLY_FT, Draft, Key, KeyKind, Landing, gable_truss_ft
from framing.layout.supports import read_supports
from framing.layout.wood_places import Ring, wood_grounds
from framing.members import Bearing, Carrier, CarrierKind, Framing, Member
from framing.package.rows import Package, PackageRow, like_ours
from framing.package.trusses import Seat, Truss, trusses_of
from framing.plan import Plan, Point
from framing.roof.surface import Roof
from framing.walls.outline import Outline

STUB_FT = 4.0
"""How far in a truss is drawn of which neither the other bearing nor the span is known."""

LEAST_FT = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidOut:
    """The framing, and the package's row at each of its bearings."""

    framing: Framing
    rows: tuple[PackageRow, ...]


def laid_out(plan: Plan, outline: Outline, roof: Roof, package: Package) -> LaidOut:
    """The package's trusses and marks. A table whose marks are written as ours and lie on their walls keeps them; else
    they are numbered along each wall.

    Raises
    ------
    PackageError
        If a row that does not hang has no wall, station or uplift; one sentence with the row.
    PlanError
        If no side of a porch lies along a porch beam; names the porch.
    """
    supports = read_supports(plan, outline)
    porches, porch_beams = open_porches(plan, outline, supports.porch_beams)
    trusses = trusses_of(plan, outline, supports, package)
    drafts = [_draft(plan, outline, t, Key(KeyKind.TRUSS, (k,))) for k, t in enumerate(trusses)]
    names = {d.key: t.name for d, t in zip(drafts, trusses, strict=True)}
    grounds = wood_grounds(outline, drafts)
    spots, bearings, rests = numbered_bearings(plan, outline, roof, supports, drafts, names, grounds)
    row_at = {spots[spot]: row for d, t in zip(drafts, trusses, strict=True) for spot, row in _rows(d, t)}
    marked = _marked((*bearings, *rests), row_at)
    held = tuple(replace(b, top_chord_in=None) for b in marked[: len(bearings)])
    members = tuple(
        _member(outline, roof, d, t.name, ring) for d, t, ring in zip(drafts, trusses, grounds, strict=True)
    )
    return LaidOut(
        framing=Framing(
            members=members,
            bearings=held,
            rests=marked[len(bearings) :],
            porch_beams=porch_beams,
            porches=porches,
            tributaries=(),
            framed_ft=outline.local_ft,
            seams_ft=(),
            notes=supports.notes + _notes(outline, package, trusses, marked, row_at),
            flags=(),
        ),
        rows=tuple(row_at[i] for i in range(len(bearings))),
    )


def _rows(draft: Draft, truss: Truss) -> list[tuple[MarkSpot, PackageRow]]:
    """The row at each spot of a draft that gets a mark."""
    if truss.along:
        ordered = sorted(truss.seats, key=lambda s: s.row.station_ft or 0.0)
        return [((draft.key, k), s.row) for k, s in enumerate(ordered)]
    first, *between = truss.seats
    last = [((draft.key, 1), between.pop().row)] if between else []
    return [((draft.key, 0), first.row), *(((draft.key, -1 - k), s.row) for k, s in enumerate(between)), *last]


def _draft(plan: Plan, outline: Outline, truss: Truss, key: Key) -> Draft:
    first, last = truss.seats[0], truss.seats[-1]
    if truss.along:
        return _along(plan, outline, truss, key)
    start, end = _landing(first), _landing(last)
    if first is last:
        end = Landing(wall=None, member=key, point_ft=_inner_end(outline, first))
    between = []
    for seat in truss.seats[1:-1]:
        at_ft = math.dist(start.point_ft, seat.point_ft)
        between.append((at_ft, seat.support if seat.support is not None else 0))
    tails = [_tail(plan, s) for s in (first, last)]
    return Draft(
        key=key,
        kind=truss.kind,
        plies=truss.plies,
        start=start,
        end=end,
        tail_start_ft=tails[0],
        tail_end_ft=0.0 if first is last else tails[1],
        wing=0,
        width_ft=0.0,
        between=tuple(between),
    )


def _along(plan: Plan, outline: Outline, truss: Truss, key: Key) -> Draft:
    """A truss along its wall, from end to end of it."""
    wall = truss.seats[0].wall or 0
    a, b = outline.local_ft[wall], outline.local_ft[(wall + 1) % len(outline.walls)]
    length, half = math.dist(a, b), plan.wall_thickness_ft / 2.0
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    ix, iy = truss.seats[0].inward
    deep = gable_truss_ft(plan) + PLY_FT / 2.0
    ends = [
        Landing(wall=wall, member=None, point_ft=(a[0] + ux * s + ix * deep, a[1] + uy * s + iy * deep))
        for s in (half, length - half)
    ]
    return Draft(
        key=key,
        kind=truss.kind,
        plies=truss.plies,
        start=ends[0],
        end=ends[1],
        tail_start_ft=half,
        tail_end_ft=half,
        wing=0,
        width_ft=0.0,
        gable_wall=wall,
        gable_anchors=tuple(_landing(s) for s in sorted(truss.seats, key=lambda s: s.row.station_ft or 0.0)),
    )


def _landing(seat: Seat) -> Landing:
    return Landing(wall=seat.wall, member=None, point_ft=seat.point_ft, support=seat.support)


def _tail(plan: Plan, seat: Seat) -> float:
    over_ft = seat.row.overhang_ft
    return 0.0 if over_ft is None or seat.wall is None else over_ft + plan.wall_thickness_ft / 2.0


def _inner_end(outline: Outline, seat: Seat) -> Point:
    """How far in a truss is drawn that has one bearing: its span, within the house."""
    (x, y), (ix, iy) = seat.point_ft, seat.inward
    wanted = max(seat.row.span_ft or STUB_FT, LEAST_FT)
    line = shapely.LineString([(x, y), (x + ix * wanted, y + iy * wanted)])
    within = [p for p in shapely.get_parts(line.intersection(shapely.Polygon(outline.local_ft))) if p.length > 0.0]
    reach = max((p.length for p in within if p.distance(shapely.Point(x, y)) < LEAST_FT), default=LEAST_FT)
    return (x + ix * max(reach, LEAST_FT), y + iy * max(reach, LEAST_FT))


def _marked(bearings: tuple[Bearing, ...], row_at: Mapping[int, PackageRow]) -> tuple[Bearing, ...]:
    """The bearings under the table's own marks where all of them are written as ours and name their walls."""
    theirs = [row_at[i].mark.upper() for i in range(len(bearings))]
    own = all(like_ours(m) and m.partition("-")[0] == b.wall for m, b in zip(theirs, bearings, strict=True))
    return tuple(replace(b, mark=m) for m, b in zip(theirs, bearings, strict=True)) if own else bearings


def _member(outline: Outline, roof: Roof, draft: Draft, name: str, ground_ft: Ring) -> Member:
    a, b = draft.start.point_ft, draft.end.point_ft
    length = math.dist(a, b)
    carried = [outline.walls[e.wall].name for e in (draft.start, draft.end) if e.wall is not None]
    return Member(
        name=name,
        kind=draft.kind,
        plies=draft.plies,
        start_ft=outline.frame.to_plan(a),
        end_ft=outline.frame.to_plan(b),
        tail_start_ft=draft.tail_start_ft,
        tail_end_ft=draft.tail_end_ft,
        profile=((-draft.tail_start_ft, 0.0), (length + draft.tail_end_ft, 0.0)),
        base_ft=0.0,
        carriers=tuple(Carrier(kind=CarrierKind.WALL, name=n) for n in carried),
        wing=roof.wings[0].name,
        paths=(),
        frame_ft=(a, b),
        between=(),
        width_ft=0.0,
        effective_span_ft=0.0,
        ground_ft=tuple(outline.frame.to_plan(p) for p in ground_ft),
    )


def _notes(
    outline: Outline,
    package: Package,
    trusses: tuple[Truss, ...],
    marked: tuple[Bearing, ...],
    row_at: Mapping[int, PackageRow],
) -> tuple[str, ...]:
    """What was taken because the table does not say it."""
    single = [t.seats[0] for t in trusses if len(t.seats) == 1]
    stubs = sum(s.row.span_ft is None for s in single)
    askew = {s.wall for s in single if s.wall is not None and outline.axes[s.wall] is None}
    walls = ", ".join(outline.walls[k].name for k in sorted(askew))
    thin = sum(row.plies is None for row in row_at.values())
    hung = sum(row.hung is True for row in package.rows)
    moved = any(row_at[i].mark.upper() != b.mark for i, b in enumerate(marked))
    said = (
        (moved, "marks are numbered along each wall; the package's own stand beside them in schedule.csv"),
        (
            bool(single),
            f"{len(single)} trusses have one bearing in it: each is taken square to its wall, or at 45 "
            f"degrees in an outside corner{f'; look at those on {walls}, which stands at an angle' if walls else ''}",
        ),
        (stubs > 0, f"{stubs} of them are drawn {STUB_FT:g} ft long, since neither span nor other bearing is given"),
        (thin > 0, f"{thin} rows do not say their plies: one is taken"),
        (hung > 0, f"{hung} ends hang on members and have no mark"),
    )
    return tuple(f"Truss package {package.name}: {words}." for holds, words in said if holds)
