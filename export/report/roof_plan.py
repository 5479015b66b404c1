"""The roof in plan with the pressure zones of one case: textures and letters, no colour."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import Polygon, box

from export.report.markup import MINUS, coefficient, esc, num, table
from framing.explain.wind_cases import wind_toward
from framing.loads.cases import LoadCase
from framing.plan import Point
from framing.roof.lines import LineKind
from framing.run import Run
from framing.tolerances import TIE_FT
from framing.walls.standing_walls import standing_lines
from framing.wind.pressures import RoofPressures

WIDTH, HEIGHT, EDGE = 720.0, 430.0, 46.0
SMALLEST_LABEL = 8.5
LETTER_WIDTH = 10.0
NAMES_OUT = (15.0, 30.0)
NAMES_ALONG = (0.5, 0.3, 0.7, 0.1, 0.9)
DRAWN = (LineKind.RIDGE, LineKind.HIP, LineKind.VALLEY)
TEXTURES = (
    "",
    '<circle cx="5" cy="5" r="0.9"/>',
    '<path d="M0 10L10 0"/>',
    '<path d="M0 0L10 10M0 10L10 0"/>',
    '<path d="M0 2.5H10M0 7.5H10"/>',
    '<path d="M2.5 0V10M7.5 0V10"/>',
    '<path d="M0 2.5H10M0 7.5H10M2.5 0V10M7.5 0V10"/>',
    '<path d="M0 5L5 0M0 10L10 0M5 10L10 5M0 0L10 10" stroke-width="1.3"/>',
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Plan feet to the picture's units: `scale` of them a foot, y down."""

    scale_ratio: float
    left_ft: float
    top_ft: float
    height: float

    def at(self, p: Point) -> Point:
        """A plan point in the picture."""
        return EDGE + (p[0] - self.left_ft) * self.scale_ratio, EDGE + (self.top_ft - p[1]) * self.scale_ratio


def textures() -> str:
    """The textures that the pictures and their keys share, from the least suction to the most."""
    marks = "".join(
        f'<pattern id="t{k}" width="10" height="10" patternUnits="userSpaceOnUse"><rect width="10" height="10" '
        f'fill="#fff"/><g stroke="#000" stroke-width="0.7" fill="#000">{inner}</g></pattern>'
        for k, inner in enumerate(TEXTURES)
    )
    return f'<svg width="0" height="0" aria-hidden="true" class="textures"><defs>{marks}</defs></svg>'


def zone_plan(run: Run, case: LoadCase, title: str) -> str:
    """The picture of a wind case and its key: each zone's letters, texture, coefficients and pressures."""
    zones, toward = case.wind, wind_toward(run, case)
    if zones is None:
        return ""
    ranked = _ranked(zones)
    sheet = _sheet(run)
    parts = [f'<svg viewBox="0 0 {WIDTH:g} {sheet.height:.1f}" role="img" aria-label="{esc(title)}">']
    areas: list[tuple[str, Polygon]] = []
    for k, name in enumerate(ranked):
        for polygon in _areas(run, zones, name):
            parts.append(f'<path class="zone" fill="url(#t{k % len(TEXTURES)})" d="{_path(run, sheet, polygon)}"/>')
            areas.append((_letters(name, ranked), polygon))
    parts += [*_lines(run, sheet), *_labels(run, sheet, areas), _north(run), _scale_bar(sheet)]
    if toward is not None:
        parts.append(_wind(run, sheet, toward))
    parts.append("</svg>")
    return f"<figure><figcaption>{esc(title)}</figcaption>{''.join(parts)}</figure>{_key(run, zones, ranked)}"


def _ranked(zones: RoofPressures) -> list[str]:
    """The zones, the one with the least suction on the roof first."""
    names = np.unique(zones.zone)
    return [str(n) for n in sorted(names, key=lambda n: (zones.up_psf[zones.zone == n].min(), n))]


def _letters(name: str, ranked: list[str]) -> str:
    """The figure's letters; with the load case or roof form where one picture holds several."""
    letters, _, rest = name.partition(", ")
    kinds = {other.partition(", ")[2] for other in ranked}
    return letters if len(kinds) == 1 else f"{letters} ({rest.removeprefix('load case ').removesuffix(' roof')})"


