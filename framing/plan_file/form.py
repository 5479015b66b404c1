"""The form of the plan file: every key, its kind, its bounds and its default, as people write them."""

from __future__ import annotations

import datetime
from typing import Annotated, Any

from pydantic import ConfigDict, Field

from framing import plan, plan_masonry
from framing.plan_file.coverings import STANDARD_COVERING, coverings
from framing.plan_file.fields import (
    Choice,
    Count,
    Day,
    Direction,
    Length,
    Number,
    Pitch,
    PlanPoint,
    Unknown,
    Words,
    YesNo,
)
from framing.plan_file.fields_of_the_trade import BeamSize
from framing.plan_file.form_keys import Gap, Psf, Section, Text, given, required, worked_out
from framing.plan_file.form_masonry import CrossWall, FilledCell, Footing, Opening, TieBeam
from framing.plan_file.form_trades import Covering, Deck, Option, Package, Takeoff

FORMAT = 1


class Project(Section):
    """What the title block says."""

    name: Annotated[str | None, Words()] = worked_out("The job; the plan file's own name unless said.")
    revision: Text = given("A", "The revision of this plan.")
    date: Annotated[datetime.date | None, Day()] = worked_out(
        "The date of this plan, such as 2026-11-25; none unless said."
    )
    north: Annotated[float, Direction()] = given("90 deg", "Direction of north in the plan, counter-clockwise from +x.")
    truss_package: Text = given("", "The truss engineer's revision, shown on the sheets.")


class OutlineDxf(Section):
    """A drawing that holds the outline, and the layer on which it stands alone."""

    file: Text = required("The drawing, a DXF file; its path is relative to the plan.", 'file = "floor.dxf"')
    layer: Text = required("The layer with the outside face of the walls.", 'layer = "A-WALL"')
    unit: Annotated[str | None, Choice(("in", "ft", "mm", "cm", "m"))] = worked_out(
        "The drawing's unit, where the drawing says none or a wrong one."
    )


def _outline_or_drawing(schema: dict[str, Any]) -> None:
    """The JSON Schema's way to say that one of the two gives the outline."""
    schema.pop("required")
    schema["oneOf"] = [{"required": ["outline"]}, {"required": ["outline_dxf"]}]


class Walls(Section):
    """The outside walls and the tie beam on them."""

    model_config = ConfigDict(json_schema_extra=_outline_or_drawing)

    outline: list[Annotated[plan.Point, PlanPoint()]] = required(
        "Corners of the outside face of the block, in order, either way round.",
        'outline = [["0\'", "0\'"], ["40\'", "0\'"], ["40\'", "28\'"], ["0\'", "28\'"]]',
    )
    outline_dxf: OutlineDxf | None = worked_out("Instead of outline: a closed polyline, or lines, of a drawing.")
    straighten: Annotated[float, Length('0"', '2"')] = given(
        '1/2"', "Corners less than this off the line of their neighbours are taken out."
    )
    height: Annotated[float, Length("4'", "40'")] = given("9'-4\"", "Floor to the top of the tie beam.")
    ground_to_floor: Annotated[float, Length("0'", "20'")] = given("1'-4\"", "Ground to floor.")
    thickness: Annotated[float, Length('4"', '24"')] = given('8"', "Thickness of the wall.")
    tie_beam: Annotated[plan.TieBeam, BeamSize()] = given("8x16", "Nominal width and depth of the tie beam, in inches.")
    tops_held_by: Annotated[plan_masonry.TopsHeldBy, Choice(tuple(plan_masonry.TopsHeldBy))] = given(
        "roof", "What holds the tops of the walls sideways: the roof through the anchors, or the tie beam."
    )
    line_within: Annotated[float, Length("0'", "12'")] = given(
        "4'", "Walls nearer than this to being in line hold the deck as one line."
    )
    shortest_stretch: Annotated[float, Length("0'", "12'")] = given(
        "4'", "A shorter stretch of wall takes nothing of the wind along it."
    )


class Support(Section):
    """What carries trusses besides the outside walls."""

    kind: Annotated[plan.SupportKind, Choice(tuple(plan.SupportKind))] = required(
        "A bearing wall, or a beam.", 'kind = "bearing wall"'
    )
    start: Annotated[plan.Point, PlanPoint()] = Field(
        alias="from", description="One end of the line.", examples=['from = ["0\'", "14\'"]']
    )
    end: Annotated[plan.Point, PlanPoint()] = Field(
        alias="to", description="The other end of the line.", examples=['to = ["40\'", "14\'"]']
    )
    holds_down: Annotated[bool, YesNo()] = given(False, "true: tied down; it gets anchor rows and takes uplift.")


