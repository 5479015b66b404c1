"""No two members in one place: what would stand on the wall where a girder lies hangs on the girder instead."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry import Polygon

from framing.layout.records import Draft, Landing
from framing.layout.wood_places import beam_ground, wood_grounds
from framing.members import MemberKind
from framing.tolerances import TIE_FT2
from framing.walls.outline import Outline

TOUCHING_FT = 1.0 / 32.0 / 12.0


def hung_on_girders(outline: Outline, drafts: list[Draft]) -> list[Draft]:
    """The drafts; an end that would bear in the wood of a girder hangs on that girder, of two girders the one drawn
    later on the earlier, so that no ring can form.
    """
    if not any(d.kind is MemberKind.GIRDER for d in drafts):
        return drafts
    grounds = np.array([Polygon(ring) for ring in wood_grounds(outline, drafts)], dtype=object)
    beam = beam_ground(outline.local_ft, outline.walls[0].thickness_ft)
    wood = shapely.intersection(shapely.buffer(grounds, -TOUCHING_FT, join_style="mitre"), beam)
    girders = [i for i, d in enumerate(drafts) if d.kind is MemberKind.GIRDER]
    out = list(drafts)
    for k, i in shapely.STRtree(wood).query(wood[girders], predicate="intersects").T.tolist():
        on, new = girders[k], out[i]
        shared = shapely.intersection(wood[on], wood[i])
        if i == on or (new.kind is MemberKind.GIRDER and i < on) or shared.area <= TIE_FT2 or _hung(drafts[on], new):
            continue
        end = _end_at(new, shared)
        if end is not None:
            out[i] = _hung_at(new, end, drafts[on])
    return out


def _hung(girder: Draft, other: Draft) -> bool:
    """Whether one of two members already hangs on the other."""
    on = (girder.start.member, girder.end.member, other.start.member, other.end.member)
    return girder.key in on or other.key in on


def _end_at(draft: Draft, shared: shapely.Geometry) -> str | None:
    """Which end of a member stands where it shares its place, if one does that does not yet hang."""
    if draft.gable_wall is not None:
        return None
    off = {name: shapely.distance(shared, shapely.Point(e.point_ft)) for name, e in _ends(draft).items()}
    name = min(off, key=lambda n: off[n])
    length = math.dist(draft.start.point_ft, draft.end.point_ft)
    return name if _ends(draft)[name].member is None and off[name] < length / 2.0 else None


def _ends(draft: Draft) -> dict[str, Landing]:
    return {"start": draft.start, "end": draft.end}


def _hung_at(draft: Draft, end: str, girder: Draft) -> Draft:
    """A draft with one end on a girder, where no eave runs past it."""
    on = Landing(wall=None, member=girder.key, point_ft=_ends(draft)[end].point_ft)
    if end == "start":
        return replace(draft, start=on, tail_start_ft=0.0)
    return replace(draft, end=on, tail_end_ft=0.0)
