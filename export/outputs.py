"""What `build` writes: each file's name and the function that makes its bytes from a run."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module

from framing.run import Run

OUTPUTS = {
    "anchor-plan.dxf": "export.anchor_plan.dxf:anchor_plan_dxf",
    "anchor-plan.pdf": "export.anchor_plan.pdf:anchor_plan_pdf",
    "wall-marks.pdf": "export.wall_marks.pdf:wall_marks_pdf",
    "wall-marks.html": "export.wall_marks.phone_page:wall_marks_html",
    "schedule.csv": "export.tables.schedule:schedule_csv",
    "deck.pdf": "export.deck_plan.sheets:deck_pdf",
    "report.html": "export.report.page:report_html",
    "engineer.csv": "export.tables.engineer:engineer_csv",
    "takeoff.csv": "export.takeoff.table:takeoff_csv",
    "roof.glb": "export.walkthrough.model_file:roof_glb",
    "walkthrough.html": "export.walkthrough.page:walkthrough_html",
    "run.json": "export.tables.run_json:run_json",
}
"""File name -> 'module:function'; loaded when it is needed, `run.json` last."""

OF_A_LAYOUT = (
    *("anchor-plan.dxf", "anchor-plan.pdf", "wall-marks.pdf", "wall-marks.html", "schedule.csv", "takeoff.csv"),
    "run.json",
)
"""What is made of an engineer's layout: all that needs no arithmetic of ours."""

FORMER: frozenset[str] = frozenset()
"""Names that an earlier version wrote and this one does not: removed from a folder when it is written again."""


def render(run: Run) -> dict[str, bytes]:
    """Every output of a run, by file name, in the order in which they are written.

    Parameters
    ----------
    run : Run
        What the outputs are made from, and from nothing else.

    Returns
    -------
    dict
        File name to bytes; equal runs give equal bytes.
    """
    return {name: made(name, run) for name in (OF_A_LAYOUT if run.by_engineer else OUTPUTS)}


def made(name: str, run: Run) -> bytes:
    """The bytes of one output of a run, by its file name."""
    return _function(OUTPUTS[name])(run)


def _function(place: str) -> Callable[[Run], bytes]:
    module, _, name = place.partition(":")
    function: Callable[[Run], bytes] = getattr(import_module(module), name)
    return function
