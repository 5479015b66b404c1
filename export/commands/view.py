"""`strapline view`: the house in three dimensions, in a window or in a picture."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from export.commands.arguments import Debug, PlanPath, Quiet
from export.commands.in_3d import refuse_picture

Picture = Annotated[Path | None, typer.Option(metavar="FILE.png", help="Write a picture instead of opening a window.")]
Colour = Annotated[str, typer.Option(help="By uplift, share (of the allowable load), wind (good to), kind or deck.")]
Stage = Annotated[str, typer.Option(help="Up to walls, tie beam, anchors, trusses, deck, covering or finished.")]
View = Annotated[str, typer.Option(help="From corner, opposite corner, front (W1), right, back, left or plan.")]


def view(
    plan: PlanPath,
    *,
    picture: Picture = None,
    colour: Colour = "uplift",
    stage: Stage = "covering",
    view: View = "corner",
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Show the house in three dimensions.

    Walls, tie beam, members and anchors, coloured by what lifts, in a window; or off screen into a picture.
    """
    from export.commands.run_of_plan import finish, load_run, refuse_layout
    from viewer import window

    refuse_picture(picture)
    run = load_run(plan)
    refuse_layout(run, "view")
    if picture is None:
        window.show(run, colour=colour, stage=stage, view=view)
    else:
        window.picture(run, picture, colour=colour, stage=stage, view=view)
    finish(run, quiet=quiet, wrote=picture)
