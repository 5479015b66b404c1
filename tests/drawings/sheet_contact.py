"""Draws one small sheet of pictures of the paper: the plan, the first tape sheet and two strips of each sample.

    python tests/drawings/sheet_contact.py [FILE.png]

Without a file it renews sample_plans/sheets-contact.png. Needs poppler's pdftoppm.
"""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path

from PIL import Image

from export.anchor_plan.pdf import anchor_plan_pdf
from export.anchor_plan.sheets import PAPERS, anchor_plan_sheets
from export.architects_drawing.outline import outline_of_drawing
from export.wall_marks.pdf import wall_marks_pdf
from framing.anchors.catalogue_file import catalogue_of
from framing.plan_file import read_plan
from framing.run import Run, make_run

SAMPLES = Path(__file__).parents[2] / "sample_plans"
CELL_PX = (320, 232)
N_GREYS = 8


def pages(run: Run) -> list[Image.Image]:
    """The large plan, the first sheet of the small one, the strips' first page and their first wall."""
    n_large = len(anchor_plan_sheets(run, PAPERS[0]))
    plan, strips = anchor_plan_pdf(run), wall_marks_pdf(run)
    return [page(plan, 1), page(plan, n_large + 1), page(strips, 1), page(strips, 2)]


def page(pdf: bytes, number: int) -> Image.Image:
    """One page as a grey picture of a cell's size."""
    wide, tall = CELL_PX
    fit = ["-scale-to-x", str(2 * wide), "-scale-to-y", str(2 * tall)]
    command = ["pdftoppm", "-gray", "-f", str(number), "-l", str(number), *fit, "-"]
    data = subprocess.run(command, input=pdf, capture_output=True, check=True).stdout
    return Image.open(io.BytesIO(data)).resize(CELL_PX, Image.Resampling.LANCZOS)


def main(target: Path) -> None:
    rows = []
    for path in sorted(SAMPLES.glob("*.toml")):
        plan = read_plan(path, outline_of_drawing)
        rows.append(pages(make_run(plan, catalogue_of(plan, path.parent))))
    wide, tall = CELL_PX
    sheet = Image.new("L", (wide * len(rows[0]), tall * len(rows)), 255)
    for y, row in enumerate(rows):
        for x, cell in enumerate(row):
            sheet.paste(cell, (x * wide, y * tall))
    sheet.quantize(N_GREYS).save(target, optimize=True)
    sys.stdout.write(f"{target}: {sum(map(len, rows))} pages, {target.stat().st_size // 1024} KB\n")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else SAMPLES / "sheets-contact.png")
