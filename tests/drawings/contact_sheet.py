"""Draws one small sheet of pictures to look at: every colouring, every stage, some views, each sample plan.

    python tests/drawings/contact_sheet.py [FILE.png]

Without a file it renews sample_plans/contact-sheet.png. Needs the graphics driver that `view --picture` needs.
"""

from __future__ import annotations

import io
import sys
from pathlib import Path

from PIL import Image

from export.architects_drawing.outline import outline_of_drawing
from framing.anchors.catalogue_file import catalogue_of
from framing.plan_file import read_plan
from framing.run import Run, make_run
from viewer.camera import View
from viewer.colours import TYPED_KEYS
from viewer.picture import picture_png
from viewer.stages import Stage

SAMPLES = Path(__file__).parents[2] / "sample_plans"
COLUMNS, CELL_PX = 4, (480, 300)
N_COLOURS = 256


def sample_run(path: Path) -> Run:
    plan = read_plan(path, outline_of_drawing)
    return make_run(plan, catalogue_of(plan, path.parent))


def pictures() -> list[bytes]:
    """Every colouring and four views of the garage wing, every stage of the hip house, the other plans."""
    runs = {path.stem: sample_run(path) for path in sorted(SAMPLES.glob("*.toml"))}
    wing, hip = runs["garage_wing"], runs["hip_house"]
    views = (View.OPPOSITE_CORNER, View.FRONT, View.RIGHT, View.PLAN)
    return [
        *(picture_png(wing, colour=key, stage="trusses") for key in TYPED_KEYS),
        *(picture_png(wing, view=view) for view in views),
        *(picture_png(hip, stage=stage.key) for stage in Stage),
        *(picture_png(run) for name, run in runs.items() if name != "hip_house"),
    ]


def main(target: Path) -> None:
    width, height = CELL_PX
    shown = pictures()
    rows = -(-len(shown) // COLUMNS)
    sheet = Image.new("RGB", (width * COLUMNS, height * rows), "white")
    for k, data in enumerate(shown):
        cell = Image.open(io.BytesIO(data)).resize(CELL_PX, Image.Resampling.LANCZOS)
        sheet.paste(cell, (k % COLUMNS * width, k // COLUMNS * height))
    sheet.quantize(N_COLOURS, Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE).save(target, optimize=True)
    sys.stdout.write(f"{target}: {len(shown)} pictures, {target.stat().st_size // 1024} KB\n")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else SAMPLES / "contact-sheet.png")
