"""The plan's supports in the outline's frame: porch beams in place of walls, and what carries trusses inside.

A truss that crosses a support stands on it, unless the support lies along the truss or nearer than 2 ft to one of its
ends. Source: common practice, no source (every tolerance here).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from framing.layout.jogs import Framed
from framing.layout.records import JOG_FT, Chord, ChordEnd, Draft, KeyKind
from framing.members import PorchBeam
from framing.plan import Plan, Point, Support, SupportKind
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline, Wall

BESIDE_FT = 0.5
IN_WALL_FT = 1.0 / 12.0
SHORTEST_SIDE_FT = 2.0
ALONG_DEG = 10.0
POST_FT = 4.0
PAST_FT = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SupportLine:
    """A support inside the house, by its place in the plan; in the frame, from its `from` end."""

    index: int
    start_ft: Point
    end_ft: Point
    holds_down: bool

    @property
    def name(self) -> str:
        """The support's name."""
        return f"S{self.index + 1}"

    @property
    def axis(self) -> int | None:
        """The axis of the frame that it runs along, if it does."""
        return next((k for k in (0, 1) if abs(self.start_ft[1 - k] - self.end_ft[1 - k]) <= IN_WALL_FT), None)

    def between_ft(self, axis: int) -> tuple[float, float]:
        """From where to where it runs along an axis."""
        a, b = sorted((self.start_ft[axis], self.end_ft[axis]))
        return a, b

    def line_ft(self, axis: int) -> float:
        """Its coordinate on the other axis, where it runs along one."""
        return (self.start_ft[1 - axis] + self.end_ft[1 - axis]) / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Supports:
    """The supports that count, and what people should hear of the others."""

    inside: tuple[SupportLine, ...]
    porch_beams: tuple[PorchBeam, ...]
    notes: tuple[str, ...]

    def along(self, axis: int, line_ft: float, at_ft: float) -> SupportLine | None:
        """The support within 6 in. of a line along an axis that reaches a place on it."""
        for s in self.inside:
            low, high = s.between_ft(axis)
            if (
                s.axis == axis
                and abs(s.line_ft(axis) - line_ft) <= BESIDE_FT
                and low - PAST_FT <= at_ft <= high + PAST_FT
            ):
                return s
        return None

    def porch_beam_at(self, wall: int, station_ft: float) -> PorchBeam | None:
        """The porch beam that stands in place of a wall at a station."""
        near = (b for b in self.porch_beams if b.wall == wall)
        return next((b for b in near if b.from_ft - TIE_FT <= station_ft <= b.to_ft + TIE_FT), None)


def read_supports(plan: Plan, outline: Outline) -> Supports:
    """The plan's supports sorted by what they do."""
    inside, beams, notes = [], [], []
    for i, s in enumerate(plan.supports):
        beside = _beside(s, outline)
        if beside is None:
            start, end = outline.frame.to_local(s.start_ft), outline.frame.to_local(s.end_ft)
            inside.append(SupportLine(index=i, start_ft=start, end_ft=end, holds_down=s.holds_down))
            continue
        wall, stations, inset_ft = beside
        if s.kind is SupportKind.BEAM and inset_ft <= outline.walls[wall].thickness_ft + IN_WALL_FT:
            low, high = sorted(min(max(t, 0.0), outline.walls[wall].length_ft) for t in stations)
            beams.append(PorchBeam(support=i, wall=wall, from_ft=low, to_ft=high, has_porch=False))
        else:
            notes.append(
                f"Support S{i + 1} lies within 6 in. of wall {outline.walls[wall].name} and is left out: the trusses "
                "stand on the wall."
            )
    return Supports(inside=tuple(inside), porch_beams=tuple(beams), notes=tuple(notes))


