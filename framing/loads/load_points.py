"""Pieces -> the points at which their loads stand: the middle of a piece, or several points under a continuous member.

On two bearings only the middle of a load counts; on more its spread does. There a piece is cut at the bearings and its
triangles take the points of a Gauss rule that is exact for the influence lines (cubics) times an outlooker's lever.
Source: own derivation: tests/statics/test_against_frame_solver.py.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from framing.members import Framing
from framing.tolerances import SPECK_FT2

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
FAR_FT = 1e4
GAUSS_POINTS = 3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LoadPoints:
    """Arrays over m points, in the outline's frame: each piece's load is `share` times it at `point_ft`, summed."""

    piece: Ints
    point_ft: Floats
    share: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ways:
    """Arrays over n pieces: the member that each loads (for a gable's outlookers the truss inside), that member's
    start and direction, and the direction along which a place on it is measured there.
    """

    member: Ints
    start_ft: Floats
    unit: Floats
    measure: Floats


def ways(framing: Framing, tributary: Ints, between_bearings: NDArray[np.bool_]) -> Ways:
    """Which member each piece loads, and along which direction.

    Parameters
    ----------
    tributary : (n,) array
        The tributary of each piece.
    between_bearings : (n,) array
        Whether it lies within the bearing lines, where a strip cut at 45 degrees is carried as if square.
    """
    trib = framing.tributaries
    lines = np.array([[*m.frame_ft[0], *m.frame_ft[1]] for m in framing.members])
    along = lines[:, 2:] - lines[:, :2]
    unit = along / np.hypot(along[:, 0], along[:, 1])[:, None]
    member = np.array([t.lever.inside if t.lever else t.owner for t in trib])[tributary]
    measure = unit[member]
    squared = np.array([t.measure or (0.0, 0.0) for t in trib])
    use = np.array([t.measure is not None for t in trib])[tributary] & between_bearings
    measure[use] = squared[tributary[use]]
    return Ways(member=member, start_ft=lines[member, :2], unit=unit[member], measure=measure)


def load_points(framing: Framing, way: Ways, polygon: NDArray[np.object_], centre_ft: Floats) -> LoadPoints:
    """Where each piece's load stands. `polygon` and `centre_ft` are the pieces' own, (n,) and (n, 2)."""
    runs_on = np.array([bool(m.between) for m in framing.members])[way.member]
    rest = np.flatnonzero(~runs_on)
    pieces, parts = [], []
    for i in np.flatnonzero(runs_on).tolist():
        cut = _cut(
            polygon[i], way.start_ft[i], way.measure[i], [b.at_ft for b in framing.members[way.member[i]].between]
        )
        pieces += [i] * len(cut)
        parts += cut
    if not parts:
        return LoadPoints(piece=rest, point_ft=centre_ft[rest], share=np.ones(len(rest)))
    triangles, of_part = shapely.get_parts(
        shapely.constrained_delaunay_triangles(np.array(parts, dtype=object)), return_index=True
    )
    point, area = _gauss(shapely.get_coordinates(triangles).reshape(-1, 4, 2)[:, :3])
    piece = np.repeat(np.array(pieces, dtype=np.int64)[of_part], GAUSS_POINTS**2)
    whole = np.bincount(piece, weights=area, minlength=len(polygon))
    return LoadPoints(
        piece=np.concatenate([rest, piece]),
        point_ft=np.concatenate([centre_ft[rest], point]),
        share=np.concatenate([np.ones(len(rest)), area / whole[piece]]),
    )


def _cut(polygon: Polygon, start: Floats, measure: Floats, at_ft: list[float]) -> list[Polygon]:
    """A polygon cut square to a direction at places along it."""
    size = float(np.hypot(*measure))
    normal = measure / size
    side = np.array([-normal[1], normal[0]]) * FAR_FT
    s = (shapely.get_coordinates(polygon) - start) @ measure
    inside = [at for at in at_ft if s.min() < at < s.max()]
    if not inside:
        return [polygon]
    out = []
    for low, high in zip([s.min() - 1.0, *inside], [*inside, s.max() + 1.0], strict=True):
        a, b = start + normal * low / size, start + normal * high / size
        band = Polygon([a - side, b - side, b + side, a + side])
        parts = shapely.get_parts(polygon.intersection(band))
        out += [p for p in parts if isinstance(p, Polygon) and p.area > SPECK_FT2]
    return out


def _gauss(corners_ft: Floats) -> tuple[Floats, Floats]:
    """The points of a product Gauss rule on triangles (t, 3, 2), folded onto them: (9 t, 2), and each one's area."""
    x, w = np.polynomial.legendre.leggauss(GAUSS_POINTS)
    x, w = (x + 1.0) / 2.0, w / 2.0
    u, v = (grid.ravel() for grid in np.meshgrid(x, x, indexing="ij"))
    weight = (w[:, None] * w[None, :]).ravel() * (1.0 - u)
    a, b, c = corners_ft[:, 0], corners_ft[:, 1], corners_ft[:, 2]
    doubled = np.abs((b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0]))
    shares = np.stack([(1.0 - u) * (1.0 - v), u, (1.0 - u) * v], axis=1)
    point = np.einsum("pk,tkd->tpd", shares, corners_ft).reshape(-1, 2)
    return point, (doubled[:, None] * weight[None, :]).ravel()
