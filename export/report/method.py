"""How a reaction comes about, step by step, with the clause for every step."""

from __future__ import annotations

from export.report.markup import MINUS, bullets, paragraph, section
from framing.asce7.chapter2 import ASD_UPLIFT
from framing.asce7.chapter27 import OVERHANG_UNDERSIDE_C_P
from framing.asce7.chapter28 import OVERHANG_UNDERSIDE_GC_P
from framing.plan import MwfrsProcedure, RakeFrame
from framing.run import Run

MAIN_FRAME = {
    MwfrsProcedure.ENVELOPE: (
        f"p = q K_d [(GC_pf) {MINUS} (GC_pi)] [eq. 28.3-1, envelope procedure; GC_pf fig. 28.3-1]",
        f"{OVERHANG_UNDERSIDE_GC_P:g} on the underside where the wind strikes it [sec. 28.3.5, number inferred]",
    ),
    MwfrsProcedure.DIRECTIONAL: (
        f"p = q K_d [(G C_p) {MINUS} (GC_pi)] [eq. 27.3-1, directional procedure; C_p fig. 27.3-1]",
        f"G times {OVERHANG_UNDERSIDE_C_P:g} on the underside where the wind strikes it [sec. 27.3.3, number inferred]",
    ),
}
"""The pressure on the roof, and what an overhang gets from below."""


PORCHES = (
    "Open porches under the main roof [no clause of their own; inferred from those for overhangs]: as a deep overhang, "
    "with the same pressure from below in each case in which the wind comes onto an open side, by load case 2 also at "
    "the side of the reference corner; 0 from below in the others, though suction there would hold the roof down (safe "
    "side); nothing from inside."
)


RAKES = {
    RakeFrame.OUTLOOKERS: (
        "A rake overhang is carried by outlookers that lie over the gable end and stand on the first truss inside: by "
        "their lever they push that truss down where the overhang lifts."
    ),
    RakeFrame.LADDER: (
        "A rake overhang is a ladder that hangs on the gable end alone; the first truss inside carries its plain strip."
    ),
    None: (
        "What carries the rake overhangs is not said (roof.rake_frame): each case runs with outlookers that stand on "
        "the first truss inside and with ladders on the gable end alone ('rakes as ladders' in its name), each in "
        "balance by itself; the worse holds at each member."
    ),
}
"""What carries the rakes, where outlookers reach a truss inside."""


def method(run: Run) -> str:
    """The steps from a pressure to an anchor's uplift."""
    main_frame, underside = MAIN_FRAME[run.plan.wind.mwfrs_procedure]
    w, d = ASD_UPLIFT.wind_factor, ASD_UPLIFT.dead_factor
    porches = (PORCHES,) if run.framing.porches else ()
    gables = any(tributary.lever for tributary in run.framing.tributaries)
    rakes = (RAKES[run.plan.roof.rake_frame],) if gables else ()
    steps = (
        f"Pressure on a zone, main frame: {main_frame}. Components and cladding: p = q K_d [(GC_p) {MINUS} (GC_pi)] "
        "[eq. 30.3-1; GC_p figs. 30.3-2A and on, by effective wind area]. Minus is suction: it lifts.",
        f"Overhangs: no pressure from inside; main frame, {underside}; cladding, roof and soffit together in one "
        "coefficient [sec. 30.7].",
        *porches,
        *rakes,
        "Effective wind area: span times the larger of the width carried and a third of the span [sec. 26.2]; every "
        "bearing reads the cladding case of its own member's area.",
        "Moments about a member's other end: a force goes to this end in the proportion arm / span. Areas are in plan; "
        "a pressure normal to the slope has the vertical part p per square foot of plan.",
        "The horizontal parts are taken in two ways, and the worse holds: 'heel', held at bearing height, where they "
        "lengthen or shorten the arm (the number after the plus or minus in an arm); 'deck', held by the roof deck "
        "where they act, where they do not. Only vertical reactions pass from member to member.",
        f"Allowable-stress uplift: {w:g} W {MINUS} {d:g} D [sec. 2.4.1, combination 7a]. D is the least "
        "that will be up there, the ceiling only between bearings.",
        "Where a zone's line cuts a roof plane the part is kept by itself, so each line holds one pressure on one "
        "area; the arm is to the middle of that area.",
    )
    numbered = f"Clause numbers are those of ASCE 7-22; the edition of this run is {run.plan.wind.edition.value}."
    return section("method", "How a reaction comes about", paragraph(numbered), bullets(steps))
