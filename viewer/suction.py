"""Run -> arrows: how hard the deck's own zones are pulled, one arrow for each few feet of a zone."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray

from framing.run import Run
from viewer.masonry import tie_beam_top_ft
from viewer.pieces import Floats, Ints

CELL_FT = 5.0
"""One arrow stands for what lies in a square of this side, so that arrows stay apart. For the eye only."""
ARROW_FT = 4.5
"""The longest arrow at the design wind. For the eye only."""
CLEAR_OF_COVERING_FT = 0.2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Suction:
    """n arrows: where each stands (n, 3), the roof's outward normal there (n, 3), the deck's suction, ASD (n,) [psf],
    the area on the slope that it stands for (n,) [ft2], and its zone's place in `zones` (n,).
    """

    foot_ft: Floats
    normal: Floats
    psf: Floats
    area_ft2: Floats
    zone: Ints
    zones: tuple[str, ...]

    @property
    def upward_lb(self) -> float:
        """The upright part of all the arrows together [lb]."""
        return float((self.psf * self.area_ft2) @ self.normal[:, 2])


@lru_cache(maxsize=1)
def deck_suction(run: Run) -> Suction:
    """The arrows of a run, from the zones that the deck is nailed by."""
    patches, zones = run.patches, run.cover.deck.zones
    zone_of = np.full(len(patches.polygon), -1, np.int32)
    for k, one in enumerate(zones):
        zone_of[list(one.patches)] = k
    patch, cell, polygon = _cut_by_squares(patches.polygon)
    zone, gradient = zone_of[patch], patches.gradient[patch]
    plan_ft = np.column_stack((shapely.get_x(shapely.centroid(polygon)), shapely.get_y(shapely.centroid(polygon))))
    area_ft2 = shapely.area(polygon) * np.hypot(1.0, np.hypot(*gradient.T))
    key = np.column_stack((zone, cell, np.rint(gradient * 1e4)))
    _, group = np.unique(key, axis=0, return_inverse=True)
    group = group.ravel()
    weight = np.bincount(group, area_ft2)

    def mean(values: Floats) -> Floats:
        return np.asarray(np.bincount(group, values * area_ft2) / weight)

    x, y = mean(plan_ft[:, 0]), mean(plan_ft[:, 1])
    plane = np.stack([mean(patches.plane[patch, k]) for k in range(3)], axis=1)
    slope = np.stack((mean(gradient[:, 0]), mean(gradient[:, 1])), axis=1)
    z = tie_beam_top_ft(run) + run.roof.heel_ft + plane[:, 0] * x + plane[:, 1] * y + plane[:, 2]
    frame = run.outline.frame
    turn = np.array(((frame.cos, frame.sin), (-frame.sin, frame.cos)))
    normal = np.column_stack((-slope @ turn, np.ones(len(slope))))
    normal /= np.linalg.norm(normal, axis=1, keepdims=True)
    of_zone = np.rint(mean(zone.astype(float))).astype(np.int32)
    return Suction(
        foot_ft=np.column_stack((np.column_stack((x, y)) @ turn + frame.origin_ft, z + CLEAR_OF_COVERING_FT)),
        normal=normal,
        psf=np.array([o.suction_psf for o in zones])[of_zone],
        area_ft2=np.asarray(weight),
        zone=of_zone,
        zones=tuple(o.name for o in zones),
    )


def _cut_by_squares(polygons: NDArray[np.object_]) -> tuple[Ints, Floats, NDArray[np.object_]]:
    """The parts into which squares of `CELL_FT` cut polygons: whose part each is (m,), its square (m, 2), its shape."""
    patch, cell, parts = [], [], []
    for k, polygon in enumerate(polygons):
        low_x, low_y, high_x, high_y = np.array(polygon.bounds) / CELL_FT
        columns = np.arange(np.floor(low_x), np.ceil(high_x))
        rows = np.arange(np.floor(low_y), np.ceil(high_y))
        i, j = (v.ravel() for v in np.meshgrid(columns, rows))
        cut = shapely.intersection(polygon, shapely.box(i * CELL_FT, j * CELL_FT, (i + 1) * CELL_FT, (j + 1) * CELL_FT))
        kept = shapely.area(cut) > 0.0
        patch += [k] * int(kept.sum())
        cell += np.column_stack((i, j))[kept].tolist()
        parts += list(cut[kept])
    return np.array(patch, np.int32), np.array(cell, float).reshape(-1, 2), np.array(parts, object)
