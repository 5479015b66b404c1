"""Walls -> framing lines: jogs under 2 ft are absorbed. A step or a recess is filled, a bump is kept.

The roof and the bearings keep the plan's walls: a framing line says which wall's face a truss there lands on.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from framing.frame_side import SIDES
from framing.layout.records import JOG_FT, WallLine
from framing.plan import Point
from framing.walls.outline import Outline, tie_key


@dataclass(frozen=True, slots=True, kw_only=True)
class Framed:
    """The outline that is framed: lines in order, counter-clockwise, and its corners.

    Corner k lies at the start of line `first[k]`; the line before it in the order ends there. `by_side` has the lines
    again, by the side of the frame that they face.
    """

    lines: tuple[WallLine, ...]
    corners_ft: tuple[Point, ...]
    first: tuple[int, ...]
    by_side: tuple[tuple[WallLine, ...], ...]


def wall_lines(outline: Outline) -> tuple[WallLine, ...]:
    """The walls as lines of the frame."""
    out = []
    n = len(outline.walls)
    for i, wall in enumerate(outline.walls):
        a, b = outline.local_ft[i], outline.local_ft[(i + 1) % n]
        axis = i % 2
        toward = 1 if b[axis] > a[axis] else -1
        out.append(
            WallLine(
                index=i,
                axis=axis,
                line_ft=a[1 - axis],
                face_ft=a[1 - axis],
                own_ft=(min(a[axis], b[axis]), max(a[axis], b[axis])),
                low_ft=min(a[axis], b[axis]),
                high_ft=max(a[axis], b[axis]),
                inward=toward if axis == 0 else -toward,
                thickness_ft=wall.thickness_ft,
            )
        )
    return tuple(out)


def absorb_jogs(outline: Outline, under_ft: float = JOG_FT) -> Framed:
    """The framing lines of an outline, the smallest jog absorbed first, none as long as a limit."""
    walls = wall_lines(outline)
    runs = [[w] for w in walls]  # walls that share a framing line, in order
    while True:
        jog = _smallest_jog(outline, runs, under_ft)
        if jog is None:
            break
        runs = _filled(runs, *jog)
    return framed_runs(runs)


def runs_of(framed: Framed) -> list[list[WallLine]]:
    """The walls that share each framing line, in order: what `framed_runs` makes lines of."""
    ends = (*framed.first[1:], len(framed.lines))
    return [list(framed.lines[a:b]) for a, b in zip(framed.first, ends, strict=True)]


def _turn(before: WallLine, after: WallLine) -> int:
    """+1 where the house turns outward from one framing line to the next, -1 at an inside corner."""
    return 1 if _heading(before)[0] * _heading(after)[1] - _heading(before)[1] * _heading(after)[0] > 0 else -1


def _heading(line: WallLine) -> tuple[int, int]:
    return (line.inward, 0) if line.axis == 0 else (0, -line.inward)


def _smallest_jog(outline: Outline, runs: list[list[WallLine]], under_ft: float) -> tuple[int, int] | None:
    """(the run that is the jog, the neighbour that moves out to its other neighbour's line).

    Steps that come to the limit together are no jogs: no wall's framing line moves so far.
    """
    n = len(runs)
    found = []
    for k in range(n):
        before, jog, after = runs[k - 1][0], runs[k][0], runs[(k + 1) % n][0]
        length = abs(before.line_ft - after.line_ft)
        if n <= 4 or length >= under_ft:
            continue
        turns = (_turn(before, jog), _turn(jog, after))
        if turns == (1, 1):
            continue  # a narrow bump
        if turns == (-1, -1):  # a narrow recess: its bottom moves out to the nearer of the lines beside its mouth
            depth = [abs(runs[(k + 2 * s) % n][0].line_ft - jog.line_ft) for s in (-1, 1)]
            if min(depth) >= under_ft:
                continue  # a slot, too deep to be a jog
            side = -1 if tie_key(depth[0]) <= tie_key(depth[1]) else 1
            if stays_near(runs[k], runs[(k + 2 * side) % n][0].line_ft, under_ft):
                found.append((tie_key(min(depth)), outline.walls[jog.index].typed_order, (k + side) % n, k))
            continue
        outer, inner = ((k - 1) % n, (k + 1) % n) if turns[0] > 0 else ((k + 1) % n, (k - 1) % n)
        if not _is_bump(runs, outer) and stays_near(runs[inner], runs[outer][0].line_ft, under_ft):
            found.append((tie_key(length), outline.walls[jog.index].typed_order, k, inner))
    return min(found)[2:] if found else None


def stays_near(run: list[WallLine], line_ft: float, under_ft: float = JOG_FT) -> bool:
    """Whether a framing line is less than a jog from the faces of all the walls that it would stand for."""
    return all(abs(w.face_ft - line_ft) < under_ft for w in run)


def _is_bump(runs: list[list[WallLine]], outer: int) -> bool:
    """Whether a run stands out between two short returns."""
    n = len(runs)
    sides = [abs(runs[outer][0].line_ft - runs[(outer + 2 * s) % n][0].line_ft) for s in (-1, 1)]
    turns = (_turn(runs[outer - 1][0], runs[outer][0]), _turn(runs[outer][0], runs[(outer + 1) % n][0]))
    return turns == (1, 1) and max(sides) < JOG_FT


def _filled(runs: list[list[WallLine]], gone: int, moves: int) -> list[list[WallLine]]:
    """The runs without one, the run next to it moved out to the line of the run on its other side and joined."""
    n = len(runs)
    forward = (gone + 1) % n == moves
    other = (gone - 1) % n if forward else (gone + 1) % n
    line = runs[other][0].line_ft
    moved = [replace(w, line_ft=line) for w in runs[moves]]
    joined = runs[other] + moved if forward else moved + runs[other]
    out = []
    for k in range(n):
        if k == (other if forward else moves):
            out.append(joined)
        elif k not in (gone, other, moves):
            out.append(runs[k])
    return out


def framed_runs(runs: list[list[WallLine]]) -> Framed:
    """The runs as lines whose ends meet."""
    n = len(runs)
    lines: list[WallLine] = []
    corners: list[Point] = []
    first: list[int] = []
    for k, run in enumerate(runs):
        axis = run[0].axis
        ends = (runs[k - 1][0].line_ft, runs[(k + 1) % n][0].line_ft)
        corners.append((ends[0], run[0].line_ft) if axis == 0 else (run[0].line_ft, ends[0]))
        first.append(len(lines))
        forward = ends[1] > ends[0]
        breaks = [w.high_ft if forward else w.low_ft for w in run[:-1]]
        for w, a, b in zip(run, [ends[0], *breaks], [*breaks, ends[1]], strict=True):
            lines.append(replace(w, low_ft=min(a, b), high_ft=max(a, b)))
    by_side = tuple(tuple(w for w in lines if (w.axis, w.inward) == (s.along, s.inward)) for s in SIDES)
    return Framed(lines=tuple(lines), corners_ft=tuple(corners), first=tuple(first), by_side=by_side)
