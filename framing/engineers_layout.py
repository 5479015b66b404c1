"""Plan + an engineer's layout -> Run: the package's marks, lines and reactions with an anchor for each, and no
arithmetic of ours.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any, NoReturn

import numpy as np

from framing.anchors.catalogue import Catalogue
from framing.anchors.choice import assign_anchors
from framing.anchors.demands import CaseKind, DemandCase, Demands
from framing.anchors.in_the_beam import column_questions, refusal_notes
from framing.anchors.interaction import Demand
from framing.anchors.schedule import AnchorSchedule
from framing.anchors.stated import Stated
from framing.anchors.strap_room import strap_room, with_clear_distances
from framing.asce7.chapter2 import ASD_UPLIFT
from framing.errors import PackageError
from framing.fingerprint import PROGRAM_VERSION, fingerprint
from framing.ground.beam_strength import beam_strength, beam_weight_plf
from framing.ground.stops import Ground
from framing.loads.cases import LoadBasis
from framing.loads.reactions import Case, Reactions
from framing.package.comparison import Comparison
from framing.package.governing import Reconciled
from framing.package.lines import LaidOut, laid_out
from framing.package.rows import Package
from framing.plan import Plan
from framing.roof.surface import build_roof
from framing.run import Run
from framing.sideways.at_the_tops import AtTheTops
from framing.walls.outline import build_outline

USED = ("project.", "walls.", "anchors.", "tie_beam.", "support", "opening", "roof.gable_truss", "package.")
"""The keys of a plan that an engineer's layout reads: what else was assumed takes no part in it."""

ABSENT = "loads, pushes sideways, tie beam, deck, report, engineer.csv and the 3D model are not made"


class NotOurs:
    """What stands in the place of our own arithmetic: asking it for anything is answered in one sentence."""

    def __getattr__(self, name: str) -> NoReturn:
        """Raises PackageError."""
        if name.startswith("__"):
            raise AttributeError(name)
        raise PackageError(
            'package layout: with "package" there is no arithmetic of ours to show; write layout = "ours" for it'
        )


def run_of_layout(plan: Plan, catalogue: Catalogue, package: Package) -> Run:
    """The run of a plan whose marks, trusses and reactions are the package's.

    Raises
    ------
    PlanError, LayoutError, CatalogueError, PackageError
        If the outline is none, the catalogue does not fit, or the table does not say a bearing's place or uplift.
    """
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    laid = laid_out(plan, outline, roof, package)
    demands, reactions = _demands(package, laid), _reactions(package, laid)
    schedule = _without_speeds(with_clear_distances(assign_anchors(plan, laid.framing, reactions, demands, catalogue)))
    room = strap_room(plan, outline, laid.framing, schedule)
    used = tuple((m.bearing, m.anchor) for m in schedule.marks if m.anchor is not None)
    notes = (
        *_notes(package, laid),
        *(outline.notes + laid.framing.notes),
        *(refusal_notes(schedule.marks) + column_questions(plan, catalogue, used) + room.notes),
    )
    none: Any = NotOurs()
    return Run(
        plan=replace(plan, assumed=tuple(a for a in plan.assumed if a.startswith(USED))),
        outline=outline,
        roof=roof,
        framing=laid.framing,
        wind=(),
        patches=none,
        pieces=none,
        loads=none,
        reactions=reactions,
        sideways=none,
        tops=AtTheTops(shears=(), drags=(), spans=(), bracing=(), moments=()),
        demands=demands,
        schedule=schedule,
        ground=_no_ground(plan),
        cover=none,
        hung=(),
        fingerprint=fingerprint(plan, catalogue, package.sha256),
        version=PROGRAM_VERSION,
        notes=tuple(dict.fromkeys(notes)),
        wind_doubts=(),
        flags=_wind_flags(plan, package) + room.flags,
        reconciled=_reconciled(package, demands, len(schedule.marks)),
    )


def _without_speeds(schedule: AnchorSchedule) -> AnchorSchedule:
    """The schedule without the wind that each anchor is good to: how a reaction grows with it is the engineer's."""
    marks = (replace(m, good_to_mph=None, use=replace(m.use, full=None) if m.use else None) for m in schedule.marks)
    return replace(schedule, marks=tuple(marks))


def _notes(package: Package, laid: LaidOut) -> tuple[str, ...]:
    theirs = f"Truss package {package.words}: marks, lines and uplift are the engineer's"
    said = [
        f"{theirs}, with no arithmetic of ours: {ABSENT}.",
        *(f"Truss package {package.name}: {words}." for words in package.said),
    ]
    pushes = [r.parallel_lb is not None or r.perpendicular_lb is not None for r in laid.rows]
    if not all(pushes):
        said.append(
            f"Truss package {package.name}: {len(pushes) - sum(pushes)} of {len(pushes)} rows give no push along the "
            "wall or square to it: their anchors are chosen by uplift alone; ask the engineer of record."
        )
    if any(pushes):
        said.append(f"Truss package {package.name}: a row's uplift and its pushes are taken to act at once.")
    return tuple(said)


