"""The command line: parse, call, print. Heavy libraries load inside the command that needs them."""

from __future__ import annotations

import io
import os
import sys
import traceback
from collections.abc import Sequence
from typing import Annotated, Any, NoReturn

import typer
from typer.core import TyperGroup

from export.commands.asbuilt import asbuilt
from export.commands.build import build
from export.commands.check import check
from export.commands.compare import compare
from export.commands.new import new
from export.commands.options import options
from export.commands.outline import outline
from export.commands.pour import pour
from export.commands.quick import quick
from export.commands.reconcile import reconcile
from export.commands.view import view
from export.own_packages import stranger
from framing.errors import OutputError, StraplineError

DONE, UNRESOLVED, WRONG_INPUT, FAULT, STOPPED = 0, 1, 2, 3, 130


class PlainGroup(TyperGroup):
    """Turns every way to fail into one plain line on standard error and the exit code it stands for."""

    def main(self, args: Sequence[str] | None = None, *more: Any, **extra: Any) -> NoReturn:
        """Run a command and leave with its exit code."""
        words = _flags_behind(list(sys.argv[1:] if args is None else args))
        for stream in (sys.stdout, sys.stderr):
            if isinstance(stream, io.TextIOWrapper):
                stream.reconfigure(errors="replace")  # a name that the terminal cannot show is no fault
        extra |= {"standalone_mode": False, "prog_name": "strapline"}
        os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")  # none of another program's reads our plans
        try:
            if foreign := stranger():
                sys.exit(_fail(foreign, WRONG_INPUT))
            result = super().main(words, **extra)
        except (Exception, KeyboardInterrupt) as problem:
            if "--debug" in words and not isinstance(problem, typer.TyperException):
                traceback.print_exc()
            sys.exit(_fail(*_answer(problem)))
        sys.exit(result if isinstance(result, int) else DONE)

    def invoke(self, ctx: Any) -> Any:
        """Run a command; a reader that leaves early, as `head` does, is answered here and not with code 1."""
        try:
            result = super().invoke(ctx)
            sys.stdout.flush()
        except BrokenPipeError:
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            raise OutputError("the reader of the output left before all of it was written") from None
        return result


def _flags_behind(words: list[str]) -> list[str]:
    """The words typed, `--debug` and `--quiet` before the command set behind it, where they belong."""
    n = next((k for k, word in enumerate(words) if word not in ("--debug", "--quiet")), len(words))
    return [*words[n:], *words[:n]] if words[n:] and not words[n].startswith("-") else words[n:]


def _answer(problem: BaseException) -> tuple[str, int]:
    """The sentence and the exit code of a failure."""
    if isinstance(problem, OutputError):
        return str(problem), FAULT
    if isinstance(problem, StraplineError):
        return str(problem), WRONG_INPUT
    if isinstance(problem, typer.TyperException):
        context = getattr(problem, "ctx", None)
        path = context.command_path if context else "strapline"
        said = problem.format_message().rstrip(".")
        return f"{said}{'' if said.endswith('?') else ';'} {path} --help shows how", WRONG_INPUT
    if isinstance(problem, typer.Abort | KeyboardInterrupt):
        return "stopped", STOPPED
    if isinstance(problem, OSError):
        return f"a file cannot be read or written ({problem})", FAULT
    return f"a fault in the program ({type(problem).__name__}: {problem}); --debug shows where", FAULT


def _fail(sentence: str, code: int) -> int:
    sys.stderr.write(f"strapline: {' '.join(sentence.splitlines())}\n")
    return code


def _version(wanted: bool) -> None:
    if wanted:
        from importlib.metadata import version

        typer.echo(f"strapline {version('strapline')}")
        raise typer.Exit


app = typer.Typer(cls=PlainGroup, rich_markup_mode=None, pretty_exceptions_enable=False)


@app.callback(epilog="Example: strapline new house.toml")
def strapline(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Say which version this is.")
    ] = False,
) -> None:
    """From a floor plan to a marked wall: framing layout, uplift at every bearing, the tie-beam anchor plan."""


app.command(epilog="Example: strapline new house.toml")(new)
app.command(epilog="Example: strapline check house.toml --picture house.png")(check)
app.command(epilog="Example: strapline build house.toml --out lot7")(build)
app.command(epilog="Example: strapline compare old-out house.toml")(compare)
app.command(epilog="Example: strapline asbuilt house.toml wall-marks-W1.csv wall-marks-W2.csv")(asbuilt)
app.command(epilog="Example: strapline options house.toml")(options)
app.command(epilog="Example: strapline outline floor.dxf --layer A-WALL --write house.toml")(outline)
app.command(epilog="Example: strapline pour house.toml")(pour)
app.command(epilog="Example: strapline reconcile house.toml package.csv --out lot7")(reconcile)
app.command(epilog="Example: strapline view house.toml --picture roof.png")(view)
app.command(
    epilog="Example: strapline quick --span 36ft --spacing 24in --pitch 4:12 --wind 160 --exposure C",
)(quick)
