"""`strapline build`: the main job, every output written."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from export.commands.arguments import Debug, PlanPath, Quiet

if TYPE_CHECKING:
    from export.second_core import SecondCore

Out = Annotated[
    Path | None,
    typer.Option(
        "--out", metavar="DIR", help="Where to; <plan name>-out beside the plan unless said.", show_default=False
    ),
]
Force = Annotated[bool, typer.Option("--force", help="Write into DIR although it holds files that are not ours.")]


@contextmanager
def begun(words: Sequence[str]) -> Iterator[SecondCore | None]:
    """What `build` begins before its call is read: the second process, or none; it ends with the block.

    Forked here, with what both need loaded, it loads its own libraries while the first reads call and plan.
    """
    if list(words[:1]) != ["build"] or "--help" in words:
        yield None
        return
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # no table here is worth a thread, and numpy loads sooner
    gc.disable()  # what so short a life drops is not worth looking for

    from export.second_core import second_core

    other = second_core()
    try:
        yield other
    finally:
        if other is not None:
            other.stop()
        gc.freeze()  # nor, on leaving, what it still holds
        gc.enable()


def build(
    context: typer.Context,
    plan: PlanPath,
    *,
    out: Out = None,
    force: Force = False,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Write every output of a plan.

    Whole or not at all. The exit code is 1 where no anchor of the catalogue holds a bearing: the files are
    written and that mark is flagged.
    """
    from export.commands.output_folder import write_outputs
    from export.commands.run_of_plan import finish, load_run
    from export.commands.standard_error import note
    from export.outputs import render

    other: SecondCore | None = context.obj
    run = load_run(plan)
    outputs = render(run) if other is None else other.render(run)
    folder = plan.with_name(f"{plan.stem}-out") if out is None else out
    write_outputs(outputs, folder, force=force)
    note(f"wrote {len(outputs)} files into {folder}: {', '.join(outputs)}", quiet=quiet)
    finish(run, quiet=quiet)
