"""`strapline options`: the variants of a plan side by side."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from export.commands.arguments import Debug, PlanPath, Quiet

Out = Annotated[
    Path | None,
    typer.Option(
        "--out", metavar="DIR", help="Where to; <plan name>-options beside the plan unless said.", show_default=False
    ),
]
Force = Annotated[bool, typer.Option("--force", help="Write into DIR although it holds files that are not ours.")]


def options(
    plan: PlanPath, *, out: Out = None, force: Force = False, quiet: Quiet = False, debug: Debug = False
) -> None:
    """Lay the plan's [[option]] rows side by side.

    Anchors, cost, minutes, the weakest mark and the wind that each is good to, as a page and a table. A plan that names
    no option gets the usual ones: each anchor as the house minimum, two winds more, the other load path.
    """
    from export.commands.output_folder import write_outputs
    from export.commands.run_of_plan import finish, load_variants
    from export.commands.standard_error import say
    from export.options.figures import figures
    from export.options.page import options_html
    from export.options.table import options_csv

    names, runs = load_variants(plan)
    found = tuple(figures(name, changes, run) for (name, changes), run in zip(names, runs, strict=True))
    folder = plan.with_name(f"{plan.stem}-options") if out is None else out
    outputs = {"options.html": options_html(runs[0], found), "options.csv": options_csv(runs[0], found)}
    write_outputs(outputs, folder, force=force)
    say(f"{folder}: {len(found)} choices", quiet=quiet)
    finish(runs[0], quiet=quiet)
