"""What is framed but doubtful to build, each where it stands with its cure."""

from __future__ import annotations

from itertools import combinations, pairwise

from framing.layout.cell_plan import CellPlan
from framing.layout.chords import LONGEST_GIRDER_FT, SHORT_TRUSS_FT
from framing.layout.records import (
    NARROW_WING_FT,
    SHORTEST_PIECE_FT,
    SMALLEST_BAY_FT,
    Chord,
    Key,
    cell_point,
    girder_key,
)
from framing.members import Member, MemberKind
from framing.plan import Point
from framing.tolerances import TIE_FT
from framing.units import feet_inches
from framing.walls.outline import Outline
from framing.walls.walls_near import walls_near

LONG_CHAIN = 3
SPANNING = (MemberKind.COMMON, MemberKind.STEP_DOWN, MemberKind.HIP_GIRDER, MemberKind.GIRDER)


def doubts(
    outline: Outline,
    cell_plans: list[CellPlan],
    members: list[Member],
    left_out_ft: list[Point],
) -> tuple[str, ...]:
    """Sentences on merged bays, jacks left out (`left_out_ft`: their feet), what hangs at a girder's heel, trusses
    under 3 ft, wings under 6 ft and girders that stand on one another in a chain.

    Source: common practice, no source.
    """
    told = _merged(outline, cell_plans) + _left_out(outline, left_out_ft)
    told += _at_heels(outline, members) + _side_by_side(members)
    return (*told, *_short_trusses(members), *_narrow_wings(outline, cell_plans), *_chains(members))


def long_girders(outline: Outline, chords: tuple[Chord, ...], names: dict[Key, str]) -> tuple[str, ...]:
    """A flag for every girder over 40 ft, and where a post halves it."""
    out = []
    for c in chords:
        if c.girder and c.span_ft > LONGEST_GIRDER_FT:
            places = list(pairwise([c.low_end.at_ft, *(at for at, _ in c.over), c.high_end.at_ft]))
            low, high = max(places, key=lambda p: p[1] - p[0])
            mid = (low + high) / 2
            x, y = outline.frame.to_plan((mid, c.bearing_ft) if c.axis == 0 else (c.bearing_ft, mid))
            out.append(
                f"{names[girder_key(c.index)]} spans {c.span_ft:.1f} ft, over 40 ft: "
                f"a post or bearing wall near ({x:.1f}, {y:.1f}) ft halves it"
            )
    return tuple(out)


def too_short(members: list[Member]) -> tuple[str, ...]:
    """A flag for every truss and girder under 1 ft between its bearings: no plant builds it.

    Source: common practice, no source.
    """
    out = []
    for m in members:
        if m.kind in SPANNING and m.span_ft < SHORTEST_PIECE_FT - TIE_FT:
            on = " and ".join(dict.fromkeys(c.name for c in m.carriers))
            out.append(
                f"{m.name} near {_place(_middle(m.start_ft, m.end_ft))}, on {on}, is only {feet_inches(m.span_ft)} "
                "long: no truss is built under 1 ft; make the part of the house there wider, or frame it by hand"
            )
    return tuple(out)


def _merged(outline: Outline, cell_plans: list[CellPlan]) -> list[str]:
    """Where a bay under 3 in. is merged with the one beside it: the middle of the truss line left out."""
    at = [
        outline.frame.to_plan(cell_point(cp.cell.ridge_axis, along, (low + high) / 2.0))
        for cp in cell_plans
        for low, high in [(cp.cell.side_ft(s) for s in cp.cell.flanks)]
        for along in cp.merged_ft
    ]
    places = dict.fromkeys(f"near {_place(p)}, by {walls_near(outline, p)}" for p in sorted(at))
    return [f"A bay under 3 in. is merged with its neighbour {'; '.join(places)}."] if places else []


def _left_out(outline: Outline, feet: list[Point]) -> list[str]:
    if not feet:
        return []
    places = ", ".join(dict.fromkeys(_place(outline.frame.to_plan(p)) for p in feet))
    return [
        f"Jacks shorter than 12 in., or within 3 in. of a girder, are not built near {places}: what lies beside them "
        "takes their roof."
    ]


