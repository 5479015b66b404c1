"""An outline chosen in a drawing -> a starter plan that was read again and framed, and a picture over the drawing."""

from __future__ import annotations

from pathlib import Path

from export.architects_drawing.boundaries import How
from export.architects_drawing.outline import outline_of_drawing
from export.architects_drawing.picking import corners_ft, unit_question
from export.architects_drawing.search import Candidate, Request, Search
from export.commands.run_of_plan import load_run
from export.commands.standard_error import say
from export.commands.starter_plan import starter_from_corners, starter_from_drawing, write_new
from framing.errors import OutputError, PlanError, StraplineError

LONGEST_LIST = 3


def check_form(picture: Path | None) -> None:
    """Refuse a picture of another form before anything is looked for."""
    if picture is not None:
        from export.picture.check_picture import form_of

        form_of(picture)


def written_picture(found: Search, chosen: Candidate | None, file: Path, picture: Path, *, quiet: bool) -> None:
    """Write the picture, over an earlier one; raises OutputError if it cannot be written."""
    from export.picture.check_picture import form_of
    from export.picture.outlines import outlines_picture

    data = outlines_picture(found, chosen, file.name, form_of(picture))
    try:
        picture.write_bytes(data)
    except (OSError, ValueError) as problem:
        reason = getattr(problem, "strerror", None) or "the path is not one"
        raise OutputError(f"{picture}: it cannot be written ({reason}); name a file in a folder that can") from None
    say(f"wrote {picture}", quiet=quiet)


def say_why(file: Path, request: Request) -> None:
    """Raise the one reason why a single layer gives no outline, where one was named."""
    if len(request.layers) == 1 and not set("*?[") & set(request.layers[0]):
        outline_of_drawing(file, request.layers[0], request.unit)


def write_plan(plan: Path, found: Search, chosen: Candidate, file: Path, request: Request, *, quiet: bool) -> bool:
    """Write a starter plan with an outline, read it again, frame it, and say what came out.

    Parameters
    ----------
    plan : Path
        The new file.
    found : Search
        What the drawing holds.
    chosen : Candidate
        The outline for the plan.
    file : Path
        The drawing.
    request : Request
        How it was read.
    quiet : bool
        Say nothing that is no doubt.

    Returns
    -------
    bool
        Whether a person has to look: the plan is written and is not framed as it stands.

    Raises
    ------
    PlanError
        If the unit is in doubt; nothing is written then.
    """
    doubt = unit_question(found)
    if doubt:
        raise PlanError(f"{file}: {doubt}")
    layer = _own_layer(chosen, file, request)
    if layer is not None:
        write_new(plan, starter_from_drawing(plan, file, layer, request.unit))
    else:
        told = f"{file.name}, outline {chosen.number}: {chosen.how} on {', '.join(chosen.layers[:LONGEST_LIST])}"
        write_new(plan, starter_from_corners(file, corners_ft(chosen, found), told))
    try:
        run = load_run(plan)
    except StraplineError as problem:
        say(f"wrote {plan}; read again, it is not framed as it stands: {problem}", quiet=quiet)
        return True
    around = f"{len(run.outline.walls)} walls around {chosen.area_ft2:.0f} sq ft"
    made = f"{len(run.framing.members)} members, {len(run.schedule.marks)} marks"
    say(
        f"wrote {plan}; read again and framed: {around}, {made}; change it to your house, then: strapline check {plan}",
        quiet=quiet,
    )
    return False


def _own_layer(chosen: Candidate, file: Path, request: Request) -> str | None:
    """The layer that a plan may name, because its one closed line is the outline; None where there is more to it."""
    if chosen.how is not How.DRAWN or request.encoding is not None or request.crop is not None:
        return None
    layer = chosen.layers[0]
    try:
        corners, _ = outline_of_drawing(file, layer, request.unit)
    except PlanError:
        return None
    area = sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)) / 2.0
    return layer if abs(abs(area) - chosen.area_ft2) < 1.0 else None
