"""What reads well but cannot be framed, and what is framed but flagged: each sentence word for word."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace

import numpy as np
import pytest
import shapely
from shapely.geometry import Point, Polygon

from framing.anchors.catalogue_file import shipped_catalogue
from framing.errors import LayoutError, StraplineError
from framing.plan import GableWall, RoofEdge, RoofType
from framing.roof.skeleton import skeleton_faces
from framing.run import make_run
from invariants.houses import plan_of

BOX = [(0, 0), (40, 0), (40, 28), (0, 28)]
ELL = [(0, 0), (36, 0), (36, -20), (60, -20), (60, 30), (0, 30)]


def sentence(outline: list[tuple[float, float]], **changed: object) -> str:
    with pytest.raises(StraplineError) as told:
        make_run(plan_of(outline, **changed), shipped_catalogue())
    return str(told.value)


def test_a_corner_too_sharp_to_frame_is_named() -> None:
    assert sentence([(0, 0), (40, 0), (0, 20), (0, 28), (-20, 28), (-20, 0)]) == (
        "walls outline corner 2: W5 and W1 meet at 26.6 degrees; a corner of at least 30 degrees can be framed; cut "
        "its tip off by a wall of 2'-0\" or more"
    )


def test_a_gable_on_an_angled_wall_is_refused() -> None:
    clipped = [(0, 0), (36, 0), (40, 4), (40, 28), (0, 28)]
    edge = RoofEdge(wall="W2", type=RoofType.GABLE, from_ft=None, to_ft=None)
    assert sentence(clipped, edges=(edge,)) == (
        "roof.edge wall W2: in a plan with angled walls a gable takes a whole wall between two square outside corners; "
        "mark such a wall or leave the mark out"
    )


RECESSED = [(0, 0), (36, 0), (40, 4), (40, 28), (23, 28), (23, 20), (20, 20), (20, 28), (0, 28)]
LEFT_END = RoofEdge(wall="W9", type=RoofType.GABLE, from_ft=None, to_ft=None)


def test_eaves_that_would_meet_over_a_recess_beside_an_angled_wall_are_shortened_there_and_said() -> None:
    """Between two eaves of 17 in. 2 in. of the recess of 36 in. stay open, and nothing between two of 18 in."""
    run = make_run(plan_of(RECESSED, edges=(LEFT_END,)), shipped_catalogue())
    assert run.roof.notes == (
        "Eaves of 2'-0\" would meet or run past one another: they are made 1'-5\" along W5, W6 and W7.",
    )
    eave = Polygon(run.roof.eave_ft)
    assert eave.distance(Point(21.5, 25.0)) == pytest.approx(1 / 12)
    assert eave.bounds == pytest.approx((-1.0, -2.0, 42.0, 30.0))
    for f, g in itertools.combinations(run.roof.faces, 2):
        under = np.subtract(f.plane, g.plane)
        for x, y in shapely.get_coordinates(f.in_frame.exterior.intersection(g.in_frame.exterior, grid_size=1e-6)):
            assert abs(under @ (x, y, 1.0)) < 1e-4, "two faces part where they meet"


def test_an_eave_that_would_run_past_the_rake_beside_a_step_is_shortened_and_said() -> None:
    """The gable W2 has no rake overhang and stands out by 12 in. before W4, whose eave ends 1 in. before it."""
    stepped = [(0, 0), (40, 0), (40, 14), (39, 14), (39, 28), (4, 28), (0, 24)]
    edge = RoofEdge(wall="W2", type=RoofType.GABLE, from_ft=None, to_ft=None)
    run = make_run(plan_of(stepped, edges=(edge,), rake_overhang_ft=0.0), shipped_catalogue())
    assert run.roof.notes == ("Eaves of 2'-0\" would meet or run past one another: they are made 0'-11\" along W4.",)
    assert max(x for x, y in run.roof.eave_ft if y > 16.1) == pytest.approx(39.0 + 11 / 12)


def test_eaves_are_shortened_only_where_they_would_meet_others() -> None:
    """Under a gable, W10, without a rake overhang two steps of 14 and 4 in. go back from W1: an eave of 13 in. along
    them stays short of the gable's wall, one of 14 in. runs past it. The six walls of 4 to 25 ft keep 2 ft 6 in.
    """
    stepped = [
        (23, -1.5),
        (23, -1 / 3),
        (23.5, -1 / 3),
        (23.5, 0),
        (26, 0),
        (26, 22),
        (21, 27),
        (4, 27),
        (0, 23),
        (0, -1.5),
    ]
    run = make_run(plan_of(stepped, type=RoofType.GABLE, overhang_ft=2.5, rake_overhang_ft=0.0), shipped_catalogue())
    assert run.roof.notes == (
        "Eaves of 2'-6\" would meet or run past one another: they are made 1'-1\" along W2, W3 and W4.",
    )
    assert Polygon(run.roof.eave_ft).bounds == pytest.approx((-2.5, -1.5, 28.5, 29.5))


def test_an_outline_whose_roof_is_not_found_names_its_walls() -> None:
    """A ring the wrong way round, which no outline is: no plan is known for which the roof is not found."""
    clockwise = ((0.0, 0.0), (0.0, 20.0), (30.0, 20.0))
    with pytest.raises(LayoutError) as told:
        skeleton_faces(clockwise, (1.0,) * 3, ("W1", "W2", "W3"))
    assert str(told.value) == (
        "roof: the planes over W1, W2, W3 could not be found; move a corner of one of them that is at an angle by "
        "1 in., or draw that part square to the house, and please report this plan"
    )


def test_an_angled_wall_whose_legs_run_into_another_wall_is_framed_by_those_of_its_halves() -> None:
    """The legs of W8 would meet at (60, 50), behind W4; those of its halves before it. Trusses at 2 ft stand along it
    over its 40 ft.
    """
    hook = [(80, 60), (50, 60), (50, 45), (70, 45), (70, 10)]
    run = make_run(plan_of([(0, 0), (80, 0), *hook, (60, 10), (20, 50), (0, 50)]), shipped_catalogue())
    assert sum(m.bearing.wall == "W8" for m in run.schedule.marks) == 40 / 2


SLIT = [(5.75, 6.25), (7.75, 8.25), (8.25, 7.75), (6.25, 5.75)]


def test_an_angled_wall_that_cannot_be_squared_off_is_named() -> None:
    assert sentence([(12, 0), (60, 0), (60, 35), (0, 35), (0, 12), *SLIT]) == (
        "walls outline: W6, 2.8 ft long and at an angle to the rest, cannot be squared off without running into W8; "
        "draw W6 square to the house, or draw the part between it and W8 closed"
    )


def test_a_house_too_tall_for_the_procedures_is_refused() -> None:
    assert sentence([(0, 0), (240, 0), (240, 240), (0, 240)], rise_per_run=1.0) == (
        "roof: the mean roof height comes to 71.2 ft, but the wind procedures here end at 60 ft; "
        "make the walls lower, the pitch flatter or the wings narrower"
    )


def test_a_gable_mark_that_changes_nothing_names_its_wall() -> None:
    edge = RoofEdge(wall="W1", type=RoofType.GABLE, from_ft=4.0, to_ft=20.0)
    assert sentence(BOX, edges=(edge,)) == (
        "roof.edge wall W1: a gable there changes nothing, because no wing ends wholly on it; "
        "mark the whole end of a wing or leave the mark out"
    )


def test_gables_on_neighbouring_sides_leave_no_ridge() -> None:
    edges = tuple(RoofEdge(wall=w, type=RoofType.GABLE, from_ft=None, to_ft=None) for w in ("W1", "W2"))
    assert sentence(BOX, edges=edges) == (
        "roof edge: gables on neighbouring sides of the 40.0 x 28.0 ft wing 1, W1 and W2, leave no ridge; mark one of "
        "them, or two that face one another"
    )


def test_a_house_minimum_that_the_catalogue_lacks_names_the_nearest() -> None:
    plan = plan_of(BOX)
    told = sentence(BOX, anchors=replace(plan.anchors, minimum="broadd"))
    assert told.startswith('anchors minimum: "broadd" is not in sample_anchors.csv; the nearest id there is "broad"')


def test_a_girder_over_40_ft_is_flagged_with_the_place_that_halves_it() -> None:
    wide = [(0, 0), (20, 0), (20, -30), (66, -30), (66, 0), (90, 0), (90, 50), (0, 50)]
    run = make_run(plan_of(wide), shipped_catalogue())
    assert len(run.framing.flags) == 1
    assert run.framing.flags[0].startswith(
        "girder 1 spans 45.3 ft, over 40 ft: a post or bearing wall near (43.0, 0.3) ft"
    )


def notes_of(outline: list[tuple[float, float]]) -> tuple[str, ...]:
    run = make_run(plan_of(outline), shipped_catalogue())
    assert run.framing.flags == ()
    return run.framing.notes


def test_a_wing_under_6_ft_is_named_with_its_place_and_its_cure() -> None:
    notes = notes_of([(0, 0), (18, 0), (18, -4), (23, -4), (23, 0), (40, 0), (40, 28), (0, 28)])
    assert notes[-1] == (
        "wing 2 is 5.0 ft wide near (20.5, -2.0) ft, under 6 ft, and gets no hip of its own: its trusses run across "
        "it; a beam across its mouth, or framing by hand, carries it as well."
    )


def test_trusses_under_3_ft_are_named_with_their_places() -> None:
    notes = notes_of([(0, 0), (18, 0), (18, -4), (20.5, -4), (20.5, 0), (40, 0), (40, 28), (0, 28)])
    assert [n for n in notes if n.startswith("Shorter")] == [
        "Shorter than 3 ft, better framed by hand or left to the neighbours: common 7 near (19.2, -3.7) ft, "
        "common 8 near (19.2, -1.7) ft."
    ]


def test_three_girders_in_a_chain_are_named_with_the_post_that_breaks_it() -> None:
    stairs = [(0, 0), (30, 0), (30, 9), (45, 9), (45, 20), (56, 20), (56, 50), (40, 50), (40, 62), (18, 62), (18, 38)]
    notes = notes_of([*stairs, (0, 38)])
    assert notes[-1] == (
        "3 girders stand on one another in a chain (girder 3 on girder 2 on girder 1): the truss engineer should see "
        "the chain whole; a post or bearing wall near (44.7, 37.7) ft breaks it."
    )


def test_a_bay_under_3_in_is_merged_and_said_with_its_place_and_the_walls_by_it() -> None:
    """Setback 7 ft, trusses at 2 ft from the first hip girder: of the run of 26.2 ft to the second, 0.2 ft is left."""
    run = make_run(plan_of([(0, 0), (40.2, 0), (40.2, 28), (0, 28)]), shipped_catalogue())
    assert [n for n in run.framing.notes if "3 in." in n] == [
        "A bay under 3 in. is merged with its neighbour near (33.0, 14.0) ft, by W1 and W2."
    ]


def test_jacks_shorter_than_12_in_are_not_built_and_said_with_their_places() -> None:
    """Walls 12 in. thick at a spacing of 16 in.: the first side jacks would run 16 - 6 = 10 in. from the bearing."""
    run = make_run(plan_of(BOX, wall_thickness_ft=1.0, spacing_ft=4.0 / 3.0, overhang_ft=1.0), shipped_catalogue())
    [note] = [n for n in run.framing.notes if "shorter than 12 in." in n]
    assert note.startswith("Jacks shorter than 12 in., or within 3 in. of a girder, are not built near (")
    assert note.endswith(" ft: what lies beside them takes their roof.")
    places = {tuple(map(float, p.strip("()").split(", "))) for p in re.findall(r"\([\d., ]+\)", note)}
    along_ends, along_sides = itertools.product((0.5, 39.5), (1.3, 26.7)), itertools.product((1.3, 38.7), (0.5, 27.5))
    assert places == {*along_ends, *along_sides}
    assert min(m.span_ft for m in run.framing.members) >= 1.0


def test_a_masonry_gable_is_refused_with_its_wall_and_what_would_be_right_and_a_hip_never_asks() -> None:
    masonry = {"gable_wall": GableWall.MASONRY}
    make_run(plan_of(BOX, **masonry), shipped_catalogue())
    with pytest.raises(StraplineError) as caught:
        make_run(plan_of(BOX, type=RoofType.GABLE, **masonry), shipped_catalogue())
    assert str(caught.value) == (
        'roof gable_wall: block up to a raked beam is not framed on W4; write "truss" for a gable-end truss on the tie '
        "beam, or make W4 a hip by [[roof.edge]], and leave raked beam and nailer to the engineer"
    )
