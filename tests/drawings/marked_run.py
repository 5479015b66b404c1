"""Runs for the wall marks: walls, a plan and a schedule with every awkward mark in it, made by hand.

The strips and the phone page read the plan, the walls, the roof with its deck, the schedule and the fingerprint; the
rest of the run is left out. The houses are invented.
"""

from __future__ import annotations

import dataclasses
import random
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from export.architects_drawing.outline import outline_of_drawing
from framing.anchors.catalogue import Anchor
from framing.anchors.catalogue_file import catalogue_of, shipped_catalogue
from framing.anchors.schedule import AnchorSchedule, Mark, Totals
from framing.asce7.edition import edition
from framing.deck.approvals import NONE_GIVEN
from framing.deck.build import build_roof_cover
from framing.ground.beam_strength import beam_strength
from framing.ground.stops import Ground
from framing.loads.cases import LoadBasis
from framing.members import Bearing, CarrierKind, Crossing, Framing, MemberKind, Strap
from framing.plan import Plan, Side, Support, SupportKind
from framing.plan_file import read_plan
from framing.roof.surface import build_roof
from framing.run import Run, make_run
from framing.walls.outline import Wall, build_outline
from framing.wind.edge_widths import edge_widths
from framing.wind.figures import wind_figures
from framing.wind.patches import build_patches

ROOT = Path(__file__).parents[2]
PLY_FT = 1.5 / 12
CROSSINGS = {MemberKind.CORNER_JACK: Crossing.DIAGONAL, MemberKind.GABLE_END: Crossing.ALONG}
NO_STRAP = Strap(
    side=Side.START,
    point_ft=(0.0, 0.0),
    tape_ft=0.0,
    in_from_face_ft=4 / 12,
    in_from_next_ft=None,
    edge_ft=4 / 12,
    end_ft=1.0,
)
SAMPLES = sorted(path.stem for path in (ROOT / "sample_plans").glob("*.toml"))
A_FEW = [
    name if name in {"bay_and_corners", "garage_wing", "long_girder"} else pytest.param(name, marks=pytest.mark.full)
    for name in SAMPLES
]
"""The samples that differ most, for what takes a browser seconds; all of them under the mark 'full'."""
CATALOGUE = shipped_catalogue()


def sample(name: str) -> Run:
    """The run of a sample plan, as `build` makes it."""
    path = ROOT / "sample_plans" / f"{name}.toml"
    plan = read_plan(path, outline_of_drawing)
    return make_run(plan, catalogue_of(plan, path.parent))


def house(name: str = "Heron Court, lot 7", length_ft: float = 46 + 8 / 12) -> Run:
    """A hipped rectangle, 28 ft wide: corner jacks, a strap in a corner block, a far side, pairs, two unresolved."""
    run = run_of(plan_of(name, length_ft, 28.0))
    marks = [m for w in run.outline.walls for m in hip_wall(w)]
    awkward = {
        "W1-03": {"side": Side.FAR},
        "W1-05": {"anchor": pair(), "side": Side.BOTH},
        "W1-08": {"anchor": None, "uplift_lb": 3829.6, "parallel_lb": 41.2, "perpendicular_lb": 283.7},
        "W3-02": {"anchor": None, "side": Side.FAR},
        "W4-12": {"station_ft": 28.0, "side": Side.FAR, "crossing": Crossing.CORNER_BLOCK, "next_wall": "W1"},
    }
    return with_marks(run, [changed(m, **awkward.get(m.mark, {})) for m in marks])


def crowded() -> Run:
    """A wall of 120 ft with 70 marks, some of them inches apart."""
    run = run_of(plan_of("Long hall (invented)", 120.0, 28.0))
    draw = random.Random(5)
    stations = sorted([*(2.0 * k for k in range(52)), *(draw.uniform(0, 120) for _ in range(18))])
    marks = [mark(run.outline.walls[0], k, ft, MemberKind.COMMON) for k, ft in enumerate(stations, start=1)]
    return with_marks(run, marks)