class Porch(Section):
    """A floor under the main roof that is open to the wind."""

    corners: list[Annotated[plan.Point, PlanPoint()]] = required(
        "Corners of the open floor, at outside faces, in order; at least one side lies along a porch beam.",
        'corners = [["10\'", "20\'"], ["30\'", "20\'"], ["30\'", "28\'"], ["10\'", "28\'"]]',
    )


class RoofEdge(Section):
    """A wall, or a part of one, whose roof edge is set by hand."""

    wall: Text = required("The wall, by its name in `check`.", 'wall = "W2"')
    type: Annotated[plan.RoofType, Choice(tuple(plan.RoofType))] = required("hip or gable.", 'type = "gable"')
    start: Annotated[float | None, Length("0'", "500'")] = worked_out(
        "Station where the part begins; the wall's left end unless said.", alias="from"
    )
    end: Annotated[float | None, Length("0'", "500'")] = worked_out(
        "Station where the part ends; the wall's right end unless said.", alias="to"
    )


class Roof(Section):
    """The roof."""

    type: Annotated[plan.RoofType, Choice(tuple(plan.RoofType))] = required("hip or gable.", 'type = "hip"')
    pitch: Annotated[float, Pitch()] = required("Rise in 12, or degrees; up to 12:12.", 'pitch = "5:12"')
    overhang: Annotated[float, Length("0'", "8'")] = given("2'", "Eave overhang, in plan, from the outside face.")
    rake_overhang: Annotated[float, Length("0'", "6'")] = given("1'", "Overhang past a gable wall.")
    rake_frame: Annotated[plan.RakeFrame | None, Unknown(Choice(tuple(plan.RakeFrame)))] = given(
        "", 'What carries the rake overhang, "outlookers" or "ladder"; "" is the worse of both.'
    )
    outlooker_backspan: Annotated[float, Length("1'", "8'")] = given("2'", "How far outlookers run back over the roof.")
    gable_truss: Annotated[float | None, Unknown(Length('0"', '24"'))] = given(
        "", 'Outer face of the gable-end truss, in from the block\'s; "" is not known.'
    )
    gable_wall: Annotated[plan.GableWall, Choice(tuple(plan.GableWall))] = given(
        "truss", "What closes a gable: a gable-end truss, or masonry up to a raked beam."
    )
    covering: Annotated[str, Choice(tuple(c.name for c in coverings()))] = given(
        STANDARD_COVERING, "The covering; sets the dead loads that [dead] does not give."
    )
    edge: list[RoofEdge] = given([], "Edges set by hand, a wall or a part of one each.")


class Trusses(Section):
    """How the trusses are laid out."""

    spacing: Annotated[float, Length('3"', "8'")] = given('24"', "On centre.")
    setback: Annotated[float, Length("2'", "20'")] = given("7'", "End wall's outside face to the hip girder's centre.")
    heel: Annotated[float, Length('0"', "4'")] = given('6"', "Bearing to the top of the top chord at the outside face.")
    girder_plies: Annotated[int, Count(1, 4)] = given(2, "Plies of a girder.")
    gable_anchor_spacing: Annotated[float, Length("1'", "10'")] = given(
        "4'", "Between anchors under a gable-end truss."
    )
    start: Text = given("W1", "The wall whose left end, seen from outside, is the origin of the layout.")
    hip_origin: Annotated[plan.HipOrigin, Choice(tuple(plan.HipOrigin))] = given(
        "girder", "What the spacing of a hipped wing is measured from; the small bay falls at the far end."
    )


class Dead(Section):
    """Weights on plan area; the covering's unless given, psf."""

    top_for_uplift: Psf = worked_out("Top chord, the least that will be up there.")
    bottom_for_uplift: Psf = worked_out("Bottom chord, the least that will be up there.")
    top_for_gravity: Psf = worked_out("Top chord, for reactions down.")
    bottom_for_gravity: Psf = worked_out("Bottom chord, for reactions down.")
    roof_live: Psf = worked_out("Roof live load.")
    without_covering: Annotated[bool, YesNo()] = given(
        True, "true: the storm before the covering is on counts too, and the worse governs; false: the finished roof."
    )


class Topography(Section):
    """The rise of ground that the house stands on or near, where all the conditions of the standard hold."""

    feature: Annotated[plan.Feature, Choice(tuple(plan.Feature))] = required(
        "ridge, escarpment or hill.", 'feature = "hill"'
    )
    height: Annotated[float, Length("15'", "3000'")] = required(
        "H, height of the feature over the ground upwind.", 'height = "80\'"'
    )
    half_length: Annotated[float, Length("15'", "9000'")] = required(
        "L_h, upwind distance from the crest to half of the height.", 'half_length = "200\'"'
    )
    distance: Annotated[float, Length("-9000'", "9000'")] = required(
        "x, crest to house: positive downwind, negative upwind.", 'distance = "0\'"'
    )


