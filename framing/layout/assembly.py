"""Roof -> Framing: the cells' members put together, named, and their marks set on the walls."""

from __future__ import annotations

import math
from collections import Counter
from itertools import pairwise

from framing.errors import LayoutError
from framing.layout.angled import angled_notes, cut_to_walls
from framing.layout.cell_plan import CellPlan, EndKind
from framing.layout.chords import Division, cheapest_division
from framing.layout.doubtful_members import doubts, long_girders, too_short
from framing.layout.gable_ends import gable_end
from framing.layout.girders import girder_on
from framing.layout.hip_ends import hip_end
from framing.layout.landing import Ground
from framing.layout.marks import MarkSpot, numbered_bearings
from framing.layout.narrow_refusals import too_narrow_for
from framing.layout.one_place import hung_on_girders
from framing.layout.porches import open_porches
from framing.layout.profiles import member_shape
from framing.layout.records import JOG_FT, Chord, Draft, Key, KeyKind, Landing, RoofStrip, lever_on
from framing.layout.shared_truss_lines import share_truss_lines
from framing.layout.supports import Supports, on_supports, read_supports
from framing.layout.truss_lines import plan_cell
from framing.layout.trusses import trusses
from framing.layout.valleys import valley_members
from framing.layout.wood_places import Ring, wood_grounds
from framing.members import (
    Bearing,
    Carrier,
    CarrierKind,
    EndPath,
    Framing,
    Member,
    MemberKind,
    MidBearing,
    Tributary,
)
from framing.plan import Plan, Point
from framing.roof.surface import Roof
from framing.walls.outline import Outline, tie_key
from framing.walls.squared_outline import Squared, square_off

SHORTEST_SPAN_FT = 0.05
ABSORBED_FT = (JOG_FT, 1.0, 0.5)
"""Jogs up to which limit are absorbed: less where a truss end would be left with nothing to stand on."""


def build_framing(plan: Plan, outline: Outline, roof: Roof) -> Framing:
    """Every member of the roof, what carries it, and the marks on the walls.

    Raises
    ------
    LayoutError
        If a truss end has nothing to stand on; names the place.
    PlanError
        If no side of a porch lies along a porch beam; names the porch.
    """
    squared, supports = square_off(outline), read_supports(plan, outline)
    refused: list[LayoutError] = []
    for absorbed_ft in ABSORBED_FT:
        try:
            return _framing(plan, outline, roof, squared, supports, absorbed_ft)
        except LayoutError as told:
            refused.append(told)
    raise refused[0]


def _framing(
    plan: Plan, outline: Outline, roof: Roof, squared: Squared, supports: Supports, absorbed_ft: float
) -> Framing:
    porches, porch_beams = open_porches(plan, outline, supports.porch_beams)
    division = cheapest_division(squared.outline, roof, plan.trusses.spacing_ft, supports, absorbed_ft)
    framed, chords, cells = division.framed, division.chords, division.cells
    start_ft = outline.frame.to_local(outline.wall(plan.trusses.start).start_ft)
    ground = _ground(squared, roof, division, supports, start_ft)
    cell_plans = share_truss_lines([plan_cell(plan, ground, c, roof.wings[c.wing]) for c in cells])
    drafts, strips, left_out = _members_of_cells(plan, ground, cell_plans)
    _refuse_pieces_without_length(outline, drafts)
    drafts, strips, without = cut_to_walls(plan, outline, roof, squared, drafts, strips)
    drafts = [on_supports(d, chords, supports) for d in hung_on_girders(outline, drafts)]
    names = _names(drafts)
    grounds = wood_grounds(outline, drafts)
    spots, bearings, rests = numbered_bearings(plan, outline, roof, supports, drafts, names, grounds)
    index = {d.key: i for i, d in enumerate(drafts)}
    marked = {spot: (*bearings, *rests)[i] for spot, i in spots.items()}
    members = [
        _member(plan, outline, roof, d, drafts, index, names, marked, spots, len(bearings), grounds[i])
        for i, d in enumerate(drafts)
    ]
    tributaries = tuple(_tributary(s, index, spots, roof.wings[s.wing].name) for s in strips)
    valleys = valley_members(plan, outline, roof, cell_plans, tributaries, members)
    return Framing(
        members=tuple(members) + valleys,
        bearings=bearings,
        rests=rests,
        porch_beams=porch_beams,
        porches=porches,
        tributaries=tributaries,
        framed_ft=framed.corners_ft,
        seams_ft=_seams(outline, chords),
        notes=angled_notes(outline, without)
        + doubts(outline, cell_plans, members, left_out)
        + _of_supports(supports, (*bearings, *rests)),
        flags=long_girders(outline, chords, names) + too_short(members),
    )


