"""`strapline new`: a commented starter plan, an empty catalogue."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from export.commands.arguments import Debug, Quiet

File = Annotated[Path | None, typer.Argument(metavar="FILE", help="Where to write the plan.", show_default=False)]
CatalogueFile = Annotated[
    Path | None,
    typer.Option(
        "--catalogue", metavar="FILE.csv", help="Also write an empty anchor catalogue, or it alone.", show_default=False
    ),
]


def new(file: File = None, *, catalogue: CatalogueFile = None, quiet: Quiet = False, debug: Debug = False) -> None:
    """Write a commented starter plan, and a picture of its walls beside it.

    It has every key and is ready to build. A file that is there is never overwritten.
    """
    from export.commands.standard_error import say
    from export.commands.starter_plan import draw_starter, refuse_overwriting, starter_plan, write_new
    from framing.anchors.catalogue_columns import empty_catalogue
    from framing.errors import StraplineError

    wanted = [path for path in (file, catalogue) if path is not None]
    if not wanted:
        raise StraplineError("new: no file is named; write strapline new house.toml, or --catalogue anchors.csv")
    refuse_overwriting(wanted)
    if file is not None:
        write_new(file, starter_plan())
        say(f"wrote {file}: change it to your house, then: strapline check {file}", quiet=quiet)
        picture = draw_starter(file)
        if picture is not None:
            told = f"draw yours by: strapline check {file} --picture {picture}"
            say(f"wrote {picture}: the starter's walls by their numbers; {told}", quiet=quiet)
    if catalogue is not None:
        write_new(catalogue, empty_catalogue())
        told = f'a row for each anchor, then say anchors.catalogue = "{catalogue.name}" in the plan beside it'
        say(f"wrote {catalogue}: {told}", quiet=quiet)
