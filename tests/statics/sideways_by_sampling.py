"""What the wind brings to the lines of an L of hips, by brute force: point by point on the roof and along the walls.

Written from the rules alone, without the program's geometry: heights as the larger of two hip roofs, pressures by zone
from the figure's own numbers, the lever rule between neighbouring walls. Fig. 28.3-1 (solid) at 22.62 degrees; by the
directional procedure the coefficients are those of the clause functions, which tests/published holds.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from framing.asce7.chapter27 import C_p_leeward_roof, C_p_leeward_wall, C_p_parallel_roof, C_p_windward_roof

RISE, HEEL_FT, HALF_FT, OVER_FT = 5 / 12, 0.5, (9 + 4 / 12) / 2, 2.0
EAVE_FT = 9 + 4 / 12 + 1 + 4 / 12 + HEEL_FT
ROOF_STEP_FT = 0.05
WALL_STEP_FT = 0.005
SHARE = (math.degrees(math.atan(RISE)) - 20.0) / 10.0
AT_20 = {"1": 0.53, "2": -0.69, "3": -0.48, "4": -0.43, "1E": 0.80, "2E": -1.07, "3E": -0.69, "4E": -0.64}
AT_30 = {"1": 0.56, "2": 0.21, "3": -0.43, "4": -0.37, "1E": 0.69, "2E": 0.27, "3E": -0.53, "4E": -0.48}
CASE_1 = {zone: AT_20[zone] + (AT_30[zone] - AT_20[zone]) * SHARE for zone in AT_20}
CASE_2 = {"1": -0.45, "2": -0.69, "3": -0.37, "4": -0.45, "5": 0.40, "6": -0.29}
CASE_2 |= {"1E": -0.48, "2E": -1.07, "3E": -0.53, "4E": -0.48, "5E": 0.61, "6E": -0.43}


@dataclass(frozen=True)
class Wing:
    """A rectangle under a hip roof: low and high corner."""

    low: tuple[float, float]
    high: tuple[float, float]

    @property
    def ridge(self) -> int:
        return int(self.high[1] - self.low[1] > self.high[0] - self.low[0])

    def size(self, axis: int) -> float:
        return self.high[axis] - self.low[axis]

    def depths(self, x: np.ndarray, y: np.ndarray) -> np.ndarray:
        """From the x low, x high, y low and y high wall. (4, n)"""
        return np.stack([x - self.low[0], self.high[0] - x, y - self.low[1], self.high[1] - y])


@dataclass(frozen=True)
class Wind:
    """Onto a side (0 x low, 1 x high, 2 y low, 3 y high), the reference corner at that wall's high end or low end."""

    side: int
    high_corner: bool
    inside: float
    directional: bool


@dataclass(frozen=True)
class House:
    wings: tuple[Wing, ...]
    walls: tuple[tuple[int, float, float, float], ...]  # side it faces, its coordinate, from and to along it
    a_ft: float
    h_ft: float
    q_psf: float


