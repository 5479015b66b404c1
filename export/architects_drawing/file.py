"""A DXF file -> its document, or one sentence that says why there is none."""

from __future__ import annotations

import codecs
import logging
from pathlib import Path
from typing import TYPE_CHECKING

from ezdxf import recover
from ezdxf.filemanagement import readfile
from ezdxf.lldxf.const import DXFError

from framing.errors import PlanError
from framing.text_file import read_bytes
from framing.units import shown

if TYPE_CHECKING:
    from ezdxf.document import Drawing

LARGEST_BYTES = 100_000_000
RIGHT = "save it from the drawing program as a DXF in text form, R12 to R2018"
DRAWN = "LINE LWPOLYLINE POLYLINE INSERT"
BROKEN = (
    DXFError,
    OSError,
    ValueError,
    LookupError,
    TypeError,
    AttributeError,
    StopIteration,
    ArithmeticError,
    AssertionError,
    RuntimeError,
    MemoryError,
)
"""How the library stops over a broken file, wherever it happens to be."""

logging.getLogger("ezdxf").addHandler(logging.NullHandler())  # what it remarks on is no business of the crew's


def open_drawing(path: Path, encoding: str | None = None) -> Drawing:
    """The document in a DXF file.

    Parameters
    ----------
    path : Path
        A DXF file in text form, R12 to R2018.
    encoding : str or None
        The code page of its texts where the file says none or a wrong one.

    Returns
    -------
    Drawing
        As the file says, nothing repaired: a wall that a repair leaves out would not be missed.

    Raises
    ------
    PlanError
        If the file cannot be read, is binary (so is every DWG), broken or no DXF.
    """
    _check_whole(path, encoding)
    try:
        return readfile(path, encoding=encoding)
    except BROKEN:
        raise PlanError(f"{path}: this is a broken DXF file; {RIGHT}") from None


def open_to_look(path: Path, encoding: str | None = None) -> tuple[Drawing, bool]:
    """The document to look for outlines in, and whether it had to be repaired; raises PlanError as `open_drawing`."""
    try:
        return open_drawing(path, encoding), False
    except PlanError:
        _check_whole(path, encoding)
        try:
            return recover.readfile(path)[0], True
        except BROKEN:
            raise PlanError(f"{path}: this is a broken DXF file; {RIGHT}") from None


def _check_whole(path: Path, encoding: str | None) -> None:
    if encoding is not None:
        try:
            codecs.lookup(encoding)
        except (LookupError, ValueError):
            raise PlanError(
                f"--encoding: {shown(encoding)} is no code page; write one like cp1252, cp1251 or cp932"
            ) from None
    data = read_bytes(path, "drawing", PlanError, LARGEST_BYTES)
    if b"\0" in data:
        raise PlanError(f"{path}: this is a binary file (a DWG, a binary DXF or no drawing); {RIGHT}")
    if not data.rstrip().endswith(b"EOF"):
        raise PlanError(f"{path}: this is no DXF file, or one that is cut off before its end; {RIGHT}")


def nothing_drawn(path: Path, document: Drawing) -> PlanError:
    """What to say of a drawing in whose model no line is drawn: where its lines are instead."""
    outside = [str(b.block.dxf.xref_path) for b in document.blocks if b.block and b.block.is_xref]
    if outside:
        return PlanError(f"{path}: it only refers to other files; name {outside[0]} itself, saved as a DXF")
    sheets = [layout.name for layout in document.layouts if layout.is_any_paperspace and layout.query(DRAWN)]
    if sheets:
        return PlanError(
            f"{path}: its lines are on the sheet {shown(sheets[0])} and none in its model; copy the outside walls into "
            "the model"
        )
    blocks = [b.name for b in document.blocks if not b.name.startswith(("*", "_")) and b.query(DRAWN)]
    if blocks:
        return PlanError(
            f"{path}: its lines are in blocks, {shown(blocks[0])} for one, that are not inserted; insert the outside "
            "walls into the model"
        )
    return PlanError(f"{path}: no lines or polylines are drawn in its model; name a drawing of the outside walls")
