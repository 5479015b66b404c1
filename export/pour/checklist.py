"""What is looked at before, during and after the pour and at framing, each line with where it comes from."""

from __future__ import annotations

from typing import NamedTuple

PRACTICE = "common practice, no source"
FORM = "Florida form OIR-B1-1802, read second-hand"
LISTS = "Florida city inspection lists"
TEK = "masonry note TEK 5-11"
TRUSS = "TPI 1-2007, 2.3.4.2, read second-hand"


class Line(NamedTuple):
    """One thing to look at, and its source or that it has none."""

    words: str
    source: str


class Stage(NamedTuple):
    """When, and what then."""

    name: str
    lines: tuple[Line, ...]


STAGES = (
    Stage(
        "Before the pour",
        (
            Line(
                "The truss package's revision is the one on this sheet; the sheets of an earlier one are gone.",
                PRACTICE,
            ),
            Line("The truss placement diagram has been reviewed and handed on to the building designer.", TRUSS),
            Line("Boxes counted against the table, one length and type in each bag, a bag at its wall.", PRACTICE),
            Line(
                "START painted at each wall's left end, seen from outside; every mark read without moving the tape.",
                PRACTICE,
            ),
            Line("Marks checked from the far end by somebody else; girders and pairs looked at twice.", PRACTICE),
            Line(
                "The inspector has seen the tie beam with its steel tied, before concrete; straps are not there yet.",
                LISTS,
            ),
            Line("A vertical bar in a filled cell at corners, wall ends and beside openings over 6 ft.", TEK),
            Line("No mark over a lintel or a step of the beam that is not on the plan as one.", PRACTICE),
            Line("Every mark flagged NO ANCHOR has the engineer's written answer.", PRACTICE),
            Line("Photographs of each wall with its marks and steel.", PRACTICE),
        ),
    ),
    Stage(
        "During the pour",
        (
            Line("One calls from the strip, one sets; the box is ticked when the strap stands, not before.", PRACTICE),
            Line(
                "Each strap pushed in before the concrete sets, to its embed line, concrete worked close round it.",
                PRACTICE,
            ),
            Line("The flat face on the side that the arrow shows; pairs one on each face.", PRACTICE),
            Line("Hip corners and girders first called, last left.", PRACTICE),
        ),
    ),
    Stage(
        "After the pour, before anybody leaves",
        (
            Line(
                "Straps counted on the wall against the count at each strip's end; what is left in the bag is nought.",
                PRACTICE,
            ),
            Line(
                "Each strap measured: off its mark, side, holes above the concrete; the list given out from the phone.",
                PRACTICE,
            ),
            Line("The list run through strapline asbuilt; what is missing or wrong is asked the same day.", PRACTICE),
            Line("Nothing is bent, cut or drilled once the concrete is hard.", PRACTICE),
        ),
    ),
    Stage(
        "At framing",
        (
            Line("The inspector sees the uplift connectors now, trusses in place.", LISTS),
            Line("At least three nails in the truss, and the number that the anchor's approval asks.", FORM),
            Line("Gap from strap to truss or its blocking under 1/2 in.", FORM),
            Line("Blocked off the truss by no more than 1-1/2 in.", FORM),
            Line("No strap severely corroded.", FORM),
            Line(
                "Fillers, second straps and retrofit anchors as in the engineer's letter, the letter on site.", PRACTICE
            ),
        ),
    ),
)
HOLDERS = (
    ("crew lead", "this set, the bag of each wall"),
    ("caller", "the strips, a pen; the phone page wall-marks.html"),
    ("setter", "the wall's bag, the embed gauge"),
    ("second tape", "the far-end figures of the strips"),
    ("builder", "anchor plan, engineer's telephone number, camera"),
    ("inspector", "anchor plan and report of the same fingerprint"),
)
