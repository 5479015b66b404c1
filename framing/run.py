"""One run: every result together, and the one function that makes it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from framing.anchors.catalogue import Catalogue
from framing.anchors.choice import assign_anchors
from framing.anchors.demands import Demands, build_demands
from framing.anchors.in_the_beam import column_questions, refusal_notes
from framing.anchors.schedule import AnchorSchedule
from framing.anchors.strap_room import strap_room, with_clear_distances
from framing.anchors.unheld_ends import loose_ends, porch_notes
from framing.asce7.edition import edition
from framing.deck.approvals import NONE_GIVEN, Approvals
from framing.deck.build import RoofCover, build_roof_cover
from framing.fingerprint import PROGRAM_VERSION, fingerprint
from framing.ground.beam_sideways import beam_flags, tops_notes
from framing.ground.sentences import ground_flags, ground_notes
from framing.ground.stops import Ground, build_ground
from framing.layout.assembly import build_framing
from framing.loads.cases import Loads, build_loads
from framing.loads.hung_ends import HungEnd, build_hung_ends
from framing.loads.load_path import LinearMap
from framing.loads.other_readings import House
from framing.loads.pieces import Pieces, build_pieces
from framing.loads.reactions import Reactions, Way, build_maps, build_reactions
from framing.loads.wind_doubts import wind_doubts
from framing.members import Framing
from framing.package.governing import Reconciled, reconcile
from framing.package.rows import Package
from framing.plan import Plan
from framing.roof.surface import Roof, build_roof
from framing.sideways.at_the_tops import AtTheTops, at_the_tops
from framing.sideways.pushes import Sideways, build_sideways
from framing.walls.outline import Outline, build_outline
from framing.wind.edge_widths import EdgeWidths, edge_widths
from framing.wind.figures import WindFigure
from framing.wind.patches import Patches, build_patches

CAUTION = (
    "Layout and preliminary reactions for planning. The truss engineer's sealed reactions, the anchor's "
    "product approval, the local building code and the engineer of record govern. Do not pour from this "
    "sheet until they have been compared."
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Run:
    """Everything that one run found out; every output is made from it and from nothing else.

    `fingerprint` is the short one of plan, catalogue and program version. `notes` are sentences for people:
    what was merged, doubled or flagged; `wind_doubts`, among them, are those that belong beside the wind wherever it is
    told. `flags` are the notes that make the exit code 1 besides
    unresolved marks. `reconciled` is the truss engineer's package beside ours and `by_ours` what our own reactions
    alone would take, both None where no package governs.
    """

    plan: Plan
    outline: Outline
    roof: Roof
    framing: Framing
    wind: tuple[WindFigure, ...]
    patches: Patches
    pieces: Pieces
    loads: Loads
    reactions: Reactions
    sideways: Sideways
    tops: AtTheTops
    demands: Demands
    schedule: AnchorSchedule
    ground: Ground
    cover: RoofCover
    hung: tuple[HungEnd, ...]
    fingerprint: str
    version: str
    notes: tuple[str, ...]
    wind_doubts: tuple[str, ...]
    flags: tuple[str, ...]
    reconciled: Reconciled | None = None
    by_ours: AnchorSchedule | None = None

    @property
    def by_engineer(self) -> bool:
        """Whether marks, lines and reactions are all the truss engineer's: there is no arithmetic of ours then."""
        return self.reconciled is not None and self.reconciled.lays_out


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Geometry:
    """What a plan is before any wind blows: everything that its geometry alone decides, the way of a load included."""

    outline: Outline
    roof: Roof
    framing: Framing
    widths: EdgeWidths
    patches: Patches
    pieces: Pieces
    maps: Mapping[Way, LinearMap]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pulls:
    """What pulls and pushes at a house before any anchor is chosen."""

    loads: Loads
    reactions: Reactions
    sideways: Sideways
    tops: AtTheTops
    demands: Demands
    hung: tuple[HungEnd, ...]
    doubts: tuple[str, ...]


def build_geometry(plan: Plan) -> Geometry:
    """The geometry of a plan. Raises PlanError and LayoutError as `make_run`."""
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    framing = build_framing(plan, outline, roof)
    widths = edge_widths(plan, outline, roof)
    patches = build_patches(plan, outline, roof, framing.framed_ft, widths, framing.porches)
    pieces = build_pieces(roof, framing, patches)
    return Geometry(
        outline=outline,
        roof=roof,
        framing=framing,
        widths=widths,
        patches=patches,
        pieces=pieces,
        maps=build_maps(plan, framing, patches, pieces),
    )