def _wind_flags(plan: Plan, package: Package) -> tuple[str, ...]:
    """Where the package is made for another wind than the plan's."""
    theirs, ours = package.wind, plan.wind
    pairs = (
        ("wind speed", theirs.speed_mph, ours.speed_mph, " mph"),
        ("exposure", theirs.exposure, ours.exposure, ""),
        ("enclosure", theirs.enclosure, ours.enclosure, ""),
        ("edition", theirs.edition, ours.edition, ""),
    )
    return tuple(
        f"truss package {package.name}: it is made for {what} {_said(one)}{unit}, the plan has {_said(other)}{unit}: "
        "its reactions are for another wind; ask for them again before anything else"
        for what, one, other, unit in pairs
        if one is not None and one != other
    )


def _said(value: object) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


def _demands(package: Package, laid: LaidOut) -> Demands:
    """One case: the package's uplift with what pushes it states. Nothing in it grows with the wind: what it would be
    at another speed is the engineer's.
    """
    up = np.array([r.uplift_lb or 0.0 for r in laid.rows])
    along = np.array([r.parallel_lb or 0.0 for r in laid.rows])
    square = np.array([r.perpendicular_lb or 0.0 for r in laid.rows])
    skew = np.radians([b.skew_deg for b in laid.framing.bearings])
    lies = np.array([b.crossing == "along the wall" for b in laid.framing.bearings])
    cos, sin = np.where(lies, 0.0, np.cos(skew)), np.where(lies, 1.0, np.sin(skew))
    source = _source(package)
    return Demands(
        demand=Demand(
            wind_lb=(up / ASD_UPLIFT.wind_factor)[:, None],
            dead_lb=np.zeros((len(up), 1)),
            across_lb=(along * cos + square * sin)[:, None],
            along_lb=(along * sin + square * cos)[:, None],
            grows=np.array([False]),
        ),
        cases=(DemandCase(kind=CaseKind.MAIN_FRAME, names=(source,)),),
        counts=np.array([True]),
        main_frame=np.array([True]),
        along_wall_lb=along[:, None],
        square_lb=square[:, None],
        uplift_mwfrs_lb=up,
        uplift_cladding_lb=up,
        pushed=np.array([r.parallel_lb is not None or r.perpendicular_lb is not None for r in laid.rows]),
        stated={
            i: Stated(
                mark=r.mark or r.member,
                source=source,
                theirs_lb=r.uplift_lb,
                ours_lb=r.uplift_lb or 0.0,
                uplift_lb=r.uplift_lb or 0.0,
                replaces=True,
                along_wall_lb=r.parallel_lb,
                square_lb=r.perpendicular_lb,
                down_lb=r.down_lb,
                ours_down_lb=None,
            )
            for i, r in enumerate(laid.rows)
        },
    )


def _source(package: Package) -> str:
    return f"truss package {package.words}"


def _reactions(package: Package, laid: LaidOut) -> Reactions:
    """The package's own figures as the one case there is; 0 down where it gives none."""
    n, rests = len(laid.rows), len(laid.framing.rests)
    up = np.array([r.uplift_lb or 0.0 for r in laid.rows])
    down = np.array([r.down_lb or 0.0 for r in laid.rows])
    none = np.zeros(n)
    case = Case(
        name=_source(package),
        load=_source(package),
        basis=LoadBasis.PACKAGE,
        gravity=None,
        variant=None,
        lifted=False,
        rake=None,
        area_ft2=None,
        applied_vertical_lb=float(up.sum()),
        reactions_vertical_lb=float(up.sum()),
    )
    return Reactions(
        cases=(case,),
        by_case_lb=up[:, None],
        uplift_lb=up,
        down_lb=down,
        down_parts_lb=np.zeros((n, 2)),
        wind_lb=up,
        dead_for_uplift_lb=none,
        finished_dead_lb=none,
        finished_uplift_lb=up,
        bare_dead_lb=none,
        bare_uplift_lb=up,
        before_covering=np.zeros(n, dtype=np.bool_),
        governing=np.zeros(n, dtype=np.int64),
        rests_by_case_lb=np.zeros((rests, 1)),
        rests_down_lb=np.zeros(rests),
    )


def _no_ground(plan: Plan) -> Ground:
    return Ground(
        beam_plf=beam_weight_plf(plan),
        strength=beam_strength(plan),
        beams=(),
        needed=(),
        cells=(),
        openings=(),
        ladders=(),
        girders=(),
    )


def _reconciled(package: Package, demands: Demands, n: int) -> Reconciled:
    return Reconciled(
        package=package,
        comparison=Comparison(wind=(), unsaid=(), counts=(), pairs=()),
        demands=demands,
        n_governed=n,
        n_ours=0,
        notes=(),
        flags=(),
        lays_out=True,
    )
