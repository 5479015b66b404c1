"""Framing + schedule -> what stands in one place: members on the tie beam, straps in members, straps close together.

A strap is a point here, the middle of it: no catalogue says how wide a strap is.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from framing.anchors.schedule import AnchorSchedule, Mark
from framing.layout.records import gable_truss_ft
from framing.layout.wood_places import HAIR_FT, beam_ground
from framing.members import CarrierKind, Crossing, Framing, Member, MemberKind
from framing.plan import Plan
from framing.tolerances import TIE_FT
from framing.units import inches
from framing.walls.outline import Outline

ASK_UNDER_FT = 3.0 / 12.0
BLOCK_JOINT_IN = 0.375


@dataclass(frozen=True, slots=True, kw_only=True)
class StrapRoom:
    """Sentences on what stands too close: `flags` make the exit code 1, `notes` ask."""

    notes: tuple[str, ...]
    flags: tuple[str, ...]


def with_clear_distances(schedule: AnchorSchedule) -> AnchorSchedule:
    """The schedule with how far each mark's straps stand from the nearest strap of another member."""
    nearest: dict[int, float] = {}
    for a, b, apart in _pairs(schedule, math.inf):
        for i in (a, b):
            nearest[i] = min(apart, nearest.get(i, math.inf))
    marks = tuple(replace(m, clear_ft=nearest.get(i)) for i, m in enumerate(schedule.marks))
    return replace(schedule, marks=marks)


def strap_room(plan: Plan, outline: Outline, framing: Framing, schedule: AnchorSchedule) -> StrapRoom:
    """What cannot stand as laid out, and what is to be asked.

    Straps under the `spacing_in` of the catalogue's row of either are flagged; where it has none, straps under 3 in.
    are asked about: a threshold for asking, no limit. Source: common practice, no source.
    """
    members = [m for m in framing.members if m.ground_ft]
    grounds = np.array([Polygon(m.ground_ft) for m in members], dtype=object)
    shrunk = shapely.buffer(grounds, -HAIR_FT, join_style="mitre")
    close, ask = _close_straps(schedule)
    beam = beam_ground(outline.corners_ft, outline.walls[0].thickness_ft)
    inside = _in_other_members(schedule, members, shrunk)
    overlaps = _overlaps(beam, members, shrunk)
    flags = (*overlaps.flags, *inside, *_off_the_beam(beam, schedule), *close)
    notes = (*overlaps.notes, *_gable_question(plan, schedule), *_other_faces(plan, schedule), *ask)
    return StrapRoom(notes=notes, flags=flags)


def _other_faces(plan: Plan, schedule: AnchorSchedule) -> tuple[str, ...]:
    """Single straps that stand on the other face than the plan asks for, because there is no room on that one."""
    usual = plan.anchors.side
    crossing = [m for m in schedule.marks if m.straps and m.count < 2 and m.bearing.crossing is not Crossing.ALONG]
    odd = ", ".join(m.mark for m in crossing if m.bearing.side is not usual)
    return (
        (f"Not on the {usual.value} side but on the other, since another member takes that face: {odd}.",)
        if odd
        else ()
    )


def _gable_question(plan: Plan, schedule: AnchorSchedule) -> tuple[str, ...]:
    """Where the gable-end trusses come to stand by their straps, if the plan does not say it.

    A block of whole even inches is by its module 3/8 in. thinner. Source: common practice, no source.
    """
    along = any(m.bearing.kind is MemberKind.GABLE_END and m.straps for m in schedule.marks)
    if plan.roof.gable_truss_ft is not None or not along:
        return ()
    outer_ft, thickness_in = gable_truss_ft(plan), 12.0 * plan.wall_thickness_ft
    where = inches(outer_ft)
    if abs(thickness_in / 2.0 - round(thickness_in / 2.0)) < TIE_FT and outer_ft > 0.0:
        real_ft, real = outer_ft - BLOCK_JOINT_IN / 24.0, inches((thickness_in - BLOCK_JOINT_IN) / 12.0)
        where += f" in ({inches(real_ft)} where a block sold as {thickness_in:.0f} in. is {real} thick)"
    return (
        "How far in from the block's outside face the gable-end trusses stand is not said (roof.gable_truss). Their "
        "straps are set at mid-thickness against the inside face, which puts the truss's outer face "
        f"{where}: ask the truss engineer and the framer before the pour.",
    )


def _overlaps(beam: Polygon, members: list[Member], shrunk: NDArray[np.object_]) -> StrapRoom:
    """Members that cover the same ground of the tie beam: a flag; of two hung on one carrier what is not in the
    carrier's own wood, at whose faces they end: a question for the plant, since neither has an anchor there.
    """
    on_beam = shapely.intersection(shrunk, beam)
    place = {m.name: i for i, m in enumerate(members)}
    tree = shapely.STRtree(on_beam)
    flags, hung = [], []
    for i, j in tree.query(on_beam, predicate="intersects").T.tolist():
        a, b = members[i], members[j]
        on_a, on_b = _carried_by(a), _carried_by(b)
        if i >= j or a.name in on_b or b.name in on_a:
            continue
        shared, both = shapely.intersection(on_beam[i], on_beam[j]), sorted(on_a & on_b)
        for name in both:
            shared = shared.difference(shapely.buffer(shrunk[place[name]], 2.0 * HAIR_FT, join_style="mitre"))
        if shared.is_empty:
            continue
        x, y = shapely.get_coordinates(shared.representative_point())[0]
        if both:
            hung.append(f"{a.name} and {b.name} on {' and '.join(both)} near ({x:.2f}, {y:.2f}) ft")
            continue
        flags.append(
            f"{a.name} and {b.name} stand in one another on the tie beam near ({x:.2f}, {y:.2f}) ft: the truss "
            "engineer moves one of them or makes them one."
        )
    ask = (f"Hung in one place on one member: {', '.join(hung)}; ask the truss plant how both are held.",)
    return StrapRoom(notes=ask if hung else (), flags=tuple(flags))