def at_random(seed: int) -> Run:
    """A rectangle with marks, sides, plies, anchors and name lengths drawn at random; one wall has none."""
    draw = random.Random(seed)
    run = run_of(plan_of("x" * draw.randint(1, 300), draw.uniform(4, 300), draw.uniform(4, 60)))
    marks = []
    for wall in run.outline.walls[:3]:
        n = draw.randint(1, 30)
        for k, ft in enumerate(sorted(draw.uniform(0.4, wall.length_ft - 0.6) for _ in range(n)), start=1):
            one = mark(wall, k, ft, draw.choice(list(MemberKind)), plies=draw.randint(1, 3))
            anchor = draw.choice([*CATALOGUE.anchors, None])
            single = Side.INSIDE if one.side is Side.INSIDE else draw.choice([Side.START, Side.FAR])
            side = Side.BOTH if anchor and anchor.count == 2 else single
            marks.append(changed(one, anchor=anchor, side=side))
    return with_marks(run, marks)


def supported() -> Run:
    """A house with a bearing wall inside that is tied down, so that it has a strip of its own."""
    support = Support(kind=SupportKind.BEARING_WALL, start_ft=(0.0, 14.0), end_ft=(30.0, 14.0), holds_down=True)
    run = run_of(dataclasses.replace(plan_of("Inside wall (invented)", 46.0, 28.0), supports=(support,)))
    inside = dataclasses.replace(run.outline.walls[0], name="S1")
    return with_marks(run, [mark(inside, 1, 3.0, MemberKind.COMMON), mark(inside, 2, 29.0, MemberKind.COMMON)])


def plan_of(name: str, length_ft: float, width_ft: float) -> Plan:
    """The hip sample's plan under another name and on another rectangle."""
    plan = read_plan(ROOT / "sample_plans" / "hip_house.toml")
    corners = ((0.0, 0.0), (length_ft, 0.0), (length_ft, width_ft), (0.0, width_ft))
    return dataclasses.replace(plan, outline_ft=corners, project=dataclasses.replace(plan.project, name=name))


NO_MEMBERS = Framing(
    members=(),
    bearings=(),
    rests=(),
    porch_beams=(),
    porches=(),
    tributaries=(),
    framed_ft=(),
    seams_ft=(),
    notes=(),
    flags=(),
)


def run_of(plan: Plan) -> Run:
    """A run without members and marks."""
    left_out: dict[str, Any] = {field.name: None for field in dataclasses.fields(Run)}
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    widths = edge_widths(plan, outline, roof)
    wind = wind_figures(plan, roof, widths)
    patches = build_patches(plan, outline, roof, outline.local_ft, widths)
    cover = build_roof_cover(plan, edition(plan.wind.edition), roof, patches, widths, NONE_GIVEN)
    ground = Ground(
        beam_plf=0.0,
        strength=beam_strength(plan),
        beams=(),
        needed=(),
        cells=(),
        openings=(),
        ladders=(),
        girders=(),
    )
    left_out |= {"ground": ground, "wind_doubts": (), "roof": roof, "patches": patches, "cover": cover}
    left_out |= {"loads": SimpleNamespace(widths=widths)}
    read = {"plan": plan, "outline": outline, "wind": wind, "framing": NO_MEMBERS, "fingerprint": "0a1b2c3d"}
    return Run(**(left_out | read | {"schedule": schedule_of([])}))


def with_marks(run: Run, marks: list[Mark]) -> Run:
    return dataclasses.replace(run, schedule=schedule_of(marks))


def schedule_of(marks: list[Mark]) -> AnchorSchedule:
    totals = Totals(n_anchors=sum(m.count for m in marks), price=0.0, n_unresolved=0)
    return AnchorSchedule(catalogue=CATALOGUE, marks=tuple(marks), totals=totals, main_frame_alone=totals)


def hip_wall(wall: Wall) -> list[Mark]:
    """Corner jack at START, side jacks, girders at 7 ft, commons at 24 in."""
    length_ft = wall.length_ft
    marks = [(0.0, MemberKind.CORNER_JACK, 1), (3.0, MemberKind.SIDE_JACK, 1), (5.0, MemberKind.SIDE_JACK, 1)]
    marks += [(7.0, MemberKind.HIP_GIRDER, 2)]
    marks += [(7.0 + 2 * k, MemberKind.COMMON, 1) for k in range(1, 30) if 7.0 + 2 * k < length_ft - 7]
    marks += [(length_ft - 7.0, MemberKind.HIP_GIRDER, 2), (length_ft - 3.0, MemberKind.SIDE_JACK, 1)]
    return [mark(wall, k, ft, kind, plies=plies) for k, (ft, kind, plies) in enumerate(marks, start=1)]


