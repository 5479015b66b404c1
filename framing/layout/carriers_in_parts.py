"""Carriers that angled walls cut at an inside corner: what stood on the whole stands on the part at its place."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Spot

from framing.layout.records import Draft, Key, Landing, RoofStrip
from framing.plan import Point
from framing.tolerances import SLIVER_FT2

FAR_FT = 1e4


def part_key(key: Key, part: int) -> Key:
    """The key of a carrier's part: its own for the first, the longest."""
    return Key(key.kind, (*key.place, part)) if part else key


def on_their_parts(drafts: list[Draft], parts: dict[Key, list[Draft]]) -> list[Draft]:
    """The members, each end that stood on a carrier in parts on the part nearest to it."""

    def own(landing: Landing) -> Landing:
        if landing.member not in parts:
            return landing
        at = Spot(landing.point_ft)
        nearest = min(parts[landing.member], key=lambda d: _line(d).distance(at))
        return replace(landing, member=nearest.key)

    return [replace(d, start=own(d.start), end=own(d.end)) for d in drafts]


def strips_of_parts(strips: list[RoofStrip], parts: dict[Key, list[Draft]]) -> list[RoofStrip]:
    """The strips, those of a carrier in parts cut square to it midway between the parts, each part's with it."""
    out: list[RoofStrip] = []
    for strip in strips:
        if strip.owner not in parts:
            out.append(strip)
            continue
        for key, band in _bands(parts[strip.owner]):
            piece = Polygon(strip.ring_ft).intersection(band)
            if isinstance(piece, Polygon) and piece.area > SLIVER_FT2:
                ring = tuple((float(x), float(y)) for x, y in piece.exterior.coords[:-1])
                out.append(replace(strip, ring_ft=ring, owner=key))
    return out


def _bands(parts: list[Draft]) -> list[tuple[Key, Polygon]]:
    """The ground of each part: between two lines square to them, midway to the parts before and after."""
    (ox, oy), (ex, ey) = parts[0].start.point_ft, parts[0].end.point_ft
    length = math.dist((ox, oy), (ex, ey))
    ux, uy = (ex - ox) / length, (ey - oy) / length

    def along(point: Point) -> float:
        return (point[0] - ox) * ux + (point[1] - oy) * uy

    def at(along_ft: float, across_ft: float) -> Point:
        return (ox + ux * along_ft - uy * across_ft, oy + uy * along_ft + ux * across_ft)

    order = sorted(parts, key=lambda d: along(d.start.point_ft))
    mids = [(along(p.end.point_ft) + along(q.start.point_ft)) / 2.0 for p, q in itertools.pairwise(order)]
    bounds = itertools.pairwise((-FAR_FT, *mids, FAR_FT))
    corners = [(at(low, -FAR_FT), at(high, -FAR_FT), at(high, FAR_FT), at(low, FAR_FT)) for low, high in bounds]
    return [(d.key, Polygon(ring)) for d, ring in zip(order, corners, strict=True)]


def _line(draft: Draft) -> LineString:
    return LineString([draft.start.point_ft, draft.end.point_ft])
