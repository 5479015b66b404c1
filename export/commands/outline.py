"""`strapline outline`: what an architect's drawing holds, and a starter plan from it."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from export.commands.arguments import Debug, Json, Quiet


class UnitName(StrEnum):
    """What one unit of the drawing may be."""

    IN = "in"
    FT = "ft"
    MM = "mm"
    CM = "cm"
    M = "m"


Drawing = Annotated[Path, typer.Argument(metavar="FILE.dxf", help="The drawing, R12 to R2018.", show_default=False)]
LayerName = Annotated[str | None, typer.Option("--layer", metavar="NAME", help="This layer alone.", show_default=False)]
UnitOption = Annotated[
    UnitName | None, typer.Option("--unit", help="Where the drawing says none or a wrong one.", show_default=False)
]
Write = Annotated[
    Path | None, typer.Option("--write", metavar="PLAN.toml", help="Write a starter plan.", show_default=False)
]


def outline(
    file: Drawing,
    *,
    layer: LayerName = None,
    unit: UnitOption = None,
    write: Write = None,
    json: Json = False,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """List the closed outlines in a drawing.

    Layer, size and area of each. With --write also a starter plan with the outline of the one layer that holds
    a house, or of --layer; a file that is there is never overwritten.
    """
    from export.architects_drawing.outline import outlines_in_drawing
    from export.commands.standard_error import note
    from export.commands.starter_plan import starter_from_drawing, write_new
    from export.words.architects_drawing import found_json, found_text, only_layer

    found = outlines_in_drawing(file, layer, unit)
    if write is not None or layer is not None:
        name = only_layer(found, file)
    if write is not None:
        write_new(write, starter_from_drawing(write, file, name, unit))
        note(f"wrote {write}: change it to your house, then: strapline check {write}", quiet=quiet)
    typer.echo(found_json(found, file) if json else found_text(found, file), nl=False)
