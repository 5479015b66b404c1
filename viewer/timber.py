"""Members as real solids: chords along the profile, and webs in a pattern that is only plausible.

The web pattern is the truss engineer's to decide; ours shows people what a truss looks like, no more.
"""

from __future__ import annotations

import math

import numpy as np

from framing.members import CarrierKind, Member, MemberKind
from framing.run import Run
from viewer.masonry import tie_beam_top_ft
from viewer.pieces import Floats, Item, ItemKind, Pieces, boxes_from, solids_from
from viewer.stages import Stage

PLY_FT = 1.5 / 12
"""Thickness of one ply of 2x lumber. Source: common practice, no source [ft]."""
CHORD_FT = 3.5 / 12
"""Depth of a 2x4, drawn for chords and webs. Source: common practice (dressed size), no source [ft]."""
STUD_SPACING_FT = 2.0
LEAST_WEB_FT = 0.75
WEB_THINNER_RATIO = 0.92
"""Webs are drawn a little thinner than chords, so that surfaces that meet do not flicker."""
TOP_NODES_BY_SPAN_FT = ((8.0, 0), (16.0, 1), (36.0, 3), (52.0, 5), (70.0, 7), (math.inf, 9))

Bar = tuple[float, float, float, float, float, float, float]
"""One bar in a member's own plane: d and z of its two ends, d and z of its half depth, its half thickness [ft]."""


def timber(run: Run) -> Pieces:
    """One item per member, in the layout's order, each of several closed boxes."""
    members = run.framing.members
    bars: list[Bar] = []
    owners: list[int] = []
    half_wall = run.plan.wall_thickness_ft / 2
    for i, member in enumerate(members):
        drawn = member_bars(member, half_wall)
        bars += drawn
        owners += [i] * len(drawn)
    items = tuple(Item(node=m.name, kind=ItemKind.MEMBER, stage=Stage.TRUSSES, mark="", member=m.name) for m in members)
    rows = _in_space(members, np.array(bars).reshape(-1, 7), np.array(owners, np.int32), tie_beam_top_ft(run))
    return Pieces(items=items, boxes=boxes_from(rows, owners), solids=solids_from(()))


def _in_space(members: tuple[Member, ...], bars: Floats, owner: np.ndarray, top_ft: float) -> Floats:
    """Rows (n, 4, 3) of centre, u, v, w for bars (n, 7) drawn in their members' own planes [ft]."""
    if not len(bars):
        return np.zeros((0, 4, 3))
    start = np.array([m.start_ft for m in members])[owner]
    along = np.array([np.subtract(m.end_ft, m.start_ft) / max(m.span_ft, 1e-9) for m in members])[owner]
    d0, z0, d1, z1, dv, zv, half = bars.T
    rows = np.zeros((len(bars), 4, 3))
    for k, (d, z) in enumerate((((d0 + d1) / 2, (z0 + z1) / 2), ((d1 - d0) / 2, (z1 - z0) / 2), (dv, zv))):
        rows[:, k, :2] = along * d[:, None]
        rows[:, k, 2] = z
    rows[:, 0, :2] += start
    rows[:, 0, 2] += top_ft
    rows[:, 3, 0], rows[:, 3, 1] = along[:, 1] * half, -along[:, 0] * half
    return rows


def member_bars(member: Member, half_wall_ft: float) -> list[Bar]:
    """The chords, then the webs, of one member in its own plane; d from its start bearing, z from the tie beam.

    Top chords are cut plumb where they meet, so neighbours share a face; the bottom chord lies on `base_ft`.
    """
    half = member.plies * PLY_FT / 2
    bars: list[Bar] = []
    for (d0, z0), (d1, z1) in zip(member.profile[:-1], member.profile[1:], strict=True):
        if d1 - d0 > 1e-6:
            upright = CHORD_FT * math.hypot(1.0, (z1 - z0) / (d1 - d0)) / 2
            bars.append((d0, z0 - upright, d1, z1 - upright, 0.0, upright, half))
    low, high = _bottom_chord_ends(member, half_wall_ft)
    if high - low <= CHORD_FT:
        return bars
    middle = member.base_ft + CHORD_FT / 2
    bars.append((low, middle, high, middle, 0.0, CHORD_FT / 2, half))
    return bars + [_web(*ends, half * WEB_THINNER_RATIO) for ends in _webs(member, low, high)]


def _bottom_chord_ends(member: Member, half_wall_ft: float) -> tuple[float, float]:
    """From where to where the bottom chord fits under the top of the profile [ft]."""
    d, z = np.array(member.profile).T
    low = -min(member.tail_start_ft, half_wall_ft)
    high = member.span_ft + min(member.tail_end_ft, half_wall_ft)
    low, high = max(low, float(d[0])), min(high, float(d[-1]))
    fits = np.linspace(low, high, 129)
    inside = fits[np.interp(fits, d, z) >= member.base_ft + CHORD_FT - 1e-9]
    return (float(inside[0]), float(inside[-1])) if len(inside) else (0.0, 0.0)


def _webs(member: Member, low: float, high: float) -> list[tuple[float, float, float, float]]:
    """Web centre lines as (d, z, d, z) of foot and head: studs in a gable end, else a zigzag with end posts."""
    d, z = np.array(member.profile).T
    foot = member.base_ft + CHORD_FT / 2

    def head(x: float) -> float:
        return float(np.interp(x, d, z)) - CHORD_FT / 2

    if member.kind is MemberKind.GABLE_END or _stands_along_its_length(member):
        n = int((high - low) / STUD_SPACING_FT)
        first = (low + high - n * STUD_SPACING_FT) / 2
        lines = [(x, foot, x, head(x)) for x in (first + k * STUD_SPACING_FT for k in range(n + 1))]
    else:
        posts = [x for x in (low + CHORD_FT / 2, high - CHORD_FT / 2) if head(x) - foot > 2 * CHORD_FT]
        lines = [(x, foot, x, head(x)) for x in posts] + [
            (a, foot, b, head(b)) for a, b in _zigzag(low, high, member.span_ft)
        ]
    return [line for line in lines if line[3] - line[1] >= LEAST_WEB_FT]


def _stands_along_its_length(member: Member) -> bool:
    """Whether it stands on more than its two ends: a valley piece on the trusses below it."""
    return member.kind is MemberKind.VALLEY or (
        len(member.carriers) > 2 and all(c.kind is CarrierKind.MEMBER for c in member.carriers)
    )


def _zigzag(low: float, high: float, span_ft: float) -> list[tuple[float, float]]:
    """Foot and head of each web: heads at even panels, feet at even panels between them [ft]."""
    n = next(count for limit, count in TOP_NODES_BY_SPAN_FT if span_ft < limit)
    if n == 0:
        return []
    heads = [low + (high - low) * (k + 1) / (n + 1) for k in range(n)]
    if n == 1:
        return [(heads[0], heads[0])]
    feet = [low + (high - low) * (k + 1) / n for k in range(n - 1)]
    return [pair for k, foot in enumerate(feet) for pair in ((foot, heads[k]), (foot, heads[k + 1]))]


def _web(d0: float, z0: float, d1: float, z1: float, half: float) -> Bar:
    """A web of a 2x4's depth along a centre line."""
    length = math.hypot(d1 - d0, z1 - z0)
    return (d0, z0, d1, z1, -(z1 - z0) / length * CHORD_FT / 2, (d1 - d0) / length * CHORD_FT / 2, half)