def build_pulls(plan: Plan, house: Geometry) -> Pulls:
    """What wind and weight do to the house of a plan."""
    outline, roof, framing, patches, pieces = house.outline, house.roof, house.framing, house.patches, house.pieces
    loads = build_loads(plan, edition(plan.wind.edition), outline, roof, framing, patches, pieces, house.widths)
    reactions = build_reactions(plan, framing, loads, house.maps)
    sideways = build_sideways(plan, outline, roof, framing, patches, pieces, loads)
    readings = House(
        plan=plan,
        code=edition(plan.wind.edition),
        outline=outline,
        roof=roof,
        framing=framing,
        patches=patches,
        pieces=pieces,
        loads=loads,
        reactions=reactions,
        maps=house.maps,
    )
    return Pulls(
        loads=loads,
        reactions=reactions,
        sideways=sideways,
        tops=at_the_tops(plan, outline, roof, framing, patches, sideways),
        demands=build_demands(plan, framing, loads, reactions, sideways),
        hung=build_hung_ends(plan, framing, patches, pieces, loads),
        doubts=wind_doubts(readings),
    )


def make_run(
    plan: Plan, catalogue: Catalogue, approvals: Approvals = NONE_GIVEN, package: Package | None = None
) -> Run:
    """Everything about one plan, in the one direction of flow; `approvals` are those of its roof covering, `package`
    the truss engineer's reactions, which govern.

    Raises
    ------
    PlanError, LayoutError, CatalogueError, PackageError
        If the plan cannot be framed, or the catalogue or the package does not fit it; one sentence.
    """
    house = build_geometry(plan)
    return finish_run(plan, catalogue, approvals, house, build_pulls(plan, house), package=package)


def finish_run(
    plan: Plan,
    catalogue: Catalogue,
    approvals: Approvals,
    house: Geometry,
    pulls: Pulls,
    ground_of: Callable[[Plan, Outline, Framing, Reactions, AnchorSchedule], Ground] = build_ground,
    package: Package | None = None,
) -> Run:
    """The anchors of a house under its pulls, and what follows from them. Raises as `make_run`.

    `ground_of` may be a `build_ground` that remembers.
    """
    outline, roof, framing, patches = house.outline, house.roof, house.framing, house.patches
    reactions, found = pulls.reactions, _reconciled(plan, house, pulls, package)
    schedule = with_clear_distances(assign_anchors(plan, framing, reactions, (found or pulls).demands, catalogue))
    room = strap_room(plan, outline, framing, schedule)
    cover = build_roof_cover(plan, edition(plan.wind.edition), roof, patches, house.widths, approvals)
    ground = ground_of(plan, outline, framing, reactions, schedule)
    flags = framing.flags + loose_ends(framing, _governing(reactions, schedule)) + room.flags
    run = Run(
        plan=plan,
        outline=outline,
        roof=roof,
        framing=framing,
        wind=pulls.loads.figures,
        patches=patches,
        pieces=house.pieces,
        loads=pulls.loads,
        reactions=reactions,
        sideways=pulls.sideways,
        tops=pulls.tops,
        demands=(found or pulls).demands,
        schedule=schedule,
        ground=ground,
        cover=cover,
        hung=pulls.hung,
        fingerprint=fingerprint(plan, catalogue, approvals.sha256, *([package.sha256] if package else [])),
        version=PROGRAM_VERSION,
        notes=_notes(plan, catalogue, house, pulls, schedule, room.notes + ground_notes(plan, schedule, ground)),
        wind_doubts=pulls.doubts,
        flags=flags + ground_flags(plan, ground) + beam_flags(plan, pulls.tops) + cover.flags,
    )
    return _beside(run, found, pulls) if found else run


def _beside(run: Run, found: Reconciled, pulls: Pulls) -> Run:
    """The run with the package that governs it told, and ours beside it."""
    return replace(
        run,
        notes=found.notes + run.notes,
        flags=found.flags + run.flags,
        reconciled=found,
        by_ours=assign_anchors(run.plan, run.framing, pulls.reactions, pulls.demands, run.schedule.catalogue),
    )


def _governing(reactions: Reactions, schedule: AnchorSchedule) -> Reactions:
    """The reactions with the uplift that governs each mark, the package's where it does."""
    return replace(reactions, uplift_lb=np.array([m.uplift_lb for m in schedule.marks]))


def _reconciled(plan: Plan, house: Geometry, pulls: Pulls, package: Package | None) -> Reconciled | None:
    if package is None:
        return None
    return reconcile(plan, house.outline, house.framing, pulls.reactions, pulls.sideways, pulls.demands, package)


def _notes(
    plan: Plan,
    catalogue: Catalogue,
    house: Geometry,
    pulls: Pulls,
    schedule: AnchorSchedule,
    of_straps_and_ground: tuple[str, ...],
) -> tuple[str, ...]:
    """The run's sentences for people, in the order of the flow, each once."""
    used = tuple((m.bearing, m.anchor) for m in schedule.marks if m.anchor is not None)
    said = (
        *(house.outline.notes + house.roof.notes + house.framing.notes),
        *porch_notes(plan, house.outline, house.framing, _governing(pulls.reactions, schedule)),
        *(refusal_notes(schedule.marks) + column_questions(plan, catalogue, used)),
        *tops_notes(plan, pulls.sideways, pulls.tops),
        *(of_straps_and_ground + pulls.doubts),
    )
    return tuple(dict.fromkeys(said))