def mark(wall: Wall, number: int, station_ft: float, kind: MemberKind, *, plies: int = 1) -> Mark:
    """A mark with the lightest single anchor, its strap on the start side."""
    bearing = Bearing(
        mark=f"{wall.name}-{number:02d}",
        wall=wall.name,
        stands_on=CarrierKind.SUPPORT if wall.name.startswith("S") else CarrierKind.WALL,
        station_ft=station_ft,
        member=f"{kind.value} {number}",
        kind=kind,
        plies=plies,
        crossing=CROSSINGS.get(kind, Crossing.SQUARE),
        straps=(NO_STRAP, NO_STRAP),
        point_ft=wall.point_ft(station_ft),
        wood_ft=(),
        skew_deg=45.0 if kind is MemberKind.CORNER_JACK else 0.0,
        bearing_length_ft=wall.thickness_ft,
        next_wall="",
        top_chord_in=24.0 if kind is MemberKind.GABLE_END else None,
        by_engineer=False,
    )
    whole = Mark(
        bearing=bearing,
        side=Side.START,
        down_lb=900.0,
        uplift_lb=650.0,
        parallel_lb=None,
        perpendicular_lb=None,
        basis=LoadBasis.MWFRS,
        case="wind along W1",
        storm="finished",
        uplift_mwfrs_lb=650.0,
        uplift_cladding_lb=610.0,
        anchor=CATALOGUE.anchors[0],
        count=1,
        allowable_uplift_lb=820.0,
        ratio=0.8,
        good_to_mph=None,
        clear_ft=24.0 / 12,
        use=None,
    )
    return changed(whole, side=Side.INSIDE if kind is MemberKind.GABLE_END else Side.START)


def changed(one: Mark, **parts: Any) -> Mark:
    """The mark with other parts; the straps and the count follow the conventions of the schedule."""
    of_bearing = {k: parts.pop(k) for k in ("station_ft", "crossing", "next_wall") if k in parts}
    new = dataclasses.replace(one, bearing=dataclasses.replace(one.bearing, **of_bearing), **parts)
    count = new.anchor.count if new.anchor else 0
    bearing = dataclasses.replace(new.bearing, straps=straps_of(new.bearing, new.side))
    return dataclasses.replace(new, bearing=bearing, count=count)


def straps_of(bearing: Bearing, side: Side) -> tuple[Strap, Strap]:
    """Both straps of a bearing, the one on `side` first: beside the truss; at a corner jack 4-7/8 in. along and
    5-7/8 in. in, or the other way round; at a gable end 4 and 2-1/2 in. in; in a corner block at 0 or the far end.
    """
    half_ft = bearing.plies * PLY_FT / 2
    faces = [(Side.START, -half_ft, 4 / 12), (Side.FAR, half_ft, 4 / 12)]
    if bearing.crossing is Crossing.DIAGONAL:
        faces = [(Side.START, 4.875 / 12, 5.875 / 12), (Side.FAR, 5.875 / 12, 4.875 / 12)]
    elif bearing.crossing is Crossing.ALONG:
        faces = [(Side.INSIDE, 0.0, 4 / 12), (Side.OUTSIDE, 0.0, 2.5 / 12)]
    elif bearing.crossing is Crossing.CORNER_BLOCK:
        faces = [(Side.START, 0.0, 4 / 12), (Side.FAR, 0.0, 4 / 12)]
    if side is Side.FAR:
        faces.reverse()
    next_ft = 5.5 / 12 if bearing.crossing is Crossing.CORNER_BLOCK else None
    first, second = (
        dataclasses.replace(
            NO_STRAP,
            side=face,
            point_ft=bearing.point_ft,
            tape_ft=max(0.0, bearing.station_ft + along_ft),
            in_from_face_ft=in_ft,
            in_from_next_ft=next_ft,
        )
        for face, along_ft, in_ft in faces
    )
    return first, second


def pair() -> Anchor:
    """The first pair of the catalogue."""
    return next(a for a in CATALOGUE.anchors if a.count == 2)
