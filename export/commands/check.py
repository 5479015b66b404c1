"""`strapline check`: read, validate, and say everything that was found and assumed."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from export.commands.arguments import Debug, Json, PlanPath, Quiet

Picture = Annotated[
    Path | None,
    typer.Option(metavar="FILE.png|svg", help="Also draw what was understood.", show_default=False),
]


def check(
    plan: PlanPath, *, picture: Picture = None, json: Json = False, quiet: Quiet = False, debug: Debug = False
) -> None:
    """Read a plan and say what it holds.

    Prints the walls with their two corners, the wings, how many members of each kind, the governing wind
    figures, the largest uplifts, everything assumed and anything unresolved. Writes nothing but
    the picture.
    """
    from export.commands.run_of_plan import finish, load_run
    from export.words.check import findings_json, findings_text

    if picture is None:
        run = load_run(plan)
    else:
        from export.picture.check_picture import form_of, write_picture

        form = form_of(picture)
        run = load_run(plan)
        write_picture(run, picture, form)
    typer.echo(findings_json(run) if json else findings_text(run), nl=False)
    finish(run, quiet=True)
