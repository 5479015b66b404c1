"""Doors and windows where the plan has them, and an arrow to the north on the ground."""

from __future__ import annotations

import math

import numpy as np

from framing.run import Run
from viewer.masonry import GROUND_MARGIN_FT, ground_corners_ft
from viewer.pieces import Floats, Item, ItemKind, Pieces, boxes_from, prism, solids_from
from viewer.stages import Stage

PROUD_FT = 0.04
"""How far a door or window is drawn out of the wall's faces, so that the two surfaces do not flicker."""
NORTH_FT = 0.62 * GROUND_MARGIN_FT
"""The arrow's length: with its letter it lies beside the house whichever way it points."""
NORTH_THICK_FT = 0.05
ARROW = ((0.5, 0.0), (-0.08, 0.33), (-0.08, 0.09), (-0.5, 0.09), (-0.5, -0.09), (-0.08, -0.09), (-0.08, -0.33))
LETTER = ((0, 0), (0.2, 0), (0.2, 0.64), (0.6, 0), (0.8, 0), (0.8, 1), (0.6, 1), (0.6, 0.36), (0.2, 1), (0, 1))
"""The shapes of the arrow, along its direction, and of its letter, one high."""
LETTER_FT = 0.3 * NORTH_FT
Row = tuple[tuple[float, ...], ...]


def site(run: Run) -> Pieces:
    """`opening 1 W2` ... as dark panels through the wall, `north arrow` flat on the ground; no opening is invented."""
    rows: list[Row] = []
    items: list[Item] = []
    floor = run.plan.ground_to_floor_ft
    for n, opening in enumerate(run.plan.masonry.openings, start=1):
        wall = run.outline.wall(opening.wall)
        half = wall.thickness_ft / 2
        (ux, uy), (nx, ny) = wall.direction, wall.outward
        along, deep, up = (opening.to_ft - opening.from_ft) / 2, half + PROUD_FT, opening.head_ft - opening.sill_ft
        x, y = wall.point_ft(opening.from_ft + along, half)
        centre = (x, y, floor + opening.sill_ft + up / 2)
        rows.append((centre, (ux * along, uy * along, 0.0), (-nx * deep, -ny * deep, 0.0), (0.0, 0.0, up / 2)))
        items.append(Item(node=f"opening {n} {opening.wall}", kind=ItemKind.OPENING, stage=Stage.WALLS))
    owners = list(range(len(items)))
    meshes = [(len(items), prism([shape], 0.0, NORTH_THICK_FT)) for shape in _north(run)]
    items.append(Item(node="north arrow", kind=ItemKind.NORTH, stage=Stage.WALLS))
    return Pieces(items=tuple(items), boxes=boxes_from(rows, owners), solids=solids_from(meshes))


def _north(run: Run) -> tuple[Floats, Floats]:
    """The arrow and its letter, at the corner of the ground at the end of W1."""
    before, corner, after, _ = ground_corners_ft(run)
    inward = sum((end - corner) / np.linalg.norm(end - corner) for end in (before, after))
    angle = math.radians(run.plan.project.north_deg)
    ahead = np.array((math.cos(angle), math.sin(angle)))
    turn = np.stack((ahead, (-ahead[1], ahead[0])))
    middle = corner + inward * GROUND_MARGIN_FT / 2 - ahead * LETTER_FT * 0.65
    arrow = middle + NORTH_FT * np.array(ARROW) @ turn
    letter = (np.array(LETTER) - (0.4, 0.5)) * LETTER_FT
    upright = np.stack((-turn[1], ahead))  # the letter's right and its up, read with the arrow pointing away
    return np.asarray(arrow), np.asarray(middle + ahead * (NORTH_FT / 2 + LETTER_FT * 0.75) + letter @ upright)
