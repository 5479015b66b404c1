"""Every key of the plan file: what it reads as, and what is told where it is left out."""

import datetime

import pytest

from framing.plan import (
    Enclosure,
    Feature,
    GableWall,
    HipOrigin,
    MwfrsProcedure,
    Openings,
    RakeFrame,
    RoofEdge,
    RoofType,
    Side,
    Support,
    SupportKind,
    Topography,
)
from framing.plan_file import plan_from_text
from framing.plan_masonry import (
    Bars,
    CrossWall,
    FilledCell,
    Footing,
    LintelKind,
    Masonry,
    Opening,
    Stirrups,
    TieBeamSteel,
    TopsHeldBy,
)
from framing.plan_trades import DeckSpec, Option, PackageLayout, PackageSpec, TakeoffSpec, Trades
from parts.plans import with_

ASSUMED = (
    "format = 1",
    "project.name = house",
    "project.revision = A",
    "project.north = 90 deg",
    "project.truss_package = none",
    'walls.straighten = 1/2"',
    "walls.height = 9'-4\"",
    "walls.ground_to_floor = 1'-4\"",
    'walls.thickness = 8"',
    "walls.tie_beam = 8x16",
    "walls.tops_held_by = roof",
    "walls.line_within = 4'",
    "walls.shortest_stretch = 4'",
    "roof.overhang = 2'",
    "roof.rake_overhang = 1'",
    "roof.outlooker_backspan = 2'",
    "roof.gable_wall = truss",
    "roof.covering = concrete tile",
    'trusses.spacing = 24"',
    "trusses.setback = 7'",
    "trusses.girder_plies = 2",
    "trusses.gable_anchor_spacing = 4'",
    "trusses.start = W1",
    "trusses.hip_origin = girder",
    "dead.top_for_uplift = 10",
    "dead.bottom_for_uplift = 5",
    "dead.top_for_gravity = 15",
    "dead.bottom_for_gravity = 10",
    "dead.roof_live = 20",
    "dead.without_covering = true",
    "wind.enclosure = enclosed",
    "wind.edition = ASCE 7-22",
    "wind.basis = worse",
    "wind.mwfrs_procedure = envelope",
    "wind.ground_elevation = 0'",
    "anchors.catalogue = the invented sample that comes with the program",
    "anchors.minimum = none",
    "anchors.side = start",
    'anchors.corner_strap = 2"',
    'anchors.gap_good = 1/8"',
    'anchors.gap_filler = 1/2"',
    'anchors.gap_ask = 1 1/2"',
    'anchors.face_band = 1/2"',
    'anchors.along_band = 6"',
    "package.layout = ours",
)


def test_everything_assumed_is_listed_and_nothing_typed_is() -> None:
    plan = plan_from_text(with_("trusses", 'heel = "4\\""'), "house.toml")
    assert plan.assumed == ASSUMED


