"""Draws the README's two pictures: the garage wing's framing, and the first tape strips of its wall W1.

    python tests/drawings/readme_pictures.py

Renews sample_plans/garage_wing_roof.png and garage_wing_wall.png. Needs the graphics driver that `view --picture`
needs, and poppler's pdftoppm.
"""

from __future__ import annotations

import io
import subprocess
import sys

from contact_sheet import SAMPLES, sample_run
from PIL import Image

from export.wall_marks.pdf import wall_marks_pdf
from framing.run import Run
from viewer.picture import picture_png

ROOF_PX = (1280, 800)
WALL_DPI, FIRST_STRIPS = 110, "2"
N_COLOURS, N_GREYS = 256, 16


def roof(run: Run) -> Image.Image:
    """The trusses on their walls, coloured by uplift."""
    drawn = Image.open(io.BytesIO(picture_png(run, stage="trusses"))).convert("RGB")
    drawn = drawn.resize(ROOF_PX, Image.Resampling.LANCZOS)
    return drawn.quantize(N_COLOURS, Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE)


def wall(run: Run) -> Image.Image:
    """The page of the strips after the cover."""
    command = ["pdftoppm", "-gray", "-r", str(WALL_DPI), "-f", FIRST_STRIPS, "-l", FIRST_STRIPS, "-"]
    data = subprocess.run(command, input=wall_marks_pdf(run), capture_output=True, check=True).stdout
    return Image.open(io.BytesIO(data)).quantize(N_GREYS)


if __name__ == "__main__":
    shown = sample_run(SAMPLES / "garage_wing.toml")
    for name, drawn in (("garage_wing_roof.png", roof(shown)), ("garage_wing_wall.png", wall(shown))):
        drawn.save(SAMPLES / name, optimize=True)
        sys.stdout.write(f"{SAMPLES / name}: {(SAMPLES / name).stat().st_size // 1024} KB\n")
