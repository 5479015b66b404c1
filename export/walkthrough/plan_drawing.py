"""Run -> the plan as an inline SVG, for browsers without 3D and for the printer."""

from __future__ import annotations

import html
import math
from collections.abc import Callable, Iterable

import numpy as np

from framing.plan import Point
from framing.run import Run
from framing.walls.standing_walls import standing_lines
from viewer.colours import ColourKey
from viewer.pieces import Floats, ItemKind
from viewer.scene import Scene

MARGIN_FT = 5.0
DISC_FT = 0.42
INK = "#14202b"
Rgb = tuple[int, int, int]


def plan_svg(run: Run, scene: Scene) -> str:
    """Walls, roof lines, members and bearings seen from above, the bearings coloured by uplift.

    A disc is a bearing with its anchor, a cross one that no anchor holds. A mark that would touch its
    neighbour is left out: all of them are in the table.
    """
    corners = np.array((*run.outline.corners_ft, *run.roof.eave_ft))
    low, high = corners.min(axis=0) - MARGIN_FT, corners.max(axis=0) + MARGIN_FT
    wide, deep = high - low
    text_ft = float(min(max(0.8, wide / 80), 1.5))
    fill = _mark_colours(scene)

    def at(p: Point) -> Point:
        return (round(p[0] - float(low[0]), 2), round(float(high[1]) - p[1], 2))

    def line(points: Iterable[Point]) -> str:
        return " ".join(f"{x:g},{y:g}" for x, y in map(at, points))

    parts = [
        f'<svg viewBox="0 0 {wide:.2f} {deep:.2f}" role="img" '
        f'aria-label="Plan of the walls, the trusses and the {len(run.schedule.marks)} bearings">',
        f'<g fill="none" stroke="{INK}">',
        *(
            f'<polyline points="{line(s)}" stroke-width=".16"/>'
            for s in (
                *standing_lines(run.outline, run.framing.porch_beams),
                *((*ring, ring[0]) for ring in run.outline.piers_ft),
            )
        ),
        *(
            f'<polyline points="{line((r.start_ft[:2], r.end_ft[:2]))}" stroke-width=".06" stroke-dasharray=".5 .3"/>'
            for r in run.roof.lines
        ),
        *(
            f'<polyline points="{line((m.start_ft, m.end_ft))}" stroke-width="{0.09 * m.plies:.2g}" stroke="#8a6a3a"/>'
            for m in run.framing.members
        ),
        "</g>",
        *(_symbol(at(m.bearing.strap_ft), fill[m.mark] if m.resolved else None) for m in run.schedule.marks),
        f'<g font-size="{text_ft:.2f}" fill="{INK}" dominant-baseline="middle" paint-order="stroke" stroke="#fff" '
        'stroke-width=".2">',
        *_marks(run, text_ft, at),
        "</g></svg>",
    ]
    return "\n".join(parts)


def _mark_colours(scene: Scene) -> dict[str, Rgb]:
    rgb = scene.colouring(ColourKey.UPLIFT).rgb.tolist()
    return {i.mark: tuple(c) for i, c in zip(scene.items, rgb, strict=True) if i.kind is ItemKind.TAG}


def _symbol(place: Point, rgb: Rgb | None) -> str:
    x, y = place
    if rgb is None:
        cross = f"M{x - 0.5:.2f},{y - 0.5:.2f}l1,1m0,-1l-1,1"
        return "".join(
            f'<path d="{cross}" fill="none" stroke="{ink}" stroke-width="{width}"/>'
            for ink, width in (("#fff", 0.5), (INK, 0.25))
        )
    return f'<circle cx="{x:g}" cy="{y:g}" r="{DISC_FT}" fill="rgb{rgb}" stroke="{INK}" stroke-width=".08"/>'


def _touches(points: Floats, others: Floats, reach_ft: float) -> bool:
    return bool((np.linalg.norm(points[:, None] - others, axis=2) < reach_ft).any())


def _marks(run: Run, text_ft: float, at: Callable[[Point], Point]) -> list[str]:
    """The marks, square to their walls and outside them; one that would touch another is left out."""
    walls = {w.name: w for w in run.outline.walls}
    discs = np.array([m.bearing.strap_ft for m in run.schedule.marks]).reshape(-1, 2)
    taken = np.zeros((0, 2))
    texts: list[str] = []
    for m in run.schedule.marks:
        out = np.array(walls[m.bearing.wall].outward if m.bearing.wall in walls else (1.0, 0.0))
        first = np.array(m.bearing.point_ft) + out * (run.plan.wall_thickness_ft / 2 + 0.3 + text_ft / 2)
        length = 0.58 * text_ft * len(m.mark)
        middle_line = first + out * np.linspace(0.0, length, 2 + int(length / text_ft))[:, None]
        if _touches(middle_line, taken, 1.1 * text_ft) or _touches(middle_line, discs, 0.4 * text_ft + DISC_FT):
            continue
        taken = np.concatenate((taken, middle_line))
        left = out[0] < -1e-9 or (abs(out[0]) <= 1e-9 and out[1] < 0)
        angle = math.degrees(math.atan2(out[1], out[0])) + (180.0 if left else 0.0)
        x, y = at((float(first[0]), float(first[1])))
        turn = f"translate({x:g} {y:g}) rotate({-angle:.4g})"
        texts.append(
            f'<text transform="{turn}" text-anchor="{"end" if left else "start"}">{html.escape(m.mark)}</text>'
        )
    return texts
