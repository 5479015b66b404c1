"""The two ways in which a command shows straps by their state in three dimensions: a picture, a window."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from framing.errors import StraplineError

if TYPE_CHECKING:
    from framing.run import Run
    from viewer.states import States

StatesPicture = Annotated[
    Path | None,
    typer.Option("--picture", metavar="FILE.png", help="Also write a picture in three dimensions.", show_default=False),
]
StatesView = Annotated[bool, typer.Option("--view", help="Also open a window in three dimensions.")]


def refuse_picture(picture: Path | None) -> None:
    """Refuses a picture whose name does not end as one.

    Raises
    ------
    StraplineError
        If the name is none of a PNG file.
    """
    if picture is not None and picture.suffix.lower() != ".png":
        raise StraplineError(f"--picture: {picture} is no PNG file; write a name that ends in .png")


def show_states(run: Run, states: States, picture: Path | None, *, view: bool) -> None:
    """Writes the picture and opens the window, whichever was asked for."""
    from viewer import window

    if picture is not None:
        window.states_picture(run, states, picture)
    if view:
        window.show_states(run, states)
