"""Sideways pushes -> what else holds the tops of the walls: the tie beam between the walls square to it, the bracing of
a gable's bottom chord, and what the deck's forces turn about the plane of the bearings.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from framing.members import Framing
from framing.plan import Plan
from framing.plan_masonry import TopsHeldBy
from framing.roof.surface import Roof
from framing.sideways.drag import Drag, LineShear, drags, line_shears
from framing.sideways.pushes import Sideways
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline, Wall
from framing.wind.patches import Patches

Floats = NDArray[np.float64]
TOUCHES_FT = 1.0  # a cross wall drawn this near a wall meets it: its thickness, or drawn to its inside face


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamSpan:
    """The tie beam of a wall between two walls square to it (stations, outside face): the largest load square to the
    wall (ASD) in which case, and the moment and shear of a beam on two bearings under it, spread evenly.
    """

    wall: str
    from_ft: float
    to_ft: float
    load_lb: float
    case: str

    @property
    def length_ft(self) -> float:
        """Between the walls. [ft]"""
        return self.to_ft - self.from_ft

    @property
    def moment_ft_lb(self) -> float:
        """W L / 8. [ft-lb]"""
        return self.load_lb * self.length_ft / 8.0

    @property
    def shear_lb(self) -> float:
        """W / 2. [lb]"""
        return self.load_lb / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class GableBracing:
    """What the bracing of a gable's bottom chord must carry, ASD: the most on any foot, and the most in all, with the
    case of that.
    """

    wall: str
    most_plf: float
    force_lb: float
    case: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DeckMoment:
    """What the horizontal forces on the deck turn about the plane of the bearings at most, by axis of the forces."""

    axis: int
    moment_ft_lb: float
    case: str


def beam_spans(plan: Plan, outline: Outline, found: Sideways) -> tuple[BeamSpan, ...]:
    """The tie beam's spans where it holds the tops of the walls; none where the roof does."""
    if found.tops_held_by is TopsHeldBy.ROOF:
        return ()
    out = []
    for k, wall in enumerate(outline.walls):
        ends = [0.0, *(at for at, _ in cross_walls_ft(plan, wall)), wall.length_ft]
        for low, high in pairwise(ends):
            load = np.abs(beam_load_lb(found, k, low, high))
            if load.max(initial=0.0) > 0.0:
                j = int(load.argmax())
                span = BeamSpan(
                    wall=wall.name, from_ft=low, to_ft=high, load_lb=float(load[j]), case=found.cases[j].name
                )
                out.append(span)
    return tuple(out)


def cross_walls_ft(plan: Plan, wall: Wall) -> list[tuple[float, int]]:
    """Where cross walls meet a wall, by stations, with the place of each in the plan."""
    out: dict[float, int] = {}
    for k, cross in enumerate(plan.masonry.cross_walls):
        for p in (cross.start_ft, cross.end_ft):
            run = np.subtract(p, wall.start_ft)
            station, off = float(run @ wall.direction), abs(float(run @ wall.outward))
            if off <= wall.thickness_ft + TOUCHES_FT and TIE_FT < station < wall.length_ft - TIE_FT:
                out.setdefault(station, k)
    return sorted(out.items())


def beam_load_lb(found: Sideways, wall: int, low_ft: float, high_ft: float) -> Floats:
    """The load on the beam square to a wall between two stations, outward positive: the wall's upper half and what its
    straps bring. (k,) [lb]
    """
    parts = found.parts
    middle = (parts.from_ft + parts.to_ft) / 2.0
    mine = np.flatnonzero((parts.wall == wall) & (middle > low_ft) & (middle < high_ft))
    if not len(mine):
        return np.zeros(len(found.cases))
    outward = parts.outward[mine[0]]
    halves = np.einsum("pkd,p->kd", found.loads.wall_psf[mine], parts.half_ft2[mine])
    straps = sum(
        (
            found.square_lb[h.bearing]
            for h in found.held
            if h.wall == wall and low_ft < (h.from_ft + h.to_ft) / 2 < high_ft
        ),
        np.zeros((len(found.cases), 2)),
    )
    out: Floats = (halves + straps) @ outward
    return out


def gable_bracing(found: Sideways) -> tuple[GableBracing, ...]:
    """For each gable wall: the wall's upper half, that comes by the straps, and the triangle's lower half; none where
    the tie beam holds both.
    """
    if found.tops_held_by is TopsHeldBy.TIE_BEAM:
        return ()
    parts, out = found.parts, []
    for name in dict.fromkeys(parts.name[parts.gable].tolist()):
        mine = np.flatnonzero((parts.name == name) & parts.gable)
        square_psf = np.abs(np.einsum("pkd,pd->pk", found.loads.wall_psf[mine], parts.outward[mine]))
        area = parts.half_ft2[mine] + parts.above_ft2[mine] / 2.0
        tallest = parts.half_ft[mine] + np.maximum(parts.low_ft[mine], parts.high_ft[mine]) / 2.0
        force = area @ square_psf
        k = int(force.argmax())
        out.append(
            GableBracing(
                wall=str(name),
                most_plf=float((square_psf * tallest[:, None]).max()),
                force_lb=float(force[k]),
                case=found.cases[k].name,
            )
        )
    return tuple(out)


def deck_moments(roof: Roof, patches: Patches, found: Sideways, area_ft2: Floats) -> tuple[DeckMoment, ...]:
    """Each patch's horizontal force times its middle's height, the heel's strip at the roof plane, of a gable's
    triangle the upper half at its top.
    """
    middle = shapely.get_coordinates(shapely.centroid(patches.polygon))
    height = patches.height_ft(np.arange(len(middle)), middle) + roof.heel_ft
    parts = found.parts
    low, high = parts.low_ft, parts.high_ft
    at_its_top_ft3 = parts.length_ft * (low**2 + low * high + high**2) / 3.0  # each foot of wall at its own height
    upper = np.where(parts.gable, 0.5, 1.0) * at_its_top_ft3
    out = []
    for axis in (0, 1):
        turned = (area_ft2 * height) @ found.loads.roof_psf[:, :, axis] + upper @ found.loads.wall_psf[:, :, axis]
        k = int(np.abs(turned).argmax())
        out.append(DeckMoment(axis=axis, moment_ft_lb=float(abs(turned[k])), case=found.cases[k].name))
    return tuple(out)


@dataclass(frozen=True, slots=True, kw_only=True)
class AtTheTops:
    """All that holds the tops of the walls, for the engineer of record."""

    shears: tuple[LineShear, ...]
    drags: tuple[Drag, ...]
    spans: tuple[BeamSpan, ...]
    bracing: tuple[GableBracing, ...]
    moments: tuple[DeckMoment, ...]


def at_the_tops(
    plan: Plan, outline: Outline, roof: Roof, framing: Framing, patches: Patches, found: Sideways
) -> AtTheTops:
    """Shear on each line, drag at inside corners, the beam between its walls, gables' bracing, the deck's moment."""
    return AtTheTops(
        shears=line_shears(found),
        drags=drags(plan, outline, framing, found),
        spans=beam_spans(plan, outline, found),
        bracing=gable_bracing(found),
        moments=deck_moments(roof, patches, found, np.asarray(shapely.area(patches.polygon))),
    )