def _ground(squared: Squared, roof: Roof, division: Division, supports: Supports, origin_ft: Point) -> Ground:
    return Ground(
        house=squared.house,
        outline=squared.outline,
        roof=roof,
        framed=division.framed,
        chords=division.chords,
        cells=division.cells,
        supports=supports,
        origin_ft=origin_ft,
    )


def _members_of_cells(
    plan: Plan, ground: Ground, cell_plans: list[CellPlan]
) -> tuple[list[Draft], list[RoofStrip], list[Point]]:
    """The girders, then all cells' members, their strips, and the feet of the jacks that cannot be built."""
    drafts = [girder_on(plan, c, [cp.cell for cp in cell_plans]) for c in ground.chords if c.girder]
    strips: list[RoofStrip] = []
    left_out: list[Point] = []
    for cp in cell_plans:
        spanning, taken = trusses(plan, ground, cp, _seams_of(cp, cell_plans, ground))
        drafts += spanning
        strips += taken
        for end in (cp.low_end, cp.high_end):
            if end.kind is EndKind.HIP:
                hip = hip_end(plan, ground, cp, end)
                drafts += hip.drafts
                strips += hip.strips
                left_out += hip.left_out_ft
            elif end.kind is EndKind.GABLE:
                draft, more = gable_end(plan, ground, cp, end)
                drafts.append(draft)
                strips += more
    return drafts, strips, left_out


def _seams_of(cp: CellPlan, cell_plans: list[CellPlan], ground: Ground) -> frozenset[int]:
    """The plain truss lines whose truss this cell builds: the widest of its cells, else the longest, else the first."""
    out = set()
    for end in (cp.low_end, cp.high_end):
        if end.key.kind is not KeyKind.SEAM:
            continue
        along, across = cp.cell.ridge_axis, 1 - cp.cell.ridge_axis
        sharing = [p for p in cell_plans if end.key in (p.low_end.key, p.high_end.key)]
        sizes = [(tie_key(p.cell.size_ft(across)), tie_key(p.cell.size_ft(along)), -p.cell.index) for p in sharing]
        widest = sharing[sizes.index(max(sizes))]
        if widest.cell.index == cp.cell.index:
            out.add(end.key.place[0])
    return frozenset(out)


def _seams(outline: Outline, chords: tuple[Chord, ...]) -> tuple[tuple[Point, Point], ...]:
    plain = [c for c in chords if not c.girder]
    ends = [[(c.low_ft, c.line_ft), (c.high_ft, c.line_ft)] for c in plain]
    turned = [[p if c.axis == 0 else p[::-1] for p in pair] for c, pair in zip(plain, ends, strict=True)]
    return tuple((outline.frame.to_plan(a), outline.frame.to_plan(b)) for a, b in turned)


def _refuse_pieces_without_length(outline: Outline, drafts: list[Draft]) -> None:
    for draft in drafts:
        a, b = draft.start.point_ft, draft.end.point_ft
        if math.dist(a, b) < SHORTEST_SPAN_FT:
            raise too_narrow_for(draft.kind, outline, a)


def _names(drafts: list[Draft]) -> dict[Key, str]:
    """Names by kind and number, spelled out."""
    n: Counter[MemberKind] = Counter()
    names: dict[Key, str] = {}
    for d in drafts:
        n[d.kind] += 1
        names[d.key] = f"{d.kind} {n[d.kind]}"
    return names


