"""Strokes -> PNG, without a display: drawn large and made smaller, so that edges are smooth."""

from __future__ import annotations

import io
from collections.abc import Sequence
from functools import lru_cache

from PIL import Image, ImageDraw, ImageFont

from export.paper.lettering import WIDE_CAP_HEIGHT_EM, free_face_file
from export.paper.sheet import PEN_WIDTH_IN, Circle, Fill, Line, Point, Polyline, Primitive, Text

DOTS_PER_IN = 120
FINER = 2
BLACK, WHITE, GREY = 0, 255, 200
N_GREYS, GREY_STEP = 16, 17


def png(strokes: Sequence[Primitive], size_in: Point) -> bytes:
    """The strokes in inches of paper, y up, as a PNG of 120 dots to the inch."""
    per_in = DOTS_PER_IN * FINER
    size = (round(size_in[0] * DOTS_PER_IN), round(size_in[1] * DOTS_PER_IN))
    image = Image.new("L", (size[0] * FINER, size[1] * FINER), WHITE)
    draw = ImageDraw.Draw(image)
    for s in strokes:
        if isinstance(s, Text):
            _write(image, s, per_in)
        else:
            _stroke(draw, s, per_in, image.height)
    small = image.resize(size, Image.Resampling.BOX).point([round(v / GREY_STEP) for v in range(256)])
    small.putpalette([v for k in range(N_GREYS) for v in (k * GREY_STEP,) * 3])  # half the bytes of 256 greys
    data = io.BytesIO()
    small.save(data, "PNG", dpi=(DOTS_PER_IN, DOTS_PER_IN), bits=4, optimize=True)
    return data.getvalue()


def _stroke(draw: ImageDraw.ImageDraw, s: Line | Polyline | Circle, per_in: int, height: int) -> None:
    def at(p: Point) -> Point:
        return (p[0] * per_in, height - p[1] * per_in)

    width = max(1, round(PEN_WIDTH_IN[s.pen] * per_in))
    if isinstance(s, Line):
        draw.line([at(s.start), at(s.end)], fill=BLACK, width=width)
        return
    fill = {Fill.NONE: None, Fill.BLACK: BLACK, Fill.WHITE: WHITE, Fill.GREY: GREY}[s.fill]
    if isinstance(s, Circle):
        draw.circle(at(s.centre), s.radius_in * per_in, outline=BLACK, fill=fill, width=width)
        return
    points = [at(p) for p in s.points]
    if fill is not None:
        draw.polygon(points, fill=fill)
    draw.line([*points, points[0]] if s.closed else points, fill=BLACK, width=width, joint="curve")


def _write(image: Image.Image, s: Text, per_in: int) -> None:
    """A text as long and as high as measured, turned about the left end of its baseline."""
    font = _font(max(1, round(s.height_in / WIDE_CAP_HEIGHT_EM * per_in)), bold=s.bold)
    left, top, right, bottom = font.getbbox(s.text, anchor="ls")
    if right <= left:
        return
    letters = Image.new("L", (int(right - left) + 2, int(bottom - top) + 2), 0)
    ImageDraw.Draw(letters).text((1 - left, 1 - top), s.text, fill=255, font=font, anchor="ls")
    width = max(1, round(s.width_in * per_in))
    letters = letters.resize((width, letters.height), Image.Resampling.LANCZOS)
    reach = max(letters.size) + 4
    square = Image.new("L", (2 * reach, 2 * reach), 0)  # the baseline's left end in the middle
    square.paste(letters, (reach, reach + int(top) - 1))
    if s.angle_deg:
        square = square.rotate(s.angle_deg, Image.Resampling.BICUBIC)
    x, y = s.start[0] * per_in, image.height - s.start[1] * per_in
    image.paste(WHITE if s.white else BLACK, (round(x) - reach, round(y) - reach), square)


@lru_cache(maxsize=16)
def _font(size: int, *, bold: bool) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(free_face_file(bold=bold), size)
