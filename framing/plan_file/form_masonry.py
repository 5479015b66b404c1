"""The plan file's sections on the walls under the roof: openings, bars, filled cells, cross walls, footing."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from framing import plan, plan_masonry
from framing.plan_file.fields import Choice, Length, Number, PlanPoint, Unknown, YesNo
from framing.plan_file.fields_of_the_trade import BarsOf, StirrupsOf
from framing.plan_file.form_keys import Section, Text, given, required


class CrossWall(Section):
    """A wall inside that holds the tie beam sideways and carries no truss."""

    start: Annotated[plan.Point, PlanPoint()] = Field(
        alias="from", description="One end of the line.", examples=['from = ["20\'", "0\'"]']
    )
    end: Annotated[plan.Point, PlanPoint()] = Field(
        alias="to", description="The other end of the line.", examples=['to = ["20\'", "28\'"]']
    )


class Opening(Section):
    """A door or a window."""

    wall: Text = required("The wall, by its name in `check`.", 'wall = "W1"')
    start: Annotated[float, Length("0'", "500'")] = Field(
        alias="from", description="Station where it begins.", examples=['from = "12\'"']
    )
    end: Annotated[float, Length("0'", "500'")] = Field(
        alias="to", description="Station where it ends.", examples=['to = "28\'"']
    )
    sill: Annotated[float, Length("0'", "40'")] = given("0'", "Its lower edge above the floor.")
    head: Annotated[float, Length("0'", "40'")] = given("7'", "Its upper edge above the floor.")
    lintel: Annotated[plan_masonry.LintelKind | None, Unknown(Choice(tuple(plan_masonry.LintelKind)))] = given(
        "", 'What spans it: the tie beam, a precast lintel, or something else; "" is not known.'
    )


class TieBeam(Section):
    """What is inside the tie beam; its size stands in [walls]. "" is not known."""

    top_bars: Annotated[plan_masonry.Bars | None, Unknown(BarsOf())] = given("", 'Bars at the top, such as "2 #5".')
    bottom_bars: Annotated[plan_masonry.Bars | None, Unknown(BarsOf())] = given("", "Bars at the bottom.")
    stirrups: Annotated[plan_masonry.Stirrups | None, Unknown(StirrupsOf())] = given("", 'Such as "#3 at 8 in".')
    f_c_psi: Annotated[float | None, Unknown(Number(1500, 10000, "psi"))] = given("", "Strength of the concrete, psi.")
    cover: Annotated[float | None, Unknown(Length('1/2"', '4"'))] = given("", "Concrete over the stirrups or bars.")
    cell_bar: Annotated[plan_masonry.Bars | None, Unknown(BarsOf())] = given("", "The bar in each filled cell.")
    cell_spacing: Annotated[float | None, Unknown(Length('8"', "40'"))] = given(
        "", "At most, between filled cells; there is one at every wall's end and beside every opening."
    )


class FilledCell(Section):
    """One filled cell of the block; a wall with any has no others."""

    wall: Text = required("The wall, by its name in `check`.", 'wall = "W1"')
    at: Annotated[float, Length("0'", "500'")] = required("Its station.", 'at = "4\'"')


class Footing(Section):
    """The footing under the walls."""

    width: Annotated[float, Length('6"', "10'")] = required("Its width.", 'width = "20 in"')
    depth: Annotated[float, Length('4"', "6'")] = required("Its depth.", 'depth = "10 in"')
    dowelled: Annotated[bool, YesNo()] = given(False, "true: the bar of each filled cell is hooked into it.")