def _beside(support: Support, outline: Outline) -> tuple[int, tuple[float, float], float] | None:
    """The wall that a support lies along within 6 in. of its inside face: its place, the support's stations on it and
    how far it lies in from the outside face.
    """
    for k, wall in enumerate(outline.walls):
        (s0, d0), (s1, d1) = (_on_wall(wall, p) for p in (support.start_ft, support.end_ft))
        overlap = min(max(s0, s1), wall.length_ft) - max(min(s0, s1), 0.0)
        if max(d0, d1) <= wall.thickness_ft + BESIDE_FT and min(d0, d1) >= -BESIDE_FT and overlap > abs(s1 - s0) - 1.0:
            return k, (s0, s1), max(d0, d1)
    return None


def _on_wall(wall: Wall, p: Point) -> tuple[float, float]:
    """A plan point's station on a wall and how far it lies in from the outside face."""
    (ux, uy), (nx, ny) = wall.direction, wall.outward
    dx, dy = p[0] - wall.start_ft[0], p[1] - wall.start_ft[1]
    return dx * ux + dy * uy, -(dx * nx + dy * ny)


def stop_chords(framed: Framed, supports: Supports) -> tuple[Chord, ...]:
    """The supports that chords end on: tied down, along an axis and from wall to wall, 2 ft off every wall line. Cells
    end along them too, so that their trusses stand on them from both sides.
    """
    out: list[Chord] = []
    for s in supports.inside:
        if s.axis is None or not s.holds_down:
            continue
        axis, line, (low, high) = s.axis, s.line_ft(s.axis), s.between_ft(s.axis)
        lines = [c[1 - axis] for c in framed.corners_ft] + [c.line_ft for c in out if c.axis == axis]
        square = [w for w in framed.lines if w.axis != axis and w.low_ft <= line <= w.high_ft]
        before = max((w for w in square if w.line_ft <= (low + high) / 2.0), key=lambda w: w.line_ft)
        after = min((w for w in square if w.line_ft >= (low + high) / 2.0), key=lambda w: w.line_ft)
        reach = before.thickness_ft + BESIDE_FT
        if min(abs(c - line) for c in lines) < JOG_FT or max(low - before.line_ft, after.line_ft - high) > reach:
            continue
        out.append(
            Chord(
                index=0,
                axis=axis,
                line_ft=line,
                low_ft=before.line_ft,
                high_ft=after.line_ft,
                bearing_ft=line,
                low_end=ChordEnd(wall=before.index, chord=None, at_ft=before.bearing_ft),
                high_end=ChordEnd(wall=after.index, chord=None, at_ft=after.bearing_ft),
                covered=s.index,
            )
        )
    return tuple(out)


def chords_on_supports(chords: tuple[Chord, ...], supports: Supports) -> tuple[Chord, ...]:
    """The chords with what the supports change: along a support a chord needs no girder, a girder ends where a support
    along it begins, and it runs on over the supports that it crosses.
    """
    out: list[Chord] = []
    for chord in chords:
        out.append(_on_supports(chord, out, supports) if supports.inside else chord)
    return tuple(out)


def _on_supports(chord: Chord, earlier: list[Chord], supports: Supports) -> Chord:
    if chord.covered is not None:
        return chord
    low, high = (_carried_end(chord, e, earlier, supports) for e in (chord.low_end, chord.high_end))
    for s in supports.inside:
        a, b = s.between_ft(chord.axis)
        if s.axis != chord.axis or abs(s.line_ft(chord.axis) - chord.bearing_ft) > BESIDE_FT:
            continue
        if a <= low.at_ft + SHORTEST_SIDE_FT and b >= high.at_ft - SHORTEST_SIDE_FT:
            return replace(chord, covered=s.index)
        if a <= low.at_ft + SHORTEST_SIDE_FT and b > low.at_ft + SHORTEST_SIDE_FT:
            low = ChordEnd(wall=None, chord=None, support=s.index, at_ft=b)
        elif b >= high.at_ft - SHORTEST_SIDE_FT and a < high.at_ft - SHORTEST_SIDE_FT:
            high = ChordEnd(wall=None, chord=None, support=s.index, at_ft=a)
    if low.at_ft > high.at_ft - SHORTEST_SIDE_FT:  # two supports, end to end
        under = supports.along(chord.axis, chord.bearing_ft, (chord.low_ft + chord.high_ft) / 2.0)
        return replace(chord, covered=under.index if under else low.support)
    found = replace(chord, low_end=low, high_end=high)
    return replace(found, over=_over(found, supports))


