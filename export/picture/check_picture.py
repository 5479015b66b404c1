"""Run -> the picture of what was understood, so that a misread plan is seen at once: SVG or PNG."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path

from shapely.geometry import Polygon

from export.anchor_plan.plan_view import sheet_angle_deg
from export.paper.block import moved, placed
from export.paper.sheet import Layer, Pen, Point, Polyline, Primitive, Scale, View
from export.picture.key import Said, column
from export.picture.png import png
from export.picture.svg import svg
from export.picture.views import TITLES, Cell, members_view, roof_view, title, walls_view
from framing.errors import OutputError, StraplineError
from framing.run import Run

WIDTH_IN, LEAST_HEIGHT_IN = 24.0, 18.0
MARGIN_IN, COLUMN_IN, GUTTER_IN = 0.4, 4.6, 0.3
AROUND_IN = 0.8
"""Room around the house in its cell, for the names of its walls."""
ABOVE_IN = 0.3
GRIDS = ((1, 3), (3, 1), (2, 2))  # columns, rows
LARGEST_IN_PER_FT = 0.25


class Form(StrEnum):
    """What kind of file."""

    SVG = "svg"
    PNG = "png"


def form_of(path: Path) -> Form:
    """The form that a file's name asks for; raises StraplineError for another ending."""
    ending = path.suffix.lower().removeprefix(".")
    if ending not in list(Form):
        raise StraplineError(f"--picture: {path} is neither; write a name that ends in .png or .svg")
    return Form(ending)


def write_picture(run: Run, path: Path, form: Form) -> None:
    """Write the picture, over an earlier one; raises OutputError if it cannot be written."""
    data = check_picture(run, form)
    try:
        path.write_bytes(data)
    except (OSError, ValueError) as problem:
        reason = getattr(problem, "strerror", None) or "the path is not one"
        raise OutputError(f"{path}: it cannot be written ({reason}); name a file in a folder that can") from None


def check_picture(run: Run, form: Form = Form.SVG) -> bytes:
    """What was understood of a plan, drawn in plan.

    Walls with names and lengths, wings, seams, girders, supports and START; the members by kind; the lines of
    the roof; north, the notes and the caution. No display is needed.

    Parameters
    ----------
    run : Run
        The run of a plan.
    form : Form
        SVG, or PNG of 120 dots to the inch.

    Returns
    -------
    bytes
        The file; equal input gives equal bytes.
    """
    strokes, size_in = picture_strokes(run)
    if form is Form.PNG:
        return png(strokes, size_in)
    return svg(strokes, size_in, f"{run.plan.project.name}: what the program understood, {run.fingerprint}")


def picture_strokes(run: Run) -> tuple[tuple[Primitive, ...], Point]:
    """The picture as strokes and texts in inches of paper, y up, and its width and height."""
    angle_deg = sheet_angle_deg(run)
    n_columns, n_rows, in_per_ft = _grid(run, angle_deg)
    scale = Scale(in_per_ft=in_per_ft, written="to the scale of this bar")
    unturned = View(scale=scale, angle_deg=angle_deg, shift=(0.0, 0.0))
    cells = _cells(n_columns, n_rows)
    views = [_centred(run, unturned, cell) for cell in cells]
    seams = run.framing.seams_ft
    walls, unnamed = walls_view(run, views[0], cells[0], seams)
    drawn = (*walls, *members_view(run, views[1], cells[1]), *roof_view(run, views[2]))
    drawn += tuple(title(words, cell) for words, cell in zip(TITLES, cells, strict=True))
    beside = column(run, scale, angle_deg, Said(n_seams=len(seams), unnamed=unnamed), COLUMN_IN)
    height = max(LEAST_HEIGHT_IN, beside.height_in + 2 * MARGIN_IN)
    down = height - LEAST_HEIGHT_IN
    x = WIDTH_IN - MARGIN_IN - COLUMN_IN
    rule = Polyline(
        points=((x - GUTTER_IN / 2, MARGIN_IN), (x - GUTTER_IN / 2, height - MARGIN_IN)),
        layer=Layer.TITLE,
        pen=Pen.FINE,
    )
    strokes = (*_raised(drawn, down), rule, *placed(beside, (x, height - MARGIN_IN)))
    return strokes, (WIDTH_IN, height)


def _raised(strokes: tuple[Primitive, ...], by_in: float) -> tuple[Primitive, ...]:
    return tuple(moved(s, (0.0, by_in)) for s in strokes)


def _room() -> Point:
    return (WIDTH_IN - 2 * MARGIN_IN - COLUMN_IN - GUTTER_IN, LEAST_HEIGHT_IN - 2 * MARGIN_IN)


def _cells(n_columns: int, n_rows: int) -> list[Cell]:
    """The first three cells of a grid, by rows from the top."""
    width, height = _room()
    w, h = width / n_columns, height / n_rows
    return [
        Cell(
            left=MARGIN_IN + w * (k % n_columns),
            bottom=MARGIN_IN + height - h * (k // n_columns + 1),
            right=MARGIN_IN + w * (k % n_columns + 1),
            top=MARGIN_IN + height - h * (k // n_columns),
        )
        for k in range(3)
    ]


def _grid(run: Run, angle_deg: float) -> tuple[int, int, float]:
    """The columns and rows in which the house is largest, and its scale."""
    x0, y0, x1, y1 = _house(run, View(scale=Scale(in_per_ft=1.0, written=""), angle_deg=angle_deg, shift=(0, 0))).bounds
    width, height = _room()
    best = max(
        (
            min((width / c - 2 * AROUND_IN) / (x1 - x0), (height / r - 2 * AROUND_IN - ABOVE_IN) / (y1 - y0)),
            -c * r,
            c,
            r,
        )
        for c, r in GRIDS
    )
    return best[2], best[3], min(best[0], LARGEST_IN_PER_FT)


def _house(run: Run, view: View) -> Polygon:
    return Polygon([view.paper(w.start_ft) for w in run.outline.walls])


def _centred(run: Run, view: View, cell: Cell) -> View:
    """The view with the house in the middle of a cell."""
    x0, y0, x1, y1 = _house(run, view).bounds
    shift = ((cell.left + cell.right - x0 - x1) / 2, (cell.bottom + cell.top - ABOVE_IN - y0 - y1) / 2)
    return View(scale=view.scale, angle_deg=view.angle_deg, shift=shift)
