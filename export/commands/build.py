"""`strapline build`: the main job, every output written."""

from __future__ import annotations

import gc
import os
from pathlib import Path
from typing import Annotated

import typer

from export.commands.options import Debug, PlanPath, Quiet

Out = Annotated[
    Path | None,
    typer.Option(
        "--out", metavar="DIR", help="Where to; <plan name>-out beside the plan unless said.", show_default=False
    ),
]
Force = Annotated[bool, typer.Option("--force", help="Write into DIR although it holds files that are not ours.")]


def build(plan: PlanPath, *, out: Out = None, force: Force = False, quiet: Quiet = False, debug: Debug = False) -> None:
    """Write every output of a plan.

    Whole or not at all. The exit code is 1 where no anchor of the catalogue holds a bearing: the files are
    written and that mark is flagged.
    """
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # no table here is worth a thread, and numpy loads sooner

    from export.loading import finish, load_run
    from export.notices import note
    from export.outputs import render
    from export.second_core import second_core
    from export.writing import write_outputs

    gc.disable()  # what so short a life drops is not worth looking for
    other = second_core()
    try:
        run = load_run(plan)
        outputs = render(run) if other is None else other.render(run)
    finally:
        if other is not None:
            other.stop()
        gc.freeze()  # nor, on leaving, what it still holds
        gc.enable()
    folder = plan.with_name(f"{plan.stem}-out") if out is None else out
    write_outputs(outputs, folder, force=force)
    note(f"wrote {len(outputs)} files into {folder}: {', '.join(outputs)}", quiet=quiet)
    finish(run, quiet=quiet)