def _at_heels(outline: Outline, members: list[Member]) -> list[str]:
    """What hangs on a girder over the girder's own bearing, because there is no room for both on the wall."""
    heel_ft = max(w.thickness_ft for w in outline.walls)
    hung = []
    for m in members:
        for path in m.paths:
            on = members[path.carrier] if path.carrier is not None else None
            if on is not None and on.kind is MemberKind.GIRDER:
                away_ft = min(path.at_ft, on.span_ft - path.at_ft)
                if away_ft <= heel_ft + TIE_FT:
                    hung.append(f"{m.name} on {on.name}")
    if not hung:
        return []
    return [
        f"Hung at the heel of a girder, over its bearing, without a mark of their own: {', '.join(hung)}; ask the "
        "truss plant."
    ]


def _side_by_side(members: list[Member]) -> list[str]:
    """Girders that stand along one another with less than 3 in. between their middles."""
    out = []
    for a, b in combinations((m for m in members if m.kind is MemberKind.GIRDER), 2):
        across = [k for k in (0, 1) if all(abs(m.frame_ft[0][k] - m.frame_ft[1][k]) <= TIE_FT for m in (a, b))]
        if not across or abs(a.frame_ft[0][across[0]] - b.frame_ft[0][across[0]]) >= SMALLEST_BAY_FT - TIE_FT:
            continue
        along = [sorted(p[1 - across[0]] for p in m.frame_ft) for m in (a, b)]
        if min(along[0][1], along[1][1]) - max(along[0][0], along[1][0]) > TIE_FT:
            where = _place(_middle(a.start_ft, a.end_ft))
            out.append(f"{a.name} and {b.name} stand within 3 in. of one another near {where}: build them as one.")
    return out


def _short_trusses(members: list[Member]) -> list[str]:
    kinds = (MemberKind.COMMON, MemberKind.STEP_DOWN)
    short = [m for m in members if m.kind in kinds and m.span_ft < SHORT_TRUSS_FT]
    places = [f"{m.name} near {_place(_middle(m.start_ft, m.end_ft))}" for m in short]
    if not places:
        return []
    return [f"Shorter than 3 ft, better framed by hand or left to the neighbours: {', '.join(places)}."]


def _narrow_wings(outline: Outline, cell_plans: list[CellPlan]) -> list[str]:
    out = []
    for cp in cell_plans:
        width = cp.wing.size_ft[1 - cp.cell.ridge_axis]
        if width < NARROW_WING_FT - TIE_FT:
            at = outline.frame.to_plan(_middle(cp.cell.low_ft, cp.cell.high_ft))
            out.append(
                f"{cp.wing.name} is {width:.1f} ft wide near {_place(at)}, under 6 ft, and gets no hip of its "
                "own: its trusses run across it; a beam across its mouth, or framing by hand, carries it as well."
            )
    return list(dict.fromkeys(out))


def _chains(members: list[Member]) -> list[str]:
    """The longest chain of girders, each on the next, and where a post under it breaks it."""
    under: dict[int, list[int]] = {}
    for i, m in enumerate(members):
        if m.kind is MemberKind.GIRDER:
            below = [under[p.carrier] for p in m.paths if p.carrier in under]
            under[i] = [i, *max(below, key=len, default=[])]
    chain = max(under.values(), key=len, default=[])
    if len(chain) < LONG_CHAIN:
        return []
    lowest = members[chain[-2]]
    at = lowest.start_ft if lowest.paths[0].carrier == chain[-1] else lowest.end_ft
    named = " on ".join(members[i].name for i in chain)
    return [
        f"{len(chain)} girders stand on one another in a chain ({named}): the truss "
        f"engineer should see the chain whole; a post or bearing wall near {_place(at)} breaks it."
    ]


def _middle(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0)


def _place(at: Point) -> str:
    return f"({at[0]:.1f}, {at[1]:.1f}) ft"