def test_every_key_reads_as_what_it_says() -> None:
    plan = plan_from_text(
        """
format = 1
project = { name = "Egret Lane 3", revision = "C", date = 2027-02-01, north = 45, truss_package = "rev. 2" }
[walls]
straighten = 0
tops_held_by = "tie beam"
line_within = "2'"
shortest_stretch = 3
outline = [[0, 0], ["40ft", 0], [40.0, "28' 6\\""], ["0in", 28.5]]
height = 10
ground_to_floor = "0'"
thickness = "12in"
tie_beam = "12x24"
[[support]]
kind = "beam"
from = [0, 14]
to = [40, 14]
holds_down = true
[roof]
type = "gable"
pitch = "30 deg"
overhang = 0
rake_overhang = "6\\""
outlooker_backspan = "3'"
rake_frame = "ladder"
gable_truss = "2\\""
gable_wall = "masonry"
covering = "clay tile"
[[roof.edge]]
wall = "W2"
type = "hip"
from = "4'"
to = "16'"
[trusses]
spacing = "16\\""
setback = "8'"
heel = "0'-9 1/2\\""
girder_plies = 3
gable_anchor_spacing = "3'"
start = "W3"
hip_origin = "corner"
[dead]
top_for_uplift = 3
bottom_for_uplift = 2.5
top_for_gravity = 30
bottom_for_gravity = 11
roof_live = 16
without_covering = false
[wind]
speed = 172.5
exposure = "D"
enclosure = "partially open"
openings = "not protected"
coast_distance = "4000 ft"
edition = "ASCE 7-16"
basis = "mwfrs"
mwfrs_procedure = "directional"
ground_elevation = "120'"
topography = { feature = "escarpment", height = "60'", half_length = "150'", distance = "-40'" }
[anchors]
catalogue = "mine.csv"
minimum = "plain"
side = "far"
corner_strap = "3\\""
gap_good = "1/4\\""
gap_filler = "3/4\\""
gap_ask = "2\\""
face_band = "1\\""
along_band = "9\\""
[[opening]]
wall = "W3"
from = "2'"
to = "18'"
sill = "6\\""
head = "8'"
lintel = "precast"
[tie_beam]
top_bars = "2 #5"
bottom_bars = "#6"
stirrups = "#3 at 8 in"
f_c_psi = 3000
cover = "1 1/2\\""
cell_bar = "1 #5"
cell_spacing = "4'"
[[filled_cell]]
wall = "W2"
at = "4'"
[[cross_wall]]
from = [20, 0]
to = [20, 28]
[footing]
width = "20\\""
depth = "10\\""
dowelled = true
[package]
file = "reactions.csv"
columns = { uplift_lb = "max uplift" }
layout = "package"
[deck]
panel = "19/32 plywood"
edge_in = 4
[covering]
approvals = "mine too.csv"
[takeoff]
prices = { "deck panel" = 41.5 }
waste_percent = { "deck panel" = 12 }
[[option]]
name = "faster"
set = { "wind.speed" = 180 }
""",
        "house.toml",
    )
    assert plan.assumed == ()
    assert plan.masonry == Masonry(
        tops_held_by=TopsHeldBy.TIE_BEAM,
        line_within_ft=2.0,
        shortest_stretch_ft=3.0,
        steel=TieBeamSteel(
            top_bars=Bars(count=2, number=5),
            bottom_bars=Bars(count=1, number=6),
            stirrups=Stirrups(number=3, spacing_ft=8 / 12),
            f_c_psi=3000.0,
            cover_ft=0.125,
            cell_bar=Bars(count=1, number=5),
            cell_spacing_ft=4.0,
        ),
        filled_cells=(FilledCell(wall="W2", at_ft=4.0),),
        openings=(Opening(wall="W3", from_ft=2.0, to_ft=18.0, sill_ft=0.5, head_ft=8.0, lintel=LintelKind.PRECAST),),
        cross_walls=(CrossWall(start_ft=(20.0, 0.0), end_ft=(20.0, 28.0)),),
        footing=Footing(width_ft=20 / 12, depth_ft=10 / 12, dowelled=True),
    )
    assert plan.trades == Trades(
        package=PackageSpec(file="reactions.csv", columns=(("uplift_lb", "max uplift"),), layout=PackageLayout.PACKAGE),
        deck=DeckSpec(
            panel="19/32 plywood",
            rating="",
            nail="",
            chord_species="",
            edge_in=4.0,
            field_in=None,
            zone_3_in=None,
        ),
        approvals="mine too.csv",
        takeoff=TakeoffSpec(prices=(("deck panel", 41.5),), waste_percent=(("deck panel", 12.0),)),
        options=(Option(name="faster", set=(("wind.speed", 180),)),),
    )
    assert (plan.roof.rake_frame, plan.roof.gable_wall) == (RakeFrame.LADDER, GableWall.MASONRY)
    assert plan.roof.gable_truss_ft == 2 / 12
    assert (plan.wind.openings, plan.wind.coast_distance_ft) == (Openings.NOT_PROTECTED, 4000.0)
    assert plan.wind.enclosure_typed
    a = plan.anchors
    assert (a.corner_strap_ft, a.gap_good_ft, a.gap_filler_ft) == (0.25, 1 / 48, 1 / 16)
    assert (a.gap_ask_ft, a.face_band_ft, a.along_band_ft, plan.straighten_ft) == (1 / 6, 1 / 12, 0.75, 0.0)
    assert plan.outline_ft == ((0.0, 0.0), (40.0, 0.0), (40.0, 28.5), (0.0, 28.5))
    assert (plan.project.name, plan.project.date) == ("Egret Lane 3", datetime.date(2027, 2, 1))
    assert (plan.project.north_deg, plan.wall_thickness_ft, plan.tie_beam.nominal_depth_in) == (45.0, 1.0, 24)
    assert plan.supports == (
        Support(kind=SupportKind.BEAM, start_ft=(0.0, 14.0), end_ft=(40.0, 14.0), holds_down=True),
    )
    assert plan.roof.edges == (RoofEdge(wall="W2", type=RoofType.HIP, from_ft=4.0, to_ft=16.0),)
    assert plan.roof.rise_per_run == pytest.approx(3**-0.5)
    assert (plan.trusses.heel_ft, plan.trusses.start, plan.trusses.hip_origin) == (9.5 / 12, "W3", HipOrigin.CORNER)
    assert (plan.dead.top_for_uplift_psf, plan.dead.roof_live_psf) == (3.0, 16.0)
    assert (plan.wind.speed_mph, plan.wind.enclosure) == (172.5, Enclosure.PARTIALLY_OPEN)
    assert plan.wind.mwfrs_procedure is MwfrsProcedure.DIRECTIONAL
    rise = Topography(feature=Feature.ESCARPMENT, height_ft=60.0, half_length_ft=150.0, distance_ft=-40.0)
    assert (plan.wind.ground_elevation_ft, plan.wind.topography) == (120.0, rise)
    assert (plan.anchors.catalogue, plan.anchors.minimum, plan.anchors.side) == ("mine.csv", "plain", Side.FAR)