def _carried_by(member: Member) -> set[str]:
    """The members that carry a member, at whose faces it ends."""
    return {c.name for c in member.carriers if c.kind is CarrierKind.MEMBER}


def _in_other_members(schedule: AnchorSchedule, members: list[Member], shrunk: NDArray[np.object_]) -> tuple[str, ...]:
    """Straps that stand inside the wood of a member that is not their own."""
    straps = [(m, s.point_ft) for m in schedule.marks for s in m.straps]
    tree = shapely.STRtree(shrunk)
    hits = tree.query(shapely.points([p for _, p in straps]), predicate="within").T.tolist() if straps else []
    inside = [(straps[i][0], members[j].name) for i, j in hits if members[j].name != straps[i][0].bearing.member]
    return tuple(_no_room(mark, other) for mark, other in inside)


def _no_room(mark: Mark, other: str) -> str:
    own = mark.bearing.member
    if mark.count > 1:
        return (
            f"{mark.mark}: a strap of the pair at {own} stands inside {other}, which takes that face: ask the truss "
            "engineer for a place for the pair, for a heavier single anchor, or to move the one of the two."
        )
    return (
        f"{mark.mark}: the strap of {own} stands inside {other}: the truss engineer moves one of the two, or the strap "
        "goes on another face."
    )


def _off_the_beam(beam: Polygon, schedule: AnchorSchedule) -> tuple[str, ...]:
    """Straps of marks on walls that have no tie beam under them."""
    straps = [(m, s.point_ft) for m in schedule.marks if not m.bearing.on_support for s in m.straps]
    off = shapely.distance(beam, shapely.points([p for _, p in straps])).tolist() if straps else []
    return tuple(
        f"{mark.mark}: the strap of {mark.bearing.member} stands {inches(ft)} off the tie beam: the truss engineer "
        "moves the truss, or the beam is made wider there."
        for (mark, _), ft in zip(straps, off, strict=True)
        if ft > HAIR_FT
    )


def _close_straps(schedule: AnchorSchedule) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Straps of different members under the catalogue's spacing, and where it has none, under 3 in."""
    widest = max((a.spacing_in or 0.0 for a in schedule.catalogue.anchors), default=0.0)
    flags, ask = [], []
    for i, j, apart in sorted(_pairs(schedule, max(widest / 12.0, ASK_UNDER_FT)), key=lambda p: p[:2]):
        a, b = schedule.marks[i], schedule.marks[j]
        spacing_in = max((m.anchor.spacing_in or 0.0 for m in (a, b) if m.anchor is not None), default=0.0)
        words = f"{a.mark} and {b.mark} ({inches(apart)})"
        if apart < spacing_in / 12.0 - TIE_FT:
            flags.append(
                f"{a.mark} and {b.mark}: their straps stand {inches(apart)} apart, under the catalogue's spacing of "
                f"{inches(spacing_in / 12.0)}; the truss engineer moves one of the members or the maker is asked."
            )
        elif not spacing_in and apart < ASK_UNDER_FT - HAIR_FT:
            ask.append(words)
    if not ask:
        return tuple(flags), ()
    question = (
        f"Straps of different members under 3 in. apart, middle to middle: {', '.join(ask)}. The catalogue gives no "
        "spacing: read the approval, or ask the maker, whether both hold in full there."
    )
    return tuple(flags), (question,)


def _pairs(schedule: AnchorSchedule, within_ft: float) -> list[tuple[int, int, float]]:
    """The marks of different members whose straps are nearest to one another, by their places, and how far. [ft]"""
    owners = [(i, s.point_ft) for i, m in enumerate(schedule.marks) for s in m.straps]
    if len(owners) < 2:
        return []
    at, points = np.array([i for i, _ in owners]), np.array([p for _, p in owners])
    names = np.unique([m.bearing.member for m in schedule.marks], return_inverse=True)[1]
    apart = np.hypot(*(points[:, None] - points[None]).transpose(2, 0, 1))
    apart[names[at][:, None] == names[at][None]] = np.inf
    if math.isinf(within_ft):
        rows, columns = np.arange(len(at)), apart.argmin(axis=1)
        near = np.isfinite(apart[rows, columns])
    else:
        rows, columns = np.nonzero(apart < within_ft)
        near = np.ones(len(rows), dtype=bool)
    best: dict[tuple[int, int], float] = {}
    for r, c in zip(rows[near].tolist(), columns[near].tolist(), strict=True):
        i, j = sorted((int(at[r]), int(at[c])))
        best[i, j] = min(float(apart[r, c]), best.get((i, j), math.inf))
    return [(i, j, d) for (i, j), d in best.items()]
