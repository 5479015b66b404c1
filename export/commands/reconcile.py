"""`strapline reconcile`: the truss engineer's reactions beside ours, and every output by them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from export.commands.arguments import Debug, PlanPath, Quiet
from framing.errors import OutputError, StraplineError

if TYPE_CHECKING:
    from framing.run import Run

Table = Annotated[
    Path | None,
    typer.Argument(
        metavar="PACKAGE.csv", help="Their table; the plan's own [package] file unless said.", show_default=False
    ),
]
Out = Annotated[
    Path | None,
    typer.Option(
        "--out", metavar="DIR", help="Where to; <plan name>-reconcile beside the plan unless said.", show_default=False
    ),
]
Accept = Annotated[bool, typer.Option("--accept", help="Rows matched otherwise than by mark govern too.")]
Blank = Annotated[
    Path | None,
    typer.Option(metavar="FILE.csv", help="Only write an empty table of our marks to fill.", show_default=False),
]
Force = Annotated[bool, typer.Option("--force", help="Write into DIR although it holds files that are not ours.")]


def reconcile(
    plan: PlanPath,
    package: Table = None,
    *,
    out: Out = None,
    accept: Accept = False,
    blank: Blank = None,
    force: Force = False,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Lay the truss engineer's reactions beside ours and build by them.

    Matched by mark, else by member, place, span and overhang; compared in order: wind, counts, hung or on the wall,
    places, plies, reactions. The exit code is 1 where a person has to decide.
    """
    from export.commands.output_folder import write_outputs
    from export.commands.run_of_plan import finish, load_run, refuse_layout
    from export.commands.standard_error import say
    from export.outputs import render
    from export.reconcile.page import reconcile_html, verdict
    from export.reconcile.table import reconcile_csv

    if blank is not None:
        run = load_run(plan)
        refuse_layout(run, "reconcile")
        _write_blank(run, blank)
        say(f"{blank}: the truss engineer fills it, then: strapline reconcile {plan} {blank}", quiet=quiet)
        return
    run = load_run(plan, package, accept=accept)
    refuse_layout(run, "reconcile")
    if run.reconciled is None:
        raise StraplineError(
            f"{plan}: there is no table to reconcile; name one, or write file under [package]; --blank writes an "
            "empty one"
        )
    outputs = {"reconcile.html": reconcile_html(run), "reconcile.csv": reconcile_csv(run), **render(run)}
    folder = plan.with_name(f"{plan.stem}-reconcile") if out is None else out
    write_outputs(outputs, folder, force=force)
    typer.echo("\n".join(verdict(run)))
    finish(run, quiet=quiet, wrote=folder)


def _write_blank(run: Run, path: Path) -> None:
    """The empty table, never over a file that is there."""
    from export.reconcile.blank import blank_csv

    try:
        with path.open("xb") as file:
            file.write(blank_csv(run))
    except FileExistsError:
        raise StraplineError(f"{path}: there is a file already; name another for --blank") from None
    except OSError as problem:
        raise OutputError(f"{path}: it cannot be written ({problem.strerror}); name another for --blank") from None
