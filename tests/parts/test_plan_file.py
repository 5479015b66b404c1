"""The plan file: what it may say, what it means when it says nothing, and the sentence for each mistake."""

import json
from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest

from framing.anchors.catalogue_file import catalogue_of
from framing.plan import (
    Basis,
    EditionName,
    Enclosure,
    Exposure,
    Feature,
    HipOrigin,
    MwfrsProcedure,
    Porch,
    RoofEdge,
    RoofType,
    Side,
    SupportKind,
    Topography,
)
from framing.plan_file import plan_from_text, read_plan
from framing.plan_file.schema import plan_schema
from framing.plan_masonry import (
    CrossWall,
    FilledCell,
    Footing,
)
from framing.plan_trades import Option
from parts.plans import SHORT, with_


def test_the_five_needed_keys_make_a_plan_with_the_documented_defaults() -> None:
    """The defaults of the plan file's published description, one by one."""
    plan = plan_from_text(SHORT, "house.toml")
    assert plan.outline_ft == ((0.0, 0.0), (560 / 12, 0.0), (560 / 12, 28.0), (0.0, 28.0))
    assert (plan.project.name, plan.project.revision, plan.project.date) == ("house", "A", None)
    assert (plan.project.north_deg, plan.project.truss_package) == (90.0, "")
    assert (plan.wall_height_ft, plan.ground_to_floor_ft, plan.wall_thickness_ft) == (112 / 12, 16 / 12, 8 / 12)
    assert plan.tie_beam.name == "8x16"
    assert (plan.roof.type, plan.roof.rise_per_run, plan.roof.covering) == (RoofType.HIP, 5 / 12, "concrete tile")
    assert (plan.roof.overhang_ft, plan.roof.rake_overhang_ft, plan.roof.outlooker_backspan_ft) == (2.0, 1.0, 2.0)
    assert (plan.trusses.spacing_ft, plan.trusses.setback_ft, plan.trusses.heel_ft) == (2.0, 7.0, 0.5)
    assert (plan.trusses.girder_plies, plan.trusses.gable_anchor_spacing_ft, plan.trusses.start) == (2, 4.0, "W1")
    assert plan.trusses.hip_origin is HipOrigin.GIRDER
    assert (plan.dead.top_for_uplift_psf, plan.dead.bottom_for_uplift_psf) == (10.0, 5.0)
    assert (plan.dead.top_for_gravity_psf, plan.dead.bottom_for_gravity_psf, plan.dead.roof_live_psf) == (15, 10, 20)
    assert (plan.wind.speed_mph, plan.wind.exposure, plan.wind.enclosure) == (160.0, Exposure.C, Enclosure.ENCLOSED)
    assert (plan.wind.edition, plan.wind.basis) == (EditionName.ASCE_7_22, Basis.WORSE)
    assert plan.wind.mwfrs_procedure is MwfrsProcedure.ENVELOPE
    assert (plan.anchors.catalogue, plan.anchors.minimum, plan.anchors.side) == ("", "", Side.START)


def test_another_covering_weighs_its_slope_weight_over_the_cosine_and_half_a_truss() -> None:
    """Worked by hand: shingles 2 + deck 1.7 psf on a 3-4-5 slope (9:12), cosine 0.8: 4.625 + 0.75 = 5.375."""
    text = with_("roof", 'covering = "asphalt shingles"').replace("5:12", "9:12")
    dead = plan_from_text(text, "house.toml").dead
    assert dead.top_for_uplift_psf == pytest.approx(5.375, abs=0.005)
    assert dead.top_for_gravity_psf == pytest.approx(5 / 0.8 + 1.5, abs=0.005)
    assert (dead.bottom_for_uplift_psf, dead.bottom_for_gravity_psf, dead.roof_live_psf) == (5.0, 10.0, 20.0)


def test_before_the_covering_its_deck_and_half_a_truss_are_up_there_and_never_more_than_the_finished_roof() -> None:
    """By hand: under shingles 1.7 psf on a 3-4-5 slope, 2.125 on plan, and 0.75: 2.875; under tile 1.8 at 5:12, 1.95
    on plan, and 0.75: 2.70, also where the finished roof is typed; a typed 2 psf is all there ever is.
    """
    shingles = with_("roof", 'covering = "asphalt shingles"').replace("5:12", "9:12")
    texts = (shingles, SHORT, with_("dead", "top_for_uplift = 14"), with_("dead", "top_for_uplift = 2"))
    dead = [plan_from_text(text, "house.toml").dead for text in texts]
    assert [d.top_before_covering_psf for d in dead] == pytest.approx([2.875, 2.70, 2.70, 2.0], abs=0.006)
    assert [d.without_covering for d in dead] == [True] * 4
    assert not plan_from_text(with_("dead", "without_covering = false"), "house.toml").dead.without_covering


def test_a_weight_that_is_typed_replaces_the_covering_s() -> None:
    text = with_("roof", 'covering = "asphalt shingles"') + "[dead]\ntop_for_gravity = 9\n"
    plan = plan_from_text(text, "house.toml")
    assert plan.dead.top_for_gravity_psf == 9.0
    assert "dead.top_for_uplift = 4.76" in plan.assumed
    assert not any(line.startswith("dead.top_for_gravity") for line in plan.assumed)