def _areas(run: Run, zones: RoofPressures, name: str) -> list[Polygon]:
    joined = shapely.union_all(run.patches.polygon[zones.zone == name], grid_size=TIE_FT)
    return [p for p in shapely.get_parts(joined) if isinstance(p, Polygon)]


def _sheet(run: Run) -> Sheet:
    xs, ys = [p[0] for p in run.roof.eave_ft], [p[1] for p in run.roof.eave_ft]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    scale = min((WIDTH - 2 * EDGE - 60) / wide, (HEIGHT - 2 * EDGE) / high)
    left = min(xs) - (WIDTH - 60 - 2 * EDGE - wide * scale) / 2 / scale
    return Sheet(scale_ratio=scale, left_ft=left, top_ft=max(ys), height=2 * EDGE + high * scale)


def _path(run: Run, sheet: Sheet, polygon: Polygon) -> str:
    return "".join(_ring(run, sheet, ring) for ring in (polygon.exterior, *polygon.interiors))


def _ring(run: Run, sheet: Sheet, ring: shapely.LinearRing) -> str:
    points = (sheet.at(run.outline.frame.to_plan((x, y))) for x, y in list(ring.coords)[:-1])
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points) + "Z"


def _labels(run: Run, sheet: Sheet, areas: list[tuple[str, Polygon]]) -> Iterator[str]:
    """The names of the walls, outside the eaves, then the letters in the widest place of each area, the roomiest
    first; letters that would touch others are left out: the texture says the zone.
    """
    taken: list[Polygon] = []
    for wall in run.outline.walls:
        spots = [
            sheet.at(wall.point_ft(wall.length_ft * share, -run.plan.roof.overhang_ft - out / sheet.scale_ratio))
            for out in NAMES_OUT
            for share in NAMES_ALONG
        ]
        spot = next((p for p in spots if _free(_room(p, wall.name), taken)), spots[0])
        taken.append(_room(spot, wall.name))
        yield _text(spot[0], spot[1] + 4, wall.name, "letters")
    places = []
    for letters, polygon in areas:
        widest = shapely.maximum_inscribed_circle(polygon, tolerance=0.05)
        if widest.length * sheet.scale_ratio >= SMALLEST_LABEL:
            places.append((widest.length, sheet.at(run.outline.frame.to_plan(widest.coords[0])), letters))
    for _, spot, letters in sorted(places, key=lambda p: -p[0]):
        room = _room(spot, letters)
        if _free(room, taken):
            taken.append(room)
            yield _text(spot[0], spot[1] + 4, letters, "letters")


def _room(at: Point, words: str) -> Polygon:
    half = LETTER_WIDTH * len(words) / 2 + 2
    return box(at[0] - half, at[1] - 9, at[0] + half, at[1] + 9)


def _free(room: Polygon, taken: list[Polygon]) -> bool:
    return not any(room.intersects(other) for other in taken)


def _text(x: float, y: float, words: str, kind: str) -> str:
    return f'<text class="{kind}" x="{x:.1f}" y="{y:.1f}">{esc(words)}</text>'


def _lines(run: Run, sheet: Sheet) -> Iterator[str]:
    """Ridges, hips and valleys, the outside faces of the walls that stand and of piers, dashed, the porches, dotted."""
    for line in run.roof.lines:
        if line.kind in DRAWN:
            (x1, y1), (x2, y2) = sheet.at(line.start_ft[:2]), sheet.at(line.end_ft[:2])
            yield f'<path class="ridge" d="M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}"/>'
    for standing in standing_lines(run.outline, run.framing.porch_beams):
        yield f'<path class="wall" d="{_through(sheet, standing)}"/>'
    for pier in run.outline.piers_ft:
        yield f'<path class="wall" d="{_through(sheet, pier)}Z"/>'
    for porch in run.plan.porches:
        yield f'<path class="porch" d="{_through(sheet, porch.corners_ft)}Z"/>'


def _through(sheet: Sheet, points_ft: tuple[Point, ...]) -> str:
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in map(sheet.at, points_ft))


