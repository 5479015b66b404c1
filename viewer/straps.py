"""Anchors as true little straps, with a coloured tag on the beam's face, or a cross where no anchor holds."""

from __future__ import annotations

import itertools

import numpy as np

from framing.anchors.schedule import Mark
from framing.members import Member, MemberKind
from framing.run import Run
from viewer.masonry import tie_beam_top_ft
from viewer.pieces import Floats, Item, ItemKind, Pieces, boxes_from, solids_from
from viewer.stages import Stage

STRAP_THICKNESS_FT = 0.0625 / 12
STRAP_WIDTH_FT = 1.25 / 12
STRAP_LENGTH_FT = 16.0 / 12
STRAP_EMBEDMENT_FT = 4.0 / 12
"""Drawn where the catalogue gives no length or embedment. Source: common practice, no source."""
TAG_WIDTH_FT = 10.0 / 12
TAG_THICKNESS_FT = 2.0 / 12
CROSS_REACH_FT = 1.3
CROSS_HALF_FT = 0.13
CLEAR_OF_DECK_FT = 0.5 / 12
"""A strap longer than the truss is high at its bearing is bent over it; it is drawn up to here below the deck."""

Row = tuple[tuple[float, ...], ...]


def straps(run: Run) -> Pieces:
    """For each mark, in the schedule's order: its straps and its tag; where unresolved a cross and its tag."""
    members = {m.name: m for m in run.framing.members}
    top = tie_beam_top_ft(run)
    items: list[Item] = []
    rows: list[Row] = []
    owners: list[int] = []
    for mark in run.schedule.marks:
        member = members[mark.bearing.member]
        along = _axis(member)
        tag = _tag(run, mark, along, top)
        drawn = _straps(mark, member, along, top) if mark.resolved else _cross(run, mark, along, top)
        kind, prefix = (ItemKind.ANCHOR, "anchor") if mark.resolved else (ItemKind.CROSS, "no anchor")
        for item_kind, node, boxes in ((kind, prefix, drawn), (ItemKind.TAG, "tag", [tag])):
            rows += boxes
            owners += [len(items)] * len(boxes)
            items.append(
                Item(
                    node=f"{node} {mark.mark}",
                    kind=item_kind,
                    stage=Stage.ANCHORS,
                    mark=mark.mark,
                    member=mark.bearing.member,
                )
            )
    return Pieces(items=tuple(items), boxes=boxes_from(rows, owners), solids=solids_from(()))


def _axis(member: Member) -> Floats:
    """Unit vector (2,) from a member's start bearing to its end bearing."""
    along = np.subtract(member.end_ft, member.start_ft)
    return np.asarray(along / max(float(np.hypot(*along)), 1e-9))


def _straps(mark: Mark, member: Member, along: Floats, top_ft: float) -> list[Row]:
    """One box per strap, flat against the truss's side, from its foot in the beam to its head under the deck."""
    across = np.array((-along[1], along[0]))
    head, embedment = head_ft(mark, member, along), _embedment_ft(mark)
    half = (head + embedment) / 2
    rows: list[Row] = []
    for strap in mark.straps[: mark.count]:
        foot = np.asarray(strap.point_ft, float)
        outward = 1.0 if float((foot - member.start_ft) @ across) >= 0.0 else -1.0
        x, y = foot + across * outward * STRAP_THICKNESS_FT / 2
        centre = (float(x), float(y), top_ft - embedment + half)
        u = tuple(along * STRAP_WIDTH_FT / 2)
        v = tuple(across * STRAP_THICKNESS_FT / 2)
        rows.append((centre, (*u, 0.0), (*v, 0.0), (0.0, 0.0, half)))
    return rows


def _embedment_ft(mark: Mark) -> float:
    return (mark.anchor.embedment_in or 0.0) / 12 if mark.anchor and mark.anchor.embedment_in else STRAP_EMBEDMENT_FT


def head_ft(mark: Mark, member: Member, along: Floats) -> float:
    """How high over the beam a mark's straps end: at their length, or under the deck where they are bent over [ft]."""
    length = (mark.anchor.length_in or 0.0) / 12 if mark.anchor else 0.0
    d, z = np.array(member.profile).T
    roof = float(np.interp(float((np.asarray(mark.bearing.point_ft) - member.start_ft) @ along), d, z))
    return min((length or STRAP_LENGTH_FT) - _embedment_ft(mark), max(roof - CLEAR_OF_DECK_FT, CLEAR_OF_DECK_FT))


def _outward(run: Run, mark: Mark, along: Floats) -> Floats:
    """Unit vector (2,) in which the tag faces: out of the wall; out of the corner for a corner jack."""
    if mark.bearing.on_support:
        return along
    outward = np.asarray(run.outline.wall(mark.bearing.wall).outward)
    if mark.bearing.kind is MemberKind.CORNER_JACK:
        return along if float(along @ outward) > 0 else -along
    return outward


def _tag(run: Run, mark: Mark, along: Floats, top_ft: float) -> Row:
    """A plate as high as the tie beam on its outside face; on an inside support, round both its faces."""
    out = _outward(run, mark, along)
    across = np.array((-out[1], out[0])) * TAG_WIDTH_FT / 2
    half_wall = run.plan.wall_thickness_ft / 2
    half_beam = run.plan.tie_beam.depth_ft / 2
    x, y = np.asarray(mark.bearing.point_ft, float)
    thickness = TAG_THICKNESS_FT / 2
    if not mark.bearing.on_support:
        depth = half_wall * (2**0.5 if mark.bearing.kind is MemberKind.CORNER_JACK else 1.0)
        x, y = (x, y) + out * (depth + thickness)
    else:
        thickness += half_wall
    face = (*(out * thickness), 0.0)
    return ((float(x), float(y), top_ft - half_beam), face, (*across, 0.0), (0.0, 0.0, half_beam))


def _cross(run: Run, mark: Mark, along: Floats, top_ft: float) -> list[Row]:
    """Four bars along a cube's diagonals in front of the tag: an X from the front, the side and above. Its middle is as
    low as the beam's underside, so that it stays under the eaves of a finished roof.
    """
    out = _outward(run, mark, along)
    turn = np.array(((out[0], -out[1], 0.0), (out[1], out[0], 0.0), (0.0, 0.0, 1.0)))
    tag = _tag(run, mark, along, top_ft)
    low_ft = run.plan.tie_beam.depth_ft / 2
    centre = np.add(tag[0], (*(out * (CROSS_REACH_FT * 0.6 + TAG_THICKNESS_FT)), -low_ft))
    rows: list[Row] = []
    for j, k in itertools.product((-1.0, 1.0), repeat=2):
        u = np.array((1.0, j, k)) / 3**0.5
        v = np.array((-j, 1.0, 0.0)) / 2**0.5
        edges = (u * CROSS_REACH_FT, v * CROSS_HALF_FT, np.cross(u, v) * CROSS_HALF_FT)
        rows.append((tuple(centre), *(tuple(turn @ e) for e in edges)))
    return rows
