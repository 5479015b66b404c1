"""What is drawn, in inches -> the boundaries that may be the outside of the house, ranked, place by place."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely.geometry import Polygon

from export.architects_drawing.boundaries import Boundary, How, Origin, boundary_of
from export.architects_drawing.boundary import LEAST_IN2
from export.architects_drawing.frames import lines_of_frames, lines_of_rings
from export.architects_drawing.layer_sets import LayerSet, layer_sets
from export.architects_drawing.pairs import (
    MOST_LINES,
    THICKEST_IN,
    Flags,
    Floats,
    Ints,
    lengths_of,
    merged,
    nearest,
    pairs_of,
    posts,
    some,
    taken,
)
from export.architects_drawing.parts import without_parts
from export.architects_drawing.passing import lines_past
from export.architects_drawing.patterns import patterns, steps
from export.architects_drawing.ranking import Evidence, door_places, is_indoors, is_room
from export.architects_drawing.strips import strips_of
from export.architects_drawing.ways import Lines, ways_over

WIDEST_IN = 27.0
SAME_PLACE, LIKE = 0.3, 0.985
SAME_IN = 18.0
"""Farther apart than a wall and its cladding two outlines are two, however much of a large house they share."""
MOST_FOUND, MOST_PLANS = 12, 40
ASKED_BONUS = 0.5
FARTHEST_IN = 5280.0 * 12.0
"""From the middle of what is drawn: a mile off is a slip of somebody's hand."""
NARROWEST_IN = 36.0
"""Half the width of the narrowest thing that may be a house: area over half the way round."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Drawn:
    """A drawing in inches about its own middle: lines with their layers, names, arcs, words."""

    segments: Floats
    layer: Ints
    shape: Ints
    names: tuple[str, ...]
    arcs: Floats
    words: tuple[tuple[float, float, str], ...]


def boundaries_of(
    drawn: Drawn, chosen: Flags | None, loops: Sequence[tuple[Polygon, int, float]]
) -> tuple[Boundary, ...]:
    """The boundaries that may be the outside of a house, the likeliest of each place first, then their variants.

    Parameters
    ----------
    drawn : Drawn
        In inches.
    chosen : (n,) bool or None
        The layers to read, None to try sets of them.
    loops : sequence
        Closed lines that were drawn, each (polygon, layer, bonus).

    Returns
    -------
    tuple of Boundary
        A dozen, more only where there are more plans; none where nothing closes.
    """
    read = _read(drawn)
    if not len(read.lines):
        return ()
    with np.errstate(divide="ignore", invalid="ignore"):  # the geometry library's own zeros
        return _found(drawn, read, chosen, loops)


def _found(
    drawn: Drawn, read: Lines, chosen: Flags | None, loops: Sequence[tuple[Polygon, int, float]]
) -> tuple[Boundary, ...]:
    rings = lines_of_rings(read.lines, taken(read.pairs, ~read.useless))
    read = replace(read, useless=read.useless | rings)
    evidence = _evidence(drawn, read)
    found = _all_of(read, evidence, chosen, loops)
    others = lines_of_frames(found, read.lines) | lines_past(read.lines, taken(read.wide, ~read.useless))
    if others.any():
        read = replace(read, useless=read.useless | others)
        evidence = _evidence(drawn, read)
        ranked = _ranked(_all_of(read, evidence, chosen, loops))
        rest = [b for b in found if not any(same(b.shape, r.shape, LIKE) for r in ranked)]
        lowest = min((b.score for b in ranked), default=0.0)
        found = [*ranked, *(replace(b, score=min(b.score, lowest - 0.1)) for b in rest)]
    ranked = _ranked(found)
    firsts = [b for k, b in enumerate(ranked) if b.place == k]
    rests = [rest for first in firsts for rest in _sound(without_parts(first, read.lines, evidence))]
    return _ranked([*ranked, *rests])


def _all_of(
    read: Lines, evidence: Evidence, chosen: Flags | None, loops: Sequence[tuple[Polygon, int, float]]
) -> list[Boundary]:
    """Every boundary, in no order."""
    found = [
        boundary_of(shape, Origin(how=How.DRAWN, layers=(layer,), bonus=bonus), None, evidence)
        for shape, layer, bonus in loops
        if np.abs(shape.bounds).max() < FARTHEST_IN
    ]
    if chosen is None:
        sets = layer_sets(read.names, read.lines, read.layer, taken(read.pairs, ~read.useless))
    else:
        sets = (LayerSet(why="asked for", bonus=ASKED_BONUS, layers=chosen),)
    for each in sets:
        found += _sound(ways_over(read, each, evidence))
    return found


def _sound(boundaries: Iterable[Boundary]) -> list[Boundary]:
    """Boundaries, as far as the geometry library gets with what is drawn."""
    out: list[Boundary] = []
    try:
        for boundary in boundaries:
            out.append(boundary)
    except shapely.errors.GEOSException:
        pass
    return out


def _read(drawn: Drawn) -> Lines:
    near = np.abs(drawn.segments).max(axis=1) < FARTHEST_IN
    segments, of, shape = drawn.segments[near], drawn.layer[near], drawn.shape[near]
    wall = ~(posts(segments, shape) | patterns(segments))
    lines, layer = merged(segments[wall], of[wall])
    if len(lines) > MOST_LINES:
        keep = np.sort(np.argsort(-lengths_of(lines))[:MOST_LINES])
        lines, layer = lines[keep], layer[keep]
    wide = pairs_of(lines, farthest_in=WIDEST_IN)
    pairs = some(wide, np.abs(wide.d_in) <= THICKEST_IN)
    return Lines(lines=lines, layer=layer, pairs=pairs, wide=wide, useless=steps(lines, pairs), names=drawn.names)


def _evidence(drawn: Drawn, read: Lines) -> Evidence:
    strips = strips_of(read.lines, nearest(taken(read.pairs, ~read.useless)))
    thick = strips_of(read.lines, nearest(taken(read.wide, ~read.useless)))
    rooms, indoors = (
        np.array([(x, y) for x, y, text in drawn.words if named(text)], float).reshape(-1, 2)
        for named in (is_room, is_indoors)
    )
    n = len(strips.shapes)
    return Evidence(
        strip_places=(strips.middle[:n] + strips.middle[n:]) / 2.0,
        strip_lengths=strips.long_in,
        walls=shapely.STRtree(np.concatenate([strips.shapes, thick.shapes])),
        lines=shapely.STRtree(shapely.linestrings(read.lines.reshape(-1, 2, 2))),
        doors=door_places(drawn.arcs),
        rooms=rooms,
        indoors=indoors,
    )


def _ranked(found: Sequence[Boundary]) -> tuple[Boundary, ...]:
    """Alike ones once, the first of each place by score, then the variants."""
    kept: list[Boundary] = []
    for each in sorted(found, key=lambda b: (-b.score, -b.shape.area)):
        wide = 2.0 * each.shape.area / each.shape.length
        if (
            each.shape.area >= LEAST_IN2
            and wide > NARROWEST_IN
            and not any(same(each.shape, k.shape, LIKE) for k in kept)
        ):
            kept.append(each)
    firsts: list[Boundary] = []
    variants: list[Boundary] = []
    for each in kept:
        at = next((k for k, f in enumerate(firsts) if _over(each.shape, f.shape) > SAME_PLACE), None)
        if at is None:
            firsts.append(replace(each, place=len(firsts)))
        else:
            variants.append(replace(each, place=at))
    return (*firsts[:MOST_PLANS], *variants[: max(0, MOST_FOUND - len(firsts))])


def alike(a: Polygon, b: Polygon) -> float:
    """The area that two shapes share, as a part of what they cover together."""
    both = a.intersection(b).area
    return float(both / (a.area + b.area - both))


def same(a: Polygon, b: Polygon, share: float) -> bool:
    """Whether two shapes share more than a part of their area, and no corner of one is a step off the other."""
    return alike(a, b) > share and float(a.exterior.hausdorff_distance(b.exterior)) <= SAME_IN


def _over(a: Polygon, b: Polygon) -> float:
    return float(a.intersection(b).area / min(a.area, b.area))