def test_a_support_s_and_an_edge_s_left_out_keys_are_listed_too() -> None:
    text = SHORT + '[[support]]\nkind = "beam"\nfrom = [0, 14]\nto = [20, 14]\n[[roof.edge]]\nwall="W2"\ntype="gable"\n'
    plan = plan_from_text(text, "house.toml")
    assert "support[1].holds_down = false" in plan.assumed
    assert plan.roof.edges == (RoofEdge(wall="W2", type=RoofType.GABLE, from_ft=None, to_ft=None),)


def test_a_jog_of_a_few_inches_and_a_corner_on_a_straight_wall_are_plans() -> None:
    outline = "outline = [[0,0], [20,0], [20,'3\"'], [40,'3\"'], [40,15], [40,28], [0,28]]"
    text = SHORT.replace(SHORT.splitlines()[2], outline)
    assert len(plan_from_text(text, "house.toml").outline_ft) == 7


def test_an_older_format_is_read_and_said() -> None:
    plan = plan_from_text("format = 0\n" + SHORT, "house.toml")
    assert plan.assumed[0] == "format = 1 (the file says 0, which is older)"


def test_the_starter_plan_shows_every_key_with_its_default() -> None:
    """Every key of the schema stands in the starter, and reads as the plan would without it."""
    text = (files("export.commands") / "starter.toml").read_text(encoding="utf-8")
    plan = plan_from_text(text, "starter.toml")
    assert plan.assumed == ()
    bare = plan_from_text(SHORT, "starter.toml")
    bare = replace(bare, wind=replace(bare.wind, enclosure_typed=True))
    same = ("tie_beam", "roof", "trusses", "dead", "wind", "anchors", "masonry", "trades", "outline_ft")
    for name in (*same, "wall_height_ft", "straighten_ft"):
        assert getattr(plan, name) == getattr(bare, name)
    for name, section in json.loads(plan_schema())["$defs"].items():
        for key in set(section["properties"]) - {"edge", "topography"}:
            assert f"{key} = " in text, f"{name} {key}"
    assert "[[roof.edge]]" in text
    assert "[wind.topography]" in text


def test_the_starter_s_commented_sections_are_right_once_uncommented() -> None:
    lines = (files("export.commands") / "starter.toml").read_text(encoding="utf-8").splitlines()
    optional = ("[[", "kind =", "from =", "to =", "holds_down =", "wall =", "type =", "[wind.")
    optional += ("feature =", "height =", "half_length =", "distance =", "corners =", "at =", "sill =", "head =")
    optional += ("lintel =", "[footing", "width =", "depth =", "dowelled =", "name =", "set =")
    text = "\n".join(line[2:] if line.startswith("# ") and line[2:].startswith(optional) else line for line in lines)
    plan = plan_from_text(text, "starter.toml")
    assert [s.kind for s in plan.supports] == [SupportKind.BEARING_WALL, SupportKind.BEAM]
    assert plan.porches == (Porch(corners_ft=((10.0, 20.0), (30.0, 20.0), (30.0, 28.0), (10.0, 28.0))),)
    assert plan.roof.edges == (RoofEdge(wall="W2", type=RoofType.GABLE, from_ft=0.0, to_ft=28.0),)
    rise = Topography(feature=Feature.HILL, height_ft=80.0, half_length_ft=200.0, distance_ft=0.0)
    assert plan.wind.topography == rise
    assert [(o.wall, o.from_ft, o.to_ft, o.lintel) for o in plan.masonry.openings] == [("W1", 12.0, 28.0, "tie beam")]
    assert plan.masonry.filled_cells == (FilledCell(wall="W1", at_ft=4.0),)
    assert plan.masonry.cross_walls == (CrossWall(start_ft=(20.0, 0.0), end_ft=(20.0, 28.0)),)
    assert plan.masonry.footing == Footing(width_ft=20 / 12, depth_ft=10 / 12, dowelled=False)
    assert plan.trades.options == (Option(name="170 mph", set=(("wind.speed", 170),)),)


def test_the_shipped_schema_is_the_form_s() -> None:
    """Renew it with: python -P -m framing.plan_file.schema > framing/plan_file/plan.schema.json."""
    shipped = (files("framing.plan_file") / "plan.schema.json").read_text(encoding="utf-8")
    assert json.loads(shipped) == json.loads(plan_schema())


def test_the_schema_knows_every_key_and_default_of_the_reader() -> None:
    schema = json.loads(plan_schema())
    assert schema["required"] == ["walls", "roof", "wind"]
    trusses = schema["$defs"]["Trusses"]["properties"]
    assert trusses["spacing"]["default"] == '24"'
    assert trusses["hip_origin"]["enum"] == ["girder", "corner"]
    assert set(schema["$defs"]["Support"]["properties"]) == {"kind", "from", "to", "holds_down"}


@pytest.mark.parametrize("name", ["cottage", "hip_house", "garage_wing"])
def test_each_sample_plan_says_that_it_is_invented_and_reads(name: str) -> None:
    path = Path(__file__).parents[2] / "sample_plans" / f"{name}.toml"
    assert "invented" in path.read_text(encoding="utf-8").splitlines()[0]
    plan = read_plan(path)
    catalogue = catalogue_of(plan, path.parent)
    assert catalogue.invented
    assert catalogue.name == f"{name}_anchors.csv"


def test_a_file_saved_with_a_byte_order_mark_and_windows_line_ends_reads_the_same(tmp_path: Path) -> None:
    path = tmp_path / "house.toml"
    path.write_bytes(b"\xef\xbb\xbf" + SHORT.replace("\n", "\r\n").encode())
    assert read_plan(path) == plan_from_text(SHORT, "house.toml")
