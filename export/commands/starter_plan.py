"""The starter plan, written where a person wants to begin."""

from __future__ import annotations

import json
import os
from collections.abc import Sequence
from importlib.resources import files
from pathlib import Path

from framing.errors import OutputError, StraplineError
from framing.plan import Point
from framing.units import feet_inches


def starter_plan() -> str:
    """The starter's text; its first line tells editors where the schema of this installation lies."""
    schema = files("framing.plan_file") / "plan.schema.json"
    hint = f"#:schema {schema.resolve().as_uri()}\n" if isinstance(schema, Path) else ""
    return hint + (files("export.commands") / "starter.toml").read_text(encoding="utf-8")


def starter_from_drawing(plan: Path, drawing: Path, layer: str, unit: str | None) -> str:
    """The starter's text with its outline from a layer of a drawing, named as a plan in that place sees it."""
    try:
        path = Path(os.path.relpath(drawing.resolve(), plan.resolve().parent))
    except ValueError:  # on another drive
        path = drawing.resolve()
    keys = {"file": path.as_posix(), "layer": layer, "unit": unit}
    told = ", ".join(f"{key} = {_quoted(value)}" for key, value in keys.items() if value is not None)
    return _with_outline([f"outline_dxf = {{ {told} }}"], drawing)


def starter_from_corners(drawing: Path, corners_ft: Sequence[Point], told: str) -> str:
    """The starter's text with the corners of an outline that was found in a drawing, and where it was found."""
    rows = [f"  [{_length(x)}, {_length(y)}]," for x, y in corners_ft]
    comment = "".join(c if c.isprintable() else "?" for c in f"# found in {told}")
    return _with_outline([comment, "outline = [", *rows, "]"], drawing)


def _with_outline(lines_of_outline: Sequence[str], drawing: Path) -> str:
    lines = starter_plan().split("\n")
    begins = lines.index("outline = [")
    ends = lines.index("]", begins)
    lines[begins : ends + 1] = lines_of_outline
    text = "\n".join(line for line in lines if not line.startswith("# outline_dxf"))
    return text.replace('name = "Heron Court, lot 7"', f"name = {_quoted(drawing.stem)}").replace(
        "The house is invented.", "The outline is the drawing's."
    )


def _length(feet: float) -> str:
    """A length as a plan writes it: in sixteenths where it is one, else in feet."""
    if abs(feet * 192.0 - round(feet * 192.0)) < 1e-6:
        return _quoted(feet_inches(feet))
    return f"{feet:.4f}"


def refuse_overwriting(files: Sequence[Path]) -> None:
    """Refuse files that are there before any is written. Raises StraplineError, which names the first."""
    for file in files:
        if os.path.lexists(file):
            raise StraplineError(f"{file}: it is there already and is left as it is; name a new file")


def draw_starter(file: Path) -> Path | None:
    """Draw what a starter plan holds, walls by their numbers, beside it; where; None where something is there."""
    from export.commands.run_of_plan import load_run
    from export.picture.check_picture import form_of, write_picture

    picture = file.with_suffix(".png")
    if os.path.lexists(picture):
        return None
    write_picture(load_run(file), picture, form_of(picture))
    return picture


def write_new(file: Path, text: str) -> None:
    """Write a plan to a new file.

    Parameters
    ----------
    file : Path
        Where; nothing may be there yet.
    text : str
        What.

    Raises
    ------
    StraplineError
        If something is there.
    OutputError
        If it cannot be written.
    """
    try:
        with file.open("x", encoding="utf-8", newline="\n") as out:
            out.write(text)
    except FileExistsError:
        raise StraplineError(f"{file}: it is there already and is left as it is; name a new file") from None
    except (OSError, ValueError) as problem:
        reason = getattr(problem, "strerror", None) or "the path is not one"
        raise OutputError(f"{file}: it cannot be written ({reason}); name a file in a folder that can") from None


def _quoted(text: str) -> str:
    """A text as TOML writes it; JSON's double quotes are TOML's."""
    return json.dumps(text, ensure_ascii=False)
