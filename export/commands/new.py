"""`strapline new`: a commented starter plan."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from export.commands.arguments import Debug, Quiet


def new(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="Where to write it.", show_default=False)],
    *,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Write a commented starter plan.

    It has every key and is ready to build. A file that is there is never overwritten.
    """
    from export.commands.standard_error import say
    from export.commands.starter_plan import write_starter

    write_starter(file)
    say(f"wrote {file}: change it to your house, then: strapline check {file}", quiet=quiet)
