"""`strapline check`: read, validate, and say everything that was found and assumed."""

from __future__ import annotations

import typer

from export.commands.options import Debug, Json, PlanPath, Quiet


def check(plan: PlanPath, *, json: Json = False, quiet: Quiet = False, debug: Debug = False) -> None:
    """Read a plan and say what it holds.

    Prints the walls with their two corners, the wings, how many members of each kind, the governing wind
    figures, the largest uplifts, everything assumed and anything unresolved. Writes nothing.
    """
    from export.findings import findings_json, findings_text
    from export.loading import finish, load_run

    run = load_run(plan)
    typer.echo(findings_json(run) if json else findings_text(run), nl=False)
    finish(run, quiet=True)
