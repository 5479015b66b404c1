"""`strapline compare`: what changed between two plans, runs or output folders."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Annotated

import typer

from export.commands.arguments import Debug, Json, Quiet

Source = Annotated[Path, typer.Argument(help="A plan, a run.json or a folder that `build` wrote.", show_default=False)]
Out = Annotated[
    Path | None,
    typer.Option("--out", metavar="DIR", help="Where to; B's name-compare beside B unless said.", show_default=False),
]
Force = Annotated[bool, typer.Option("--force", help="Write into DIR although it holds files that are not ours.")]


def compare(
    a: Annotated[Path, typer.Argument(metavar="A", help="Before: a plan, a run.json or an output folder.")],
    b: Annotated[Path, typer.Argument(metavar="B", help="After: the same.")],
    *,
    out: Out = None,
    as_json: Json = False,
    force: Force = False,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Say what changed, wall by wall and mark by mark.

    Marks are matched by place and member, not by number. The exit code is 1 where place, anchor, side or count of any
    mark differ: then the old sheet must not be used.
    """
    from export.changes.differences import differences, sheet_is_stale
    from export.changes.page import changes_html
    from export.changes.sheet import changes_dxf, changes_pdf
    from export.changes.sources import house_of
    from export.changes.table import changes_csv
    from export.changes.words import change_words, verdict
    from export.commands.output_folder import write_outputs
    from export.commands.run_of_plan import load_run
    from export.commands.standard_error import say
    from export.tables.run_json import run_json

    before, after = (house_of(path, lambda plan: run_json(load_run(plan))) for path in (a, b))
    found = differences(before, after)
    outputs = {
        "changes.html": changes_html(before, after, found),
        "changes.csv": changes_csv(before, after, found),
        "changes.pdf": changes_pdf(before, after, found),
        "changes.dxf": changes_dxf(before, after, found),
    }
    folder = b.with_name(f"{b.stem}-compare") if out is None else out
    write_outputs(outputs, folder, force=force)
    if as_json:
        rows = [{"mark": c.one.mark, "wall": c.one.wall, "what": list(c.what), "words": change_words(c)} for c in found]
        typer.echo(json.dumps({"verdict": verdict(found), "stale": sheet_is_stale(found), "marks": rows}, indent=1))
    else:
        typer.echo("\n".join(verdict(found)))
    say(f"{folder}: {len(found)} marks compared", quiet=quiet)
    if sheet_is_stale(found):
        raise typer.Exit(1)