def _carried_end(chord: Chord, end: ChordEnd, earlier: list[Chord], supports: Supports) -> ChordEnd:
    """An end on an earlier chord where that one lies along a support stands on the support."""
    if end.chord is None:
        return end
    below = earlier[end.chord]
    if below.covered is not None:
        return replace(end, chord=None, support=below.covered)
    if below.low_end.at_ft < chord.bearing_ft < below.high_end.at_ft:
        return end
    under = supports.along(below.axis, below.bearing_ft, chord.bearing_ft)
    return end if under is None else replace(end, chord=None, support=under.index)


def _over(chord: Chord, supports: Supports) -> tuple[tuple[float, int], ...]:
    """Where a girder on a chord runs on over supports: (place along the chord's axis, support)."""
    out = []
    for s in supports.inside:
        a, b = s.between_ft(chord.axis)
        if s.axis == chord.axis and abs(s.line_ft(chord.axis) - chord.bearing_ft) <= BESIDE_FT:
            out += [((a + b) / 2.0, s.index)] if b - a <= POST_FT else [(a, s.index), (b, s.index)]
            continue
        low, high = chord.low_end.at_ft, chord.high_end.at_ft
        ends = [(at, chord.bearing_ft) if chord.axis == 0 else (chord.bearing_ft, at) for at in (low, high)]
        crossing = _crossing_ft(ends[0], ends[1], s)
        if crossing is not None:
            out.append((low + crossing, s.index))
    return _apart(out, chord.low_end.at_ft, chord.high_end.at_ft)


def on_supports(draft: Draft, chords: tuple[Chord, ...], supports: Supports) -> Draft:
    """A member with where it runs on over supports."""
    if draft.gable_wall is not None or not supports.inside:
        return draft
    a, b = draft.start.point_ft, draft.end.point_ft
    if draft.key.kind is KeyKind.GIRDER:
        chord = next(c for c in chords if c.index == draft.key.place[0])
        found = [(at - a[chord.axis], support) for at, support in chord.over]
    else:
        found = [(at, s.index) for s in supports.inside if (at := _crossing_ft(a, b, s)) is not None]
    return replace(draft, between=_apart(found, 0.0, math.dist(a, b)))


def _apart(places: list[tuple[float, int]], low_ft: float, high_ft: float) -> tuple[tuple[float, int], ...]:
    """The places in order, without those nearer than 2 ft to an end or to that of a support declared before."""
    out: list[tuple[float, int]] = []
    for at, support in sorted(places, key=lambda p: (p[1], p[0])):
        clear = all(abs(at - other) >= SHORTEST_SIDE_FT - TIE_FT for other in (low_ft, high_ft, *(o for o, _ in out)))
        if clear and low_ft < at < high_ft:
            out.append((at, support))
    return tuple(sorted(out))


def _crossing_ft(a: Point, b: Point, support: SupportLine) -> float | None:
    """How far along a line from a to b a support crosses it at more than 10 degrees, if it does."""
    (px, py), (qx, qy) = support.start_ft, support.end_ft
    length, wide = math.dist(a, b), math.dist(support.start_ft, support.end_ft)
    ux, uy, vx, vy = (b[0] - a[0]) / length, (b[1] - a[1]) / length, (qx - px) / wide, (qy - py) / wide
    turn = ux * vy - uy * vx
    if abs(turn) < math.sin(math.radians(ALONG_DEG)):
        return None
    dx, dy = px - a[0], py - a[1]
    along, on_support = (dx * vy - dy * vx) / turn, (dx * uy - dy * ux) / turn
    if not (-IN_WALL_FT <= on_support <= wide + IN_WALL_FT and 0.0 < along < length):
        return None
    return along
