"""`strapline asbuilt`: each strap as it was set, judged against the plan."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from export.commands.arguments import Debug, PlanPath, Quiet
from export.commands.in_3d import StatesPicture, StatesView, refuse_picture, show_states

if TYPE_CHECKING:
    from export.asbuilt.words import Findings

Surveys = Annotated[
    list[Path],
    typer.Argument(metavar="SURVEY.csv...", help="Lists of the phone page, or a CSV by hand.", show_default=False),
]
Out = Annotated[
    Path | None,
    typer.Option(
        "--out", metavar="DIR", help="Where to; <plan name>-asbuilt beside the plan unless said.", show_default=False
    ),
]
Walkthrough = Annotated[
    bool,
    typer.Option(
        "--walkthrough", help="Also write walkthrough.html: the client's page, each strap seen with its date."
    ),
]
Force = Annotated[bool, typer.Option("--force", help="Write into DIR although it holds files that are not ours.")]


def asbuilt(
    plan: PlanPath,
    surveys: Surveys,
    *,
    out: Out = None,
    picture: StatesPicture = None,
    view: StatesView = False,
    walkthrough: Walkthrough = False,
    force: Force = False,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Judge each strap as it was set.

    Takes the lists that the phone page gives out, or a CSV with the column mark and any of set, offset_in, measured,
    gap_in, in_from_face_in, side, anchor, strap. The exit code is 1 where a strap is not as planned.
    """
    from export.asbuilt.in_3d import asbuilt_states
    from export.asbuilt.words import findings, verdict
    from export.commands.output_folder import write_outputs
    from export.commands.run_of_plan import load_run, refuse_layout
    from export.commands.standard_error import say
    from framing.asbuilt.survey_file import read_surveys

    refuse_picture(picture)
    run = load_run(plan)
    if picture or view or walkthrough:
        refuse_layout(run, "asbuilt in three dimensions")
    found = findings(run, read_surveys(surveys, run))
    folder = plan.with_name(f"{plan.stem}-asbuilt") if out is None else out
    write_outputs(_outputs(found, walkthrough=walkthrough), folder, force=force)
    typer.echo("\n".join(verdict(found)))
    say(f"{folder}: {len(found.straps)} straps judged", quiet=quiet)
    if picture or view:
        show_states(run, asbuilt_states(found), picture, view=view)
    if not found.as_planned:
        raise typer.Exit(1)


def _outputs(found: Findings, *, walkthrough: bool) -> dict[str, bytes]:
    """What is written, the client's page only where it is asked for."""
    from export.asbuilt.page import asbuilt_html
    from export.asbuilt.seen import seen_in_all, seen_on_site
    from export.asbuilt.sheet import asbuilt_dxf, asbuilt_pdf
    from export.asbuilt.table import asbuilt_csv
    from export.walkthrough.page import walkthrough_html

    outputs = {
        "asbuilt.html": asbuilt_html(found),
        "asbuilt.csv": asbuilt_csv(found),
        "asbuilt.pdf": asbuilt_pdf(found),
        "asbuilt.dxf": asbuilt_dxf(found),
    }
    if walkthrough:
        outputs["walkthrough.html"] = walkthrough_html(found.run, seen_on_site(found), seen_in_all(found))
    return outputs
