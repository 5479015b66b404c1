"""The covering and the water barrier by hand."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.deck.approvals import Approvals, read_approvals
from framing.deck.covering import Kind, shingle_sentence
from framing.deck.water import penetrations, systems
from framing.plan import EditionName, RoofType
from framing.run import Run, make_run
from invariants.houses import plan_of

BOX = [(0, 0), (46, 0), (46, 28), (0, 28)]
TILE = """item,value,approval
tile_length_ft,1.42,invented 1
tile_width_ft,1.0,invented 1
tile_lap_in,3,invented 1
tile_nose_in,1.5,invented 1
tile_fasteners,2,invented 1
field_moment_ft_lb,20,invented 2
tile_lambda_ft3,0.205,invented 3
tile_restoring_ft_lb,6.86,invented 3
underlayment_roll_ft2,216,invented 4
"""
METAL = "item,value\nmetal_cover_in,16\nclip_spacing_in,18\nclip_fasteners,2\nclip_lb,150\nfastener_lb,60\n"


def file(folder: Path, text: str) -> Approvals:
    path = folder / "approvals.csv"
    path.write_text(text)
    return read_approvals(path, 160.0)


def house(approvals: Approvals, covering: str = "concrete tile", edition: EditionName = EditionName.ASCE_7_22) -> Run:
    plan = plan_of(BOX, type=RoofType.HIP)
    plan = replace(plan, roof=replace(plan.roof, covering=covering), wind=replace(plan.wind, edition=edition))
    return make_run(plan, shipped_catalogue(), approvals)


@pytest.mark.parametrize("edition", list(EditionName))
def test_the_moment_on_a_tile_takes_q_as_the_edition_defines_it_times_0_6(tmp_path: Path, edition: EditionName) -> None:
    """M_a = 0.6 q x 0.2 x 1.0 x 1.42 x 0.76 x 1.42 x (1 - GC_p); q holds K_d = 0.85 in the edition of 2016 alone."""
    run = house(file(tmp_path, TILE), edition=edition)
    found = run.cover.covering
    q_K_d = run.cover.deck.q_K_d_psf
    assert found.K_d_in_q == (edition is EditionName.ASCE_7_16)
    assert found.q_h_psf == pytest.approx(0.6 * (q_K_d if found.K_d_in_q else q_K_d / 0.85))
    zones = {z.name: z for z in run.cover.deck.zones}
    moments = {d.where: d for d in found.demands if d.what == "moment on a tile"}
    for where in ("zone 1", "zone 3"):
        by_hand = found.q_h_psf * 0.2 * 1.42 * 0.76 * 1.42 * (1.0 - zones[where].outside_factor)
        assert moments[where].value == pytest.approx(by_hand)
    assert (moments["zone 1"].holds, moments["zone 1"].approval) == (20.0, "invented 2")
    assert moments["first course at the eave"].holds is None
    assert {f.partition(":")[0] for f in run.flags} >= {"Covering, zone 3"}


def test_the_form_of_the_high_velocity_zone_takes_lambda_and_M_g_from_the_file(tmp_path: Path) -> None:
    run = house(file(tmp_path, TILE))
    suction = {z.name: z.suction_psf for z in run.cover.deck.zones}
    for d in run.cover.covering.demands:
        if d.what.startswith("moment by the high-velocity"):
            assert d.value == pytest.approx(suction[d.where] * 0.205 - 6.86)


def test_the_checklist_of_a_tile_says_what_holds_what_does_not_and_what_nobody_said(tmp_path: Path) -> None:
    found = {limit.words: limit.holds for limit in house(file(tmp_path, TILE)).cover.covering.limits}
    assert len(found) == 8
    assert found["length 1.0 to 1.75 ft"] is True
    assert found["nose no thicker than 1.3 in."] is False
    assert found["at least two thirds of the tile free of mortar or adhesive"] is None


def test_a_clip_takes_the_pressure_on_its_cover_and_spacing(tmp_path: Path) -> None:
    """16 x 18 in. is 2 sq ft."""
    run = house(file(tmp_path, METAL), "metal panels")
    suction = {z.name: z.suction_psf for z in run.cover.deck.zones}
    for d in run.cover.covering.demands:
        each = 2.0 if d.what == "pull on a clip" else 1.0
        assert d.value == pytest.approx(each * suction[d.where])


def test_what_the_file_does_not_say_is_a_demand_without_a_resistance(tmp_path: Path) -> None:
    run = house(file(tmp_path, "item,value\ntile_length_ft,1.42\ntile_width_ft,1\n"))
    assert all(d.holds is None and d.enough is None for d in run.cover.covering.demands)
    assert not [f for f in run.flags if f.startswith("Covering")]


@pytest.mark.parametrize(
    ("speed_mph", "letter"), [(116.0, "class D "), (117.0, "class G "), (155.0, "class G "), (194.0, "class H ")]
)
def test_the_class_of_shingles_goes_by_the_speed(speed_mph: float, letter: str) -> None:
    """ASTM D7158: D 116, G 155, H 194 mph, ultimate (solid, two trade associations)."""
    assert letter in shingle_sentence(speed_mph, "")
    assert "no class" in shingle_sentence(195.0, "")


def test_two_layers_take_36_in_sheets_that_show_17_and_a_cap_nail_each_foot_and_each_half_foot_of_lap(
    tmp_path: Path,
) -> None:
    """1,700 sq ft: 1,700 x 36/17 x (1 + 0.5/72) = 3,625 sq ft of sheet, 17 rolls of 216; 1,700 nails over the roof and
    1,700 x 12/17 = 1,200 ft of lap at 2 a foot: 4,100.
    """
    two = systems(Kind.TILE, 1700.0, 600.0, file(tmp_path, TILE))[1]
    assert two.material_ft2 == pytest.approx(3625.0)
    assert (two.rolls, two.cap_nails, two.joint_strips_ft) == (17, 4100, 0.0)


def test_a_membrane_that_sticks_by_itself_has_no_cap_nails_and_strips_lie_on_every_joint(tmp_path: Path) -> None:
    strips, _, sticks = systems(Kind.TILE, 1700.0, 600.0, file(tmp_path, "item,value\n"))
    assert (sticks.cap_nails, sticks.rolls) == (0, None)
    assert strips.joint_strips_ft == 600.0


def test_holes_through_the_barrier_are_counted_for_tiles_fastened_and_set_in_adhesive(tmp_path: Path) -> None:
    """Each tile shows 1.0 x (1.42 - 0.25) = 1.17 sq ft: 1,170 sq ft are 1,000 tiles; 160 ft of eave are 160 tiles; 117
    ft of ridge and hip are 100; two fasteners each: 2,000 + 200 fastened, 320 + 200 with the field in adhesive.
    """
    fastened, adhesive = penetrations(Kind.TILE, 1170.0, 160.0, 117.0, file(tmp_path, TILE))
    assert (fastened.count, adhesive.count) == (2200, 520)


def test_where_the_file_says_too_little_there_is_no_count(tmp_path: Path) -> None:
    for kind in Kind:
        assert all(p.count is None for p in penetrations(kind, 1170.0, 160.0, 117.0, file(tmp_path, "item,value\n")))
