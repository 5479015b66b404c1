"""What `build` writes: each file's name and the function that makes its bytes from a run."""

from __future__ import annotations

import os
import sys
import warnings
from collections.abc import Callable
from importlib import import_module

from framing.run import Run

OUTPUTS = {
    "anchor-plan.dxf": "export.anchor_plan_dxf:anchor_plan_dxf",
    "anchor-plan.pdf": "export.anchor_plan_pdf:anchor_plan_pdf",
    "wall-marks.pdf": "export.wall_marks_pdf:wall_marks_pdf",
    "wall-marks.html": "export.wall_marks_page:wall_marks_html",
    "schedule.csv": "export.schedule:schedule_csv",
    "report.html": "export.report.page:report_html",
    "takeoff.csv": "export.takeoff:takeoff_csv",
    "roof.glb": "export.model:roof_glb",
    "walkthrough.html": "export.walkthrough:walkthrough_html",
    "run.json": "export.run_json:run_json",
}
"""File name -> 'module:function'; loaded when it is needed, `run.json` last."""


SLOWEST_FIRST = ("anchor-plan.dxf", "roof.glb", "report.html", "anchor-plan.pdf", "wall-marks.pdf")
"""What to begin with where two cores share the work."""

_shared: list[Run] = []  # what a forked helper process finds: a run is large, and is not sent


def render(run: Run, *, n_processes: int = 1) -> dict[str, bytes]:
    """Every output of a run, by file name, in the order in which they are written.

    Parameters
    ----------
    run : Run
        What the outputs are made from, and from nothing else.
    n_processes : int
        Processes that may share the work; more than one only where a process can be forked safely (Linux).

    Returns
    -------
    dict
        File name to bytes; equal runs give equal bytes, by however many processes.
    """
    if n_processes < 2 or sys.platform != "linux" or (os.cpu_count() or 1) < 2:
        return {name: _function(place)(run) for name, place in OUTPUTS.items()}
    from multiprocessing import get_context

    names = sorted(OUTPUTS, key=lambda n: SLOWEST_FIRST.index(n) if n in SLOWEST_FIRST else len(SLOWEST_FIRST))
    _shared[:] = [run]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)  # forking beside numpy's idle threads, which hold no lock
        with get_context("fork").Pool(n_processes) as pool:
            made = dict(zip(names, pool.imap(_made, names), strict=True))
    _shared.clear()
    return {name: made[name] for name in OUTPUTS}


def _made(name: str) -> bytes:
    return _function(OUTPUTS[name])(_shared[0])


def _function(place: str) -> Callable[[Run], bytes]:
    module, _, name = place.partition(":")
    function: Callable[[Run], bytes] = getattr(import_module(module), name)
    return function
