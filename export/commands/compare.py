"""`strapline compare`: what changed between two plans, runs or output folders."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from export.commands.arguments import Debug, Json, Quiet
from export.commands.in_3d import StatesPicture, StatesView, refuse_picture, show_states
from framing.errors import StraplineError

if TYPE_CHECKING:
    from export.changes.differences import Change
    from export.changes.sources import HouseThen
    from framing.run import Run

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
    picture: StatesPicture = None,
    view: StatesView = False,
    force: Force = False,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Say what changed, wall by wall and mark by mark.

    Marks are matched by place and member, not by number. The exit code is 1 where place, anchor, side or count of any
    mark differ: then the old sheet must not be used.
    """
    from export.changes.differences import differences, sheet_is_stale
    from export.changes.in_3d import change_states
    from export.changes.sources import house_of
    from export.changes.words import verdict
    from export.commands.output_folder import write_outputs
    from export.commands.run_of_plan import load_run, refuse_layout
    from export.commands.standard_error import say
    from export.tables.run_json import run_json

    refuse_picture(picture)
    if (picture or view) and (b.is_dir() or b.suffix == ".json"):
        raise StraplineError(f"{b}: a picture or a window needs the roof of B; name its plan")
    runs: dict[Path, Run] = {}

    def told(plan: Path) -> bytes:
        runs[plan] = load_run(plan)
        return run_json(runs[plan])

    before, after = (house_of(path, told) for path in (a, b))
    if picture or view:
        refuse_layout(runs[b], "compare in three dimensions")
    found = differences(before, after)
    folder = b.with_name(f"{b.stem}-compare") if out is None else out
    write_outputs(_outputs(before, after, found), folder, force=force)
    typer.echo(_as_json(found) if as_json else "\n".join(verdict(found)))
    say(f"{folder}: {len(found)} marks compared", quiet=quiet)
    if picture or view:
        show_states(runs[b], change_states(before, after, found), picture, view=view)
    if sheet_is_stale(found):
        raise typer.Exit(1)


def _outputs(before: HouseThen, after: HouseThen, found: tuple[Change, ...]) -> dict[str, bytes]:
    from export.changes.page import changes_html
    from export.changes.sheet import changes_dxf, changes_pdf
    from export.changes.table import changes_csv

    return {
        "changes.html": changes_html(before, after, found),
        "changes.csv": changes_csv(before, after, found),
        "changes.pdf": changes_pdf(before, after, found),
        "changes.dxf": changes_dxf(before, after, found),
    }


def _as_json(found: tuple[Change, ...]) -> str:
    from export.changes.differences import sheet_is_stale
    from export.changes.words import change_words, verdict

    rows = [{"mark": c.one.mark, "wall": c.one.wall, "what": list(c.what), "words": change_words(c)} for c in found]
    return json.dumps({"verdict": verdict(found), "stale": sheet_is_stale(found), "marks": rows}, indent=1)