class Wind(Section):
    """The wind."""

    speed: Annotated[float, Number(85, 250, "mph")] = required("Basic (ultimate) 3-second gust, mph.", "speed = 160")
    exposure: Annotated[plan.Exposure, Choice(tuple(plan.Exposure))] = required("B, C or D.", 'exposure = "C"')
    enclosure: Annotated[plan.Enclosure, Choice(tuple(plan.Enclosure))] = given("enclosed", "How open the building is.")
    openings: Annotated[plan.Openings | None, Unknown(Choice(tuple(plan.Openings)))] = given(
        "", 'Doors and windows against wind-borne debris, "protected" or "not protected"; "" is not known.'
    )
    coast_distance: Annotated[float | None, Unknown(Length("0'", "1000000'"))] = given(
        "", 'From the coast\'s mean high water line, such as "4000 ft"; "" is not known.'
    )
    edition: Annotated[plan.EditionName, Choice(tuple(plan.EditionName))] = given("ASCE 7-22", "Of the wind standard.")
    basis: Annotated[plan.Basis, Choice(tuple(plan.Basis))] = given("worse", "Which wind loads size an anchor.")
    mwfrs_procedure: Annotated[plan.MwfrsProcedure, Choice(tuple(plan.MwfrsProcedure))] = given(
        "envelope", "Which procedure gives the main-frame loads."
    )
    ground_elevation: Annotated[float, Length("-300'", "9000'")] = given(
        "0'", "Ground above sea level; 0' is permitted everywhere and on the safe side."
    )
    topography: Topography | None = worked_out(
        "An isolated ridge, escarpment or hill, twice as high as others within 2 miles, the house in its upper half or "
        "near its crest; none unless said."
    )


class Anchors(Section):
    """Which anchors may be used."""

    catalogue: Text = given("", "Your own catalogue, a CSV file beside the plan; the invented sample unless said.")
    minimum: Text = given("", 'House minimum: the id of the lightest anchor ever used, or pounds such as "900 lb".')
    side: Annotated[plan.Side, Choice((plan.Side.START, plan.Side.FAR))] = given(
        "start", "Strap on the side of the truss toward the tape's start, or the far side."
    )
    corner_strap: Annotated[float, Length('0"', '12"')] = given(
        '2"', "A corner jack's strap, inboard of the crossing of the walls' centre lines along the jack."
    )
    gap_good: Gap = given('1/8"', "An anchor as set may stand this far from its truss and is good.")
    gap_filler: Gap = given('1/2"', "Up to this gap the truss gets a filler.")
    gap_ask: Gap = given('1 1/2"', "Over this gap the anchor is out of reach: the engineer is asked.")
    face_band: Gap = given('1/2"', "An anchor as set may stand this far off in from the wall's face.")
    along_band: Annotated[float, Length('0"', "4'")] = given(
        '6"', "An anchor as set may stand this far off along a truss that runs along its wall."
    )


class PlanForm(Section):
    """The plan file."""

    format: Annotated[int, Count(FORMAT, FORMAT)] = given(FORMAT, "The format of this file.")
    project: Project = given({}, "What the title block says.")
    walls: Walls = required("The outside walls.", "[walls]")
    support: list[Support] = given([], "What carries trusses besides the outside walls.")
    porch: list[Porch] = given([], "Floors under the main roof that are open to the wind.")
    cross_wall: list[CrossWall] = given([], "Walls inside that hold the tie beam sideways and carry no truss.")
    opening: list[Opening] = given([], "Doors and windows.")
    tie_beam: TieBeam = given({}, "What is inside the tie beam.")
    filled_cell: list[FilledCell] = given([], "Filled cells one by one.")
    footing: Footing | None = worked_out("The footing; none unless said.")
    roof: Roof = required("The roof.", "[roof]")
    trusses: Trusses = given({}, "How the trusses are laid out.")
    dead: Dead = given({}, "Weights on plan area, psf.")
    wind: Wind = required("The wind.", "[wind]")
    anchors: Anchors = given({}, "Which anchors may be used.")
    package: Package = given({}, "The truss engineer's reactions.")
    deck: Deck = given({}, "The roof deck and its nails.")
    covering: Covering = given({}, "The covering.")
    takeoff: Takeoff = given({}, "Prices and waste.")
    option: list[Option] = given([], "Variants of the house.")