def line_forces(house: House, wind: Wind) -> tuple[dict[float, float], dict[float, float], np.ndarray]:
    """ASD: the force on each line along x (by its y) and along y (by its x), the larger of with and without the roof;
    and the roof's whole horizontal force.
    """
    along: tuple[dict[float, float], dict[float, float]] = ({}, {})
    roof_at, roof_lb = _roof(house, wind)
    out = []
    for axis in (0, 1):
        lines = sorted({c for side, c, low, high in house.walls if side // 2 == 1 - axis and high - low >= 4.0})
        walls = np.zeros(len(lines))
        for side, c, low, high in house.walls:
            if side // 2 == axis:
                at, lb = _wall(house, wind, side, c, low, high)
                walls += _levered(lines, at, lb)
        both = walls + _levered(lines, roof_at[:, 1 - axis], roof_lb[:, axis])
        larger = np.where(np.abs(both) >= np.abs(walls), both, walls)
        out.append(dict(zip(lines, larger.tolist(), strict=True)))
    along = (out[0], out[1])
    return along[0], along[1], roof_lb.sum(axis=0)


def _levered(lines: list[float], at: np.ndarray, lb: np.ndarray) -> np.ndarray:
    """Each force by the lever between the two lines about it."""
    out = np.zeros(len(lines))
    for k in range(len(lines) - 1):
        a, b = lines[k], lines[k + 1]
        first, last = k == 0, k == len(lines) - 2
        mine = ((at >= a) | first) & ((at < b) | last)
        far = (at[mine] - a) / (b - a)
        out[k] += (lb[mine] * (1.0 - far)).sum()
        out[k + 1] += (lb[mine] * far).sum()
    return out


def _wall(house: House, wind: Wind, side: int, c: float, low: float, high: float) -> tuple[np.ndarray, np.ndarray]:
    """Points along a wall and the force on each, along the wall's own normal's axis: upper half and heel."""
    n = round((high - low) / WALL_STEP_FT)
    at = low + (np.arange(n) + 0.5) * (high - low) / n
    best = np.zeros(n)
    for wing in house.wings:
        limit = (wing.low if side % 2 == 0 else wing.high)[side // 2]
        if abs(limit - c) > 1e-9:
            continue
        mine = (at > wing.low[1 - side // 2]) & (at < wing.high[1 - side // 2])
        own = _wall_factor(house, wing, wind, side, at)
        best = np.where(mine & (np.abs(own) > np.abs(best)), own, best)
    inward = 1.0 if side % 2 == 0 else -1.0
    return at, inward * 0.6 * house.q_psf * (best - wind.inside) * (HALF_FT + HEEL_FT) * (high - low) / n


def _wall_factor(house: House, wing: Wing, wind: Wind, side: int, at: np.ndarray) -> np.ndarray:
    axis = wind.side // 2
    if wind.directional:
        if side // 2 != axis:
            return np.full(len(at), -0.7 * 0.85)
        leeward = float(C_p_leeward_wall(wing.size(axis) / wing.size(1 - axis)))
        return np.full(len(at), 0.85 * (0.8 if side == wind.side else leeward))
    corner = (wing.high if wind.high_corner else wing.low)[1 - axis]
    if axis != wing.ridge:
        if side // 2 != axis:
            return np.full(len(at), -0.45)
        zone = "1" if side == wind.side else "4"
        return np.where(np.abs(at - corner) < 2 * house.a_ft, CASE_1[zone + "E"], CASE_1[zone])
    if side // 2 == axis:
        zone = "5" if side == wind.side else "6"
        return np.where(np.abs(at - corner) < house.a_ft, CASE_2[zone + "E"], CASE_2[zone])
    zone = "1" if (side % 2 == 1) == wind.high_corner else "4"
    windward = (wing.low if wind.side % 2 == 0 else wing.high)[axis]
    return np.where(np.abs(at - windward) < 2 * house.a_ft, CASE_2[zone + "E"], CASE_2[zone])


def _roof(house: House, wind: Wind) -> tuple[np.ndarray, np.ndarray]:
    """Points on the roof in plan, and the horizontal force on each. (n, 2) twice"""
    cells = [_cells(house, axis) for axis in (0, 1)]
    x, y = (g.ravel() for g in np.meshgrid(cells[0][0], cells[1][0], indexing="ij"))
    area = np.outer(cells[0][1], cells[1][1]).ravel()
    height = np.full((len(house.wings), len(x)), -np.inf)
    for i, wing in enumerate(house.wings):
        depth = wing.depths(x, y)
        height[i] = np.where((depth > -OVER_FT).all(axis=0), depth.min(axis=0), -np.inf)
    seen = height.max(axis=0)
    there = np.isfinite(seen)
    x, y, height, seen, area = x[there], y[there], height[:, there], seen[there], area[there]
    within = np.any([(w.depths(x, y) > 0.0).all(axis=0) for w in house.wings], axis=0)
    net, under = np.full(len(x), np.inf), np.zeros(len(x))
    gradient = np.zeros((len(x), 2))
    for i, wing in enumerate(house.wings):
        mine = height[i] > seen - 1e-9
        depth = wing.depths(x, y)
        side = depth.argmin(axis=0)
        own, below = _roof_factor(house, wing, wind, depth, side, within)
        takes = mine & (own - below < net - under)
        net, under = np.where(takes, own, net), np.where(takes, below, under)
        slope = RISE * np.array([[1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0]])[side]
        gradient = np.where(mine[:, None], slope, gradient)
    psf = 0.6 * house.q_psf * (net - wind.inside * within)
    return np.stack([x, y], axis=1), (psf * area)[:, None] * gradient


def _cells(house: House, axis: int) -> tuple[np.ndarray, np.ndarray]:
    """Middles and widths of cells that no wall, eave or line of a zone cuts; hips and valleys run where they will."""
    at: set[float] = set()
    for w in house.wings:
        low, high = w.low[axis], w.high[axis]
        from_wall = (-OVER_FT, 0.0, 2 * house.a_ft, 2.5 * EAVE_FT, 0.5 * house.h_ft, house.h_ft, 2 * house.h_ft)
        at |= {(low + high) / 2, *(low + d for d in from_wall), *(high - d for d in from_wall)}
    first, last = (f(v for w in house.wings for v in (w.low[axis], w.high[axis])) for f in (min, max))
    ends = sorted(c for c in at if first - OVER_FT - 1e-9 <= c <= last + OVER_FT + 1e-9)
    middles, widths = [], []
    for low, high in pairwise(ends):
        n = max(1, round((high - low) / (ROOF_STEP_FT * (1.0 + 0.13 * axis))))
        middles.append(low + (np.arange(n) + 0.5) * (high - low) / n)
        widths.append(np.full(n, (high - low) / n))
    return np.concatenate(middles), np.concatenate(widths)


def _roof_factor(
    house: House, wing: Wing, wind: Wind, depth: np.ndarray, side: np.ndarray, within: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """On top, and below the overhangs that the wind meets."""
    axis = wind.side // 2
    beside = 2 * (1 - axis) + int(wind.high_corner)
    windward, corner = depth[wind.side], depth[beside]
    meets = ~within & (side == wind.side)
    if wind.directional:
        h_over_l = house.h_ft / wing.size(axis)
        suction, _ = C_p_parallel_roof(np.maximum(windward, 0.0), house.h_ft, h_over_l, 0.0)
        theta = math.degrees(math.atan(RISE))
        onto, behind = C_p_windward_roof(theta, h_over_l, 0.0)[0], C_p_leeward_roof(theta, h_over_l)
        top = np.where(side == wind.side, onto, np.where(side == wind.side ^ 1, behind, suction))
        return 0.85 * top, np.where(meets, 0.85 * 0.8, 0.0)
    if axis != wing.ridge:
        reach = min(0.5 * wing.size(axis), 2.5 * EAVE_FT)
        plain = np.where(windward < wing.size(axis) / 2, "2", "3")
        end = np.where(corner < 2 * house.a_ft, "E", "")
        value = _of(CASE_1, plain, end)
        cut = _of(CASE_1, np.where((plain == "2") & (windward < reach), "2", "3"), end)
        return np.where(value < 0, cut, value), np.where(meets, 0.7, 0.0)
    zone = np.where(corner < wing.size(1 - axis) / 2, "2", "3")
    meets |= ~within & (side == beside) & (corner < 0)
    return _of(CASE_2, zone, np.where(windward < 2 * house.a_ft, "E", "")), np.where(meets, 0.7, 0.0)


def _of(case: dict[str, float], zone: np.ndarray, end: np.ndarray) -> np.ndarray:
    names = np.char.add(zone, end)
    out = np.zeros(len(names))
    for name in set(names.tolist()):
        out[names == name] = case[name]
    return out