def _member(
    plan: Plan,
    outline: Outline,
    roof: Roof,
    draft: Draft,
    drafts: list[Draft],
    index: dict[Key, int],
    names: dict[Key, str],
    marked: dict[MarkSpot, Bearing],
    spots: dict[MarkSpot, int],
    n_held: int,
    ground_ft: Ring,
) -> Member:
    a, b = draft.start.point_ft, draft.end.point_ft
    gable = draft.gable_wall is not None
    spanning = () if gable else (_path(draft, 0, drafts, index, spots), _path(draft, 1, drafts, index, spots))
    profile = member_shape(plan, roof, draft)
    between = tuple(MidBearing(bearing=spots[draft.key, -1 - k], at_ft=at) for k, (at, _) in enumerate(draft.between))
    held = [0.0, *(m.at_ft for m in between if m.bearing < n_held), math.dist(a, b)]
    return Member(
        name=names[draft.key],
        kind=draft.kind,
        plies=draft.plies,
        start_ft=outline.frame.to_plan(a),
        end_ft=outline.frame.to_plan(b),
        tail_start_ft=draft.tail_start_ft,
        tail_end_ft=draft.tail_end_ft,
        profile=profile,
        base_ft=0.0,
        carriers=_carriers(draft, outline, names, marked),
        wing=roof.wings[draft.wing].name,
        paths=spanning,
        frame_ft=(a, b),
        between=between,
        width_ft=draft.width_ft,
        effective_span_ft=plan.trusses.gable_anchor_spacing_ft if gable else max(y - x for x, y in pairwise(held)),
        ground_ft=tuple(outline.frame.to_plan(p) for p in ground_ft),
    )


def _carriers(
    draft: Draft, outline: Outline, names: dict[Key, str], marked: dict[MarkSpot, Bearing]
) -> tuple[Carrier, ...]:
    """What a draft stands on, from its start to its end; `marked` is the bearing at each mark."""
    if draft.gable_wall is not None:
        return (Carrier(kind=CarrierKind.WALL, name=outline.walls[draft.gable_wall].name),)

    def of(number: int, landing: Landing | None) -> Carrier:
        if landing is not None and landing.member is not None:
            return Carrier(kind=CarrierKind.MEMBER, name=names[landing.member])
        there = marked[draft.key, number]
        return Carrier(kind=there.stands_on, name=there.wall)

    return (of(0, draft.start), *(of(-1 - k, None) for k in range(len(draft.between))), of(1, draft.end))


def _path(draft: Draft, end: int, drafts: list[Draft], index: dict[Key, int], spots: dict[MarkSpot, int]) -> EndPath:
    landing = (draft.start, draft.end)[end]
    if landing.member is None:
        return EndPath(bearing=spots[(draft.key, end)], carrier=None, at_ft=0.0)
    carrier = drafts[index[landing.member]]
    (ax, ay), (bx, by) = carrier.start.point_ft, carrier.end.point_ft
    length = math.hypot(bx - ax, by - ay)
    x, y = landing.point_ft
    at = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length
    return EndPath(bearing=None, carrier=index[landing.member], at_ft=at)


def _tributary(strip: RoofStrip, index: dict[Key, int], spots: dict[MarkSpot, int], wing: str) -> Tributary:
    lever = lever_on(strip.lever, index[strip.lever.inside]) if strip.lever else None
    bearing = spots[(strip.owner, strip.anchor)] if strip.anchor is not None else None
    return Tributary(
        ring_ft=strip.ring_ft,
        owner=index[strip.owner],
        outward=strip.outward,
        measure=strip.measure,
        bearing=bearing,
        lever=lever,
        wing=wing,
        open_sides=strip.open_sides,
        beyond=strip.beyond,
    )


def _of_supports(supports: Supports, bearings: tuple[Bearing, ...]) -> tuple[str, ...]:
    """What is to be said of the supports, and which of them carry nothing."""
    used = {b.wall for b in bearings}
    names = [s.name for s in supports.inside] + [b.name for b in supports.porch_beams]
    return supports.notes + tuple(
        f"Support {name} carries nothing: no truss ends on it or crosses it 2 ft or more from the truss's own ends."
        for name in names
        if name not in used
    )
