"""The starter plan, written where a person wants to begin."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from framing.errors import OutputError, StraplineError


def starter_plan() -> str:
    """The starter's text; its first line tells editors where the schema of this installation lies."""
    shipped = files("framing")
    schema = shipped / "plan.schema.json"
    hint = f"#:schema {schema.resolve().as_uri()}\n" if isinstance(schema, Path) else ""
    return hint + (shipped / "starter.toml").read_text(encoding="utf-8")


def write_starter(file: Path) -> None:
    """Write the starter plan to a new file.

    Parameters
    ----------
    file : Path
        Where; nothing may be there yet.

    Raises
    ------
    StraplineError
        If something is there.
    OutputError
        If it cannot be written.
    """
    text = starter_plan()
    try:
        with file.open("x", encoding="utf-8", newline="\n") as out:
            out.write(text)
    except FileExistsError:
        raise StraplineError(f"{file}: it is there already and is left as it is; name a new file") from None
    except (OSError, ValueError) as problem:
        reason = getattr(problem, "strerror", None) or "the path is not one"
        raise OutputError(f"{file}: it cannot be written ({reason}); name a file in a folder that can") from None
