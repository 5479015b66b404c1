"""`strapline pour`: what the crew takes on the day of the pour."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from export.commands.arguments import Debug, PlanPath, Quiet

Out = Annotated[
    Path | None,
    typer.Option(
        "--out", metavar="DIR", help="Where to; <plan name>-pour beside the plan unless said.", show_default=False
    ),
]
Force = Annotated[bool, typer.Option("--force", help="Write into DIR although it holds files that are not ours.")]


def pour(plan: PlanPath, *, out: Out = None, force: Force = False, quiet: Quiet = False, debug: Debug = False) -> None:
    """Write the set for the day of the pour.

    Bags and counts, boxes to sign, who holds what, what to look at before, during and after, the strips of every wall;
    beside it the phone page. The exit code is 1 where no anchor of the catalogue holds a bearing.
    """
    from export.commands.output_folder import write_outputs
    from export.commands.run_of_plan import finish, load_run
    from export.commands.standard_error import say
    from export.pour.sheet import pour_pdf
    from export.wall_marks.phone_page import wall_marks_html

    run = load_run(plan)
    outputs = {"pour.pdf": pour_pdf(run), "wall-marks.html": wall_marks_html(run)}
    folder = plan.with_name(f"{plan.stem}-pour") if out is None else out
    write_outputs(outputs, folder, force=force)
    say(f"{folder}: {len(run.schedule.marks)} marks, for the day of the pour", quiet=quiet)
    finish(run, quiet=quiet)
