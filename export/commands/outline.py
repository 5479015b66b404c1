"""`strapline outline`: the outlines in an architect's drawing, numbered, and a starter plan from one of them."""

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
Layers = Annotated[
    list[str] | None,
    typer.Option(
        "--layers",
        "--layer",
        metavar="NAME",
        help="These layers alone: names with * and ?, several by commas.",
        show_default=False,
    ),
]
UnitOption = Annotated[
    UnitName | None, typer.Option("--unit", help="Where the drawing says none or a wrong one.", show_default=False)
]
Encoding = Annotated[
    str | None,
    typer.Option("--encoding", metavar="CODEPAGE", help="Of layer names, as cp1251.", show_default=False),
]
Crop = Annotated[
    str | None,
    typer.Option("--crop", metavar="X0,Y0,X1,Y1", help="Only what lies in this part of the sheet.", show_default=False),
]
Pick = Annotated[
    str | None,
    typer.Option(
        "--pick", metavar="N|X,Y", help="The outline with this number, or around this point.", show_default=False
    ),
]
PictureOption = Annotated[
    Path | None,
    typer.Option("--picture", metavar="FILE", help="Draw them over the drawing: .png or .svg.", show_default=False),
]
Write = Annotated[
    Path | None, typer.Option("--write", metavar="PLAN.toml", help="Write a starter plan.", show_default=False)
]


def outline(
    file: Drawing,
    *,
    layers: Layers = None,
    unit: UnitOption = None,
    encoding: Encoding = None,
    crop: Crop = None,
    pick: Pick = None,
    picture: PictureOption = None,
    write: Write = None,
    json: Json = False,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """List the outlines in a drawing that may be the outside face of the walls, numbered.

    Walls are found as double lines with their openings closed, or as a closed line. With --write also a starter
    plan from the one picked, or from the only one in no doubt; it is read again and framed at once. A file that
    is there is never overwritten.
    """
    from export.architects_drawing.picking import crop_of, picked
    from export.architects_drawing.search import Request, search_drawing
    from export.commands.plan_from_drawing import check_form, say_why, write_plan, written_picture
    from export.words.architects_drawing import found_json, found_text

    check_form(picture)
    request = Request(
        layers=tuple(p.strip() for words in layers or () for p in words.split(",") if p.strip()),
        unit=unit,
        encoding=encoding,
        crop=None if crop is None else crop_of(crop),
    )
    found = search_drawing(file, request)
    if not found.candidates:
        say_why(file, request)
    chosen = picked(found, pick, file) if write is not None or pick is not None else None
    if picture is not None:
        written_picture(found, chosen, file, picture, quiet=quiet)
    doubt = False
    if write is not None and chosen is not None:
        doubt = write_plan(write, found, chosen, file, request, quiet=quiet)
    typer.echo(found_json(found, chosen, file) if json else found_text(found, chosen, file), nl=False)
    if doubt:
        raise typer.Exit(1)
