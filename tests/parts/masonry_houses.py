"""Houses with what stands under their roofs said, for the tests of where the pull stops."""

from __future__ import annotations

from dataclasses import replace

from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan import Plan, TieBeam
from framing.plan_masonry import Bars, FilledCell, Footing, LintelKind, Masonry, Opening, Stirrups, TieBeamSteel
from framing.run import Run, make_run
from invariants.houses import plan_of

BOX = [(0, 0), (40, 0), (40, 28), (0, 28)]
ELL = [(0, 0), (36, 0), (36, -20), (60, -20), (60, 30), (0, 30)]
TWO_5, ONE_5 = Bars(count=2, number=5), Bars(count=1, number=5)


def steel(**changed: object) -> TieBeamSteel:
    """Two #5 at top and bottom, 2,500 psi, 1-1/2 in. of cover, a #5 in each cell, cells 4 ft apart."""
    said = TieBeamSteel(
        top_bars=TWO_5,
        bottom_bars=TWO_5,
        stirrups=None,
        f_c_psi=2500.0,
        cover_ft=1.5 / 12.0,
        cell_bar=ONE_5,
        cell_spacing_ft=4.0,
    )
    return replace(said, **changed)


def nothing_said() -> TieBeamSteel:
    """A plan that is silent on its masonry."""
    return TieBeamSteel(
        top_bars=None,
        bottom_bars=None,
        stirrups=None,
        f_c_psi=None,
        cover_ft=None,
        cell_bar=None,
        cell_spacing_ft=None,
    )


def opening(wall: str, from_ft: float, to_ft: float, **changed: object) -> Opening:
    """A door with the tie beam over it."""
    door = Opening(wall=wall, from_ft=from_ft, to_ft=to_ft, sill_ft=0.0, head_ft=7.0, lintel=LintelKind.TIE_BEAM)
    return replace(door, **changed)


def masonry_plan(
    outline: list[tuple[float, float]] = BOX,
    *,
    said: TieBeamSteel | None = None,
    openings: tuple[Opening, ...] = (),
    cells: tuple[tuple[str, float], ...] = (),
    footing: Footing | None = None,
    **changed: object,
) -> Plan:
    """A plan with its masonry."""
    plan = plan_of(outline, **changed)
    masonry = replace(
        plan.masonry,
        steel=steel() if said is None else said,
        openings=openings,
        filled_cells=tuple(FilledCell(wall=wall, at_ft=at) for wall, at in cells),
        footing=footing,
    )
    return replace(plan, masonry=masonry)


def run_of(*args: object, **changed: object) -> Run:
    """The run of such a plan with the shipped catalogue."""
    return make_run(masonry_plan(*args, **changed), shipped_catalogue())


__all__ = [
    "BOX",
    "ELL",
    "ONE_5",
    "TWO_5",
    "Bars",
    "Footing",
    "LintelKind",
    "Masonry",
    "Stirrups",
    "TieBeam",
    "masonry_plan",
    "nothing_said",
    "opening",
    "run_of",
    "steel",
]