def _arrow(x: float, y: float, toward: Point, length: float) -> str:
    """An arrow around (x, y) that points toward a plan direction."""
    dx, dy = toward[0] * length / 2, -toward[1] * length / 2
    tip, tail = (x + dx, y + dy), (x - dx, y - dy)
    wings = [
        (tip[0] - 0.5 * (dx * math.cos(a) - dy * math.sin(a)), tip[1] - 0.5 * (dx * math.sin(a) + dy * math.cos(a)))
        for a in (0.45, -0.45)
    ]
    head = "".join(f"M{wx:.1f} {wy:.1f}L{tip[0]:.1f} {tip[1]:.1f}" for wx, wy in wings)
    return f'<path class="arrow" d="M{tail[0]:.1f} {tail[1]:.1f}L{tip[0]:.1f} {tip[1]:.1f}{head}"/>'


def _north(run: Run) -> str:
    angle = math.radians(run.plan.project.north_deg)
    toward = (math.cos(angle), math.sin(angle))
    x, y = WIDTH - 34, 44.0
    return _arrow(x, y, toward, 40) + _text(x + 29 * toward[0], y - 29 * toward[1] + 4, "N", "name")


def _scale_bar(sheet: Sheet) -> str:
    """Ten feet."""
    x, y, long = WIDTH - 12 - 10 * sheet.scale_ratio, sheet.height - 12, 10 * sheet.scale_ratio
    bar = f'<path class="arrow" d="M{x:.1f} {y - 4:.1f}v8M{x:.1f} {y:.1f}h{long:.1f}m0 -4v8"/>'
    return bar + _text(x + long / 2, y - 6, "10 ft", "small")


def _wind(run: Run, sheet: Sheet, toward: Point) -> str:
    """Where the wind comes from, at the foot of the north arrow."""
    x, y = WIDTH - 34, 118.0
    return _arrow(x, y, toward, 40) + _text(x, y + 34, "wind", "small")


def _key(run: Run, zones: RoofPressures, ranked: list[str]) -> str:
    """A row for each zone: texture, letters, coefficients, pressures on the roof, over porches and on overhangs."""
    rows, porches = [], bool(run.framing.porches)
    for k, name in reversed(list(enumerate(ranked))):
        mine = zones.zone == name
        on_roof, over = mine & run.patches.enclosed, mine & ~run.patches.in_walls
        porch = [_spread([num(-v, 2) for v in np.sort(zones.up_psf[mine & run.patches.over_porch])])] if porches else []
        fill = f'<rect width="30" height="20" fill="url(#t{k % len(TEXTURES)})"/>'
        swatch = f'<svg class="swatch" viewBox="0 0 30 20">{fill}</svg>'
        inside = zones.inside_factor[on_roof]
        rows.append(
            (
                swatch,
                esc(_letters(name, ranked)),
                esc(name),
                _spread([coefficient(v) for v in zones.outside_factor[on_roof]]),
                _spread([coefficient(v) for v in inside]),
                _spread([num(-v, 2) for v in np.sort(zones.up_psf[on_roof])]),
                *porch,
                _spread([num(-v, 2) for v in np.sort(zones.up_psf[over])]),
            )
        )
    over_porch = ["p over porches, psf#"] if porches else []
    head = (
        "",
        "on the plan",
        "zone",
        "outside#",
        "inside#",
        "p on the roof, psf#",
        *over_porch,
        "p on overhangs, psf#",
    )
    q = f"q K_d = {num(zones.q_K_d_psf, 3)} psf; p = q K_d [(outside) {MINUS} (inside)]; minus lifts."
    if zones.underside_factor.any():
        underside = coefficient(float(zones.underside_factor.max()))
        where = "Overhangs and porches" if porches else "Overhangs"
        q += f" {where}: nothing from inside; {underside} on the underside where the wind strikes it."
    return table(head, rows, name="key") + f'<p class="under">{esc(q)}</p>'


def _spread(values: list[str]) -> str:
    """The different values, as few as there are."""
    return " or ".join(dict.fromkeys(values)) or "\N{EN DASH}"
