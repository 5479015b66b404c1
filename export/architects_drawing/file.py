"""A DXF file -> its document, or one sentence that says why there is none."""

from __future__ import annotations

import logging
from pathlib import Path
from typing import TYPE_CHECKING

from ezdxf.filemanagement import readfile
from ezdxf.lldxf.const import DXFError

from framing.errors import PlanError
from framing.text_file import read_bytes

if TYPE_CHECKING:
    from ezdxf.document import Drawing

LARGEST_BYTES = 100_000_000
RIGHT = "save it from the drawing program as a DXF in text form, R12 to R2018"

logging.getLogger("ezdxf").addHandler(logging.NullHandler())  # what it remarks on is no business of the crew's


def open_drawing(path: Path) -> Drawing:
    """The document in a DXF file.

    Parameters
    ----------
    path : Path
        A DXF file in text form, R12 to R2018.

    Returns
    -------
    Drawing
        As the file says, nothing repaired: a wall that a repair leaves out would not be missed.

    Raises
    ------
    PlanError
        If the file cannot be read, is binary (so is every DWG), broken or no DXF.
    """
    data = read_bytes(path, "drawing", PlanError, LARGEST_BYTES)
    if b"\0" in data:
        raise PlanError(f"{path}: this is a binary file (a DWG, a binary DXF or no drawing); {RIGHT}")
    if not data.rstrip().endswith(b"EOF"):
        raise PlanError(f"{path}: this is no DXF file, or one that is cut off before its end; {RIGHT}")
    try:
        return readfile(path)
    except (DXFError, OSError, ValueError, LookupError, TypeError, AttributeError, StopIteration):
        # a broken file stops the library wherever it happens to be
        raise PlanError(f"{path}: this is a broken DXF file; {RIGHT}") from None
