"""The arguments and options that several commands take."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

PlanPath = Annotated[Path, typer.Argument(metavar="PLAN", help="The plan file (TOML).", show_default=False)]
Json = Annotated[bool, typer.Option("--json", help="Answer as JSON, for machines.")]
Quiet = Annotated[bool, typer.Option("--quiet", help="Say nothing beside the answer.")]
Debug = Annotated[bool, typer.Option("--debug", help="Show where a fault in the program lies.")]
