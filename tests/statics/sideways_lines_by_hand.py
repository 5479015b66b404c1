"""From the pieces of wind on a rectangle to lines of walls and to anchors, by hand (see sideways_by_hand.py).

Written from the design's text alone; nothing of the program's is imported.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from statics.sideways_by_hand import (
    INWARD,
    MIDDLE_STRIP_FT,
    OUTLOOKER_FT,
    SETBACK_FT,
    House,
    Piece,
    Vector,
)


def line_forces(house: House, pieces: Iterable[Piece]) -> dict[str, float]:
    """Lever rule between the two lines each way. A line of walls stands at its
    outside face (at mid-thickness the forces below change by 0.2 % at most).
    """
    forces = dict.fromkeys(INWARD, 0.0)
    for p in pieces:
        share = p.x_ft / house.length_ft
        forces["W2"] += p.fy_lb * share
        forces["W4"] += p.fy_lb * (1 - share)
        share = p.y_ft / house.width_ft
        forces["W3"] += p.fx_lb * share
        forces["W1"] += p.fx_lb * (1 - share)
    return forces


def held_by_deck(house: House, piece: Piece) -> Vector:
    """(fx, fy) of a roof piece that no member holds in its own plane at a bearing.

    Hip: jacks run up the hip ends' faces as far as the hip girder, 7 ft in;
    beyond it the trusses run across the house, so that the hip end's push is
    square to them. The corner jack's square, to half a spacing in (1 ft, first
    jack at 2 ft), keeps what is along its 45 degrees. Gable: the outlookers,
    from the rake to their backspan of 2 ft, hang on trusses that run across
    and on the gable end, which holds nothing in its plane.
    """
    length, width = house.length_ft, house.width_ft
    off_x, off_y = min(piece.x_ft, length - piece.x_ft), min(piece.y_ft, width - piece.y_ft)
    fx, fy = piece.fx_lb, piece.fy_lb
    if house.gable:
        return (0.0, fy) if off_x < OUTLOOKER_FT else (0.0, 0.0)
    if off_x < 1.0 and off_y < 1.0:
        sx = 1.0 if piece.x_ft < length / 2 else -1.0
        sy = 1.0 if piece.y_ft < width / 2 else -1.0
        along = (fx * sx + fy * sy) / 2
        return fx - along * sx, fy - along * sy
    return (fx, 0.0) if off_x > SETBACK_FT else (0.0, 0.0)


def under_tie_beam(house: House, pieces: Iterable[Piece]) -> Iterator[Piece]:
    """What the deck holds under 'tie beam': of the walls what stands over the
    beam, of a gable's triangle (its heel too) the upper half; of the roof what
    no bearing holds.
    """
    for p in pieces:
        fx, fy = p.fx_lb, p.fy_lb
        if p.kind == "wall":
            continue
        if p.kind == "roof":
            fx, fy = held_by_deck(house, p)
        elif house.gable and p.wall in ("W2", "W4"):
            fx, fy = fx / 2, fy / 2
        yield Piece(kind=p.kind, wall=p.wall, x_ft=p.x_ft, y_ft=p.y_ft, fx_lb=fx, fy_lb=fy)


def middle_common_lb(house: House, pieces: Iterable[Piece], tops_held_by: str) -> float:
    """What the strap of the common truss at mid-length puts square into W1's beam, northward positive. [lb]

    'roof': the wall's top leans on the truss, which puts the opposite into the beam: 2 ft of upper half, at the
    pressure between the end strips. 'tie beam': all of the truss's thrust, which either of its bearings may hold.
    """
    low, high = MIDDLE_STRIP_FT[house.gable]
    if tops_held_by == "tie beam":
        return sum(p.fy_lb for p in pieces if p.kind == "roof" and low < p.x_ft < high)
    stretch = next(p for p in pieces if p.kind == "wall" and p.wall == "W1" and 23 < p.x_ft < 40)
    return -stretch.fy_lb * (high - low) / 17.0


def middle_of_gable_lb(house: House, pieces: Iterable[Piece], low_ft: float, high_ft: float) -> float:
    """What W2's strap between two stations within 6 and 22 ft puts square into the beam under 'tie beam', along x.

    The lower half of the triangle and of the heel below it, which comes down into the beam. [lb]
    """
    heel = next(p for p in pieces if p.kind == "heel" and p.wall == "W2" and 6 < p.y_ft < 22)
    psf = heel.fx_lb / (house.heel_ft * (house.width_ft / 2 - 6))

    def below(at_ft: float) -> float:
        """Area of the triangle from 0 to a station."""
        half = house.width_ft / 2
        beyond = max(0.0, at_ft - half)
        return house.slope * (min(at_ft, half) ** 2 / 2 + beyond * (half - beyond / 2))

    area = below(high_ft) - below(low_ft) + house.heel_ft * (high_ft - low_ft)
    return psf * area / 2
