"""One chord from an inside corner: along which line it runs, and what its two ends stand on.

Source: own derivation: tests/invariants (every outline is carried, nothing carries itself).
"""

from __future__ import annotations

from framing.layout.narrow_refusals import NothingAheadError
from framing.layout.records import SHORTEST_PIECE_FT, Chord, ChordEnd, WallLine, cell_point
from framing.plan import Point
from framing.tolerances import TIE_FT
from framing.walls.outline import tie_key


def chord_from(
    walls: tuple[WallLine, ...], stops: tuple[Chord, ...], chords: list[Chord], corner: Point, wall_index: int
) -> Chord:
    """The chord that continues a wall past an inside corner to the first wall, earlier chord or support that ends it
    (`stops`: the supports that do).
    """
    wall = walls[wall_index]
    axis = wall.axis
    p, line = corner[axis], corner[1 - axis]
    toward = 1 if abs(p - wall.high_ft) <= TIE_FT else -1
    square = next(
        w
        for w in walls
        if w.axis != axis
        and abs(w.line_ft - p) <= TIE_FT
        and min(abs(w.low_ft - line), abs(w.high_ft - line)) <= TIE_FT
    )
    near = ChordEnd(wall=square.index, chord=None, at_ft=square.bearing_ft)
    ahead, far = _far_end(walls, stops, chords, (p, wall.bearing_ft), line, axis, toward)
    reach = p + toward * ahead
    return Chord(
        index=len(chords),
        axis=axis,
        line_ft=line,
        low_ft=min(p, reach),
        high_ft=max(p, reach),
        bearing_ft=wall.bearing_ft,
        low_end=near if toward > 0 else far,
        high_end=far if toward > 0 else near,
    )


def _far_end(
    walls: tuple[WallLine, ...],
    stops: tuple[Chord, ...],
    chords: list[Chord],
    start: Point,
    line: float,
    axis: int,
    toward: int,
) -> tuple[float, ChordEnd]:
    """How far a chord runs along its line, and what its end there stands on; `start` is (place along it, bearing)."""
    at, bearing_ft = start
    hits: list[tuple[float, int, int]] = []
    crossing: tuple[tuple[int, tuple[WallLine | Chord, ...]], ...] = ((0, walls), (1, tuple(chords)), (2, stops))
    for kind, lines in crossing:
        for i, w in enumerate(lines):
            ahead = toward * (w.line_ft - at)
            if w.axis != axis and ahead > TIE_FT and w.low_ft - TIE_FT <= line <= w.high_ft + TIE_FT:
                hits.append((ahead, kind, i))
    if not hits:
        raise NothingAheadError(cell_point(axis, at, line))
    ahead, kind, i = min(hits)
    wall = _wall_before(walls, axis, start, toward, ahead)
    if wall is None and kind == 0:
        wall = _under_bearing(walls, walls[i], bearing_ft)
    if wall is not None:
        return ahead, ChordEnd(wall=wall.index, chord=None, at_ft=wall.bearing_ft)
    if kind == 1:
        return ahead, _on_chord(chords, i)
    return ahead, ChordEnd(wall=None, chord=None, support=stops[i].covered, at_ft=stops[i].bearing_ft)


def _wall_before(walls: tuple[WallLine, ...], axis: int, start: Point, toward: int, ahead_ft: float) -> WallLine | None:
    """The first wall across a chord's bearing line, a half wall beside its own, nearer than what its own line reaches:
    where the chord passes the end of a wall by less than that.
    """
    at, bearing_ft = start
    across = [
        (toward * (w.line_ft - at), k)
        for k, w in enumerate(walls)
        if w.axis != axis and w.low_ft + TIE_FT < bearing_ft < w.high_ft - TIE_FT
    ]
    nearer = [found for found in across if TIE_FT < found[0] < ahead_ft - TIE_FT]
    return walls[min(nearer)[1]] if nearer else None


def _under_bearing(walls: tuple[WallLine, ...], hit: WallLine, bearing_ft: float) -> WallLine:
    """Of the walls in one framing line, over an absorbed jog, that on which a chord's bearing line comes down."""
    in_line = [
        w for w in walls if (w.axis, w.inward) == (hit.axis, hit.inward) and abs(w.line_ft - hit.line_ft) <= TIE_FT
    ]
    return min(in_line, key=lambda w: (tie_key(max(w.low_ft - bearing_ft, bearing_ft - w.high_ft, 0.0)), w is not hit))


def _on_chord(chords: list[Chord], i: int) -> ChordEnd:
    """What a chord stands on that ends at chord `i`: that one, or if it is too short to be built what carries it."""
    on = chords[i]
    if on.span_ft >= SHORTEST_PIECE_FT:
        return ChordEnd(wall=None, chord=i, at_ft=on.bearing_ft)
    under = on.low_end if on.low_end.chord is None else on.high_end
    return ChordEnd(wall=under.wall, chord=under.chord, support=under.support, at_ft=on.bearing_ft)
