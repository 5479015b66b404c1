"""The lettering round and over the model, drawn once for window and picture: title, stage, legend, labels, caution.

Drawn by Pillow with its own built-in letters, so that nothing depends on the machine's fonts and every text is measured
before it is drawn. The strips round the model are opaque; over the model only labels and panels are.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from viewer.camera import Camera
from viewer.colours import Colouring, ColourKey, Rgb, Swatch
from viewer.scene import Label, Point3, Scene, Signed
from viewer.signs import SIGNS, Outline, Shape
from viewer.stages import STAGES, Stage

INK = (26, 28, 32, 255)
FAINT_INK = (84, 88, 96, 255)
PAPER = (255, 255, 255, 255)
EDGE = (176, 180, 186, 255)
TITLE_PX, CAUTION_PX, LEGEND_PX, PAD_PX = 92, 100, 276, 18
SWATCH_LINE_PX = 20.0
CLEAR_OF_TAG_PX, CLEAR_OF_CROSS_PX = 12, 26
LEAST_FACING_RATIO = 0.05
"""A label whose wall is turned from the eye is not drawn: the cosine must be at least this ..."""
STEEP_RATIO = 0.8
"""... unless the eye looks down at least this steeply, when every wall is seen from above."""
SIGN_PX = 8.0
LABEL_PX = 13
DOTS = (Shape.DOT, Shape.OPEN_DOT)
HINT_PX = 160
"""Kept free at the right end of the title."""
Box = tuple[float, float, float, float]
Ink = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The size of the whole picture and of the part of it that the model fills, in pixels.

    `caution_px` is the height of the strip with the caution and the notes.
    """

    width_px: int
    height_px: int
    caution_px: int = CAUTION_PX

    @property
    def model_px(self) -> tuple[int, int, int, int]:
        """Left, top, width and height of the model's part."""
        width = max(self.width_px - LEGEND_PX, 64)
        return (0, TITLE_PX, width, max(self.height_px - TITLE_PX - self.caution_px, 64))


@functools.cache
def letters(size_px: int) -> ImageFont.FreeTypeFont | ImageFont.ImageFont:
    """The built-in letters at a size."""
    return ImageFont.load_default(size_px)


def wrapped(text: str, size_px: int, width_px: float) -> list[str]:
    """A text in lines no wider than a width; a word that is too long alone is cut."""
    font, lines = letters(size_px), [""]
    for word in text.split():
        piece = word
        while font.getlength(piece) > width_px and len(piece) > 1:
            piece = piece[:-1]
        grown = f"{lines[-1]} {piece}".strip()
        if font.getlength(grown) <= width_px or not lines[-1]:
            lines[-1] = grown
        else:
            lines.append(piece)
    return lines


def frame_sheet(scene: Scene, colouring: Colouring, stage: Stage, frame: Frame, *, foot_px: int = 0) -> Image.Image:
    """The strips round the model, opaque, with a clear hole where the model is; `foot_px` of the legend stay free."""
    sheet = Image.new("RGBA", (frame.width_px, frame.height_px), PAPER)
    left, top, width, height = frame.model_px
    sheet.paste((255, 255, 255, 0), (left, top, left + width, top + height))
    draw = ImageDraw.Draw(sheet)
    _title(draw, scene, stage, frame, colouring.headline)
    _legend(draw, colouring, (width + PAD_PX, top + 10, frame.width_px - PAD_PX, top + height - foot_px))
    _caution(draw, scene, frame)
    draw.rectangle((left, top, left + width - 1, top + height - 1), outline=EDGE)
    return sheet


def frame_for(scene: Scene, width_px: int, height_px: int) -> Frame:
    """The frame of a size, its lowest strip as high as the caution and the notes need at that width."""
    width = width_px - 2 * PAD_PX
    need = 16 * 1.28 * len(wrapped(scene.caution, 16, width)) + 14 * 1.28 * len(wrapped(_notes(scene), 14, width))
    return Frame(width_px=width_px, height_px=height_px, caution_px=max(CAUTION_PX, math.ceil(need) + 20))


def _notes(scene: Scene) -> str:
    return " ".join((*scene.notes, f"Fingerprint {scene.fingerprint}."))


def _lines(draw: ImageDraw.ImageDraw, at: tuple[float, float], lines: Sequence[str], size_px: int, ink: Ink) -> float:
    """Draws lines downward from a point; the y below the last."""
    x, y = at
    for line in lines:
        draw.text((x, y), line, font=letters(size_px), fill=ink)
        y += size_px * 1.28
    return y


def _title(draw: ImageDraw.ImageDraw, scene: Scene, stage: Stage, frame: Frame, headline: str) -> None:
    text = STAGES[stage]
    width = frame.width_px - 2 * PAD_PX
    _lines(draw, (PAD_PX, 10), wrapped(scene.title, 26, width - HINT_PX)[:1], 26, INK)
    words = headline or f"Stage {stage + 1} of {len(STAGES)}, {text.title.lower()}. {text.sentence}"
    size = next((n for n in range(18, 10, -1) if len(wrapped(words, n, width)) <= 2), 10)
    _lines(draw, (PAD_PX, 44), wrapped(words, size, width), size, FAINT_INK)


def _caution(draw: ImageDraw.ImageDraw, scene: Scene, frame: Frame) -> None:
    width = frame.width_px - 2 * PAD_PX
    top = frame.height_px - frame.caution_px + 8
    y = _lines(draw, (PAD_PX, top), wrapped(scene.caution, 16, width), 16, INK)
    _lines(draw, (PAD_PX, y + 2), wrapped(_notes(scene), 14, width), 14, FAINT_INK)


def _legend(draw: ImageDraw.ImageDraw, colouring: Colouring, box: Box) -> None:
    """Title with its unit, the ramp with a figure at every tick, then the named colours."""
    x0, y0, x1, y1 = box
    title = f"{colouring.title}, {colouring.unit}" if colouring.unit else colouring.title
    y = _lines(draw, (x0, y0), wrapped(title, 17, x1 - x0), 17, INK) + 14
    if colouring.sentence:
        y = _lines(draw, (x0, y - 6), wrapped(colouring.sentence, 14, x1 - x0), 14, FAINT_INK) + 14
    named = [wrapped(s.text, 16, x1 - x0 - 50) for s in colouring.swatches]
    n_lines = sum(len(lines) for lines in named)
    swatch_px = min(28.0, (y1 - y) / max(n_lines, 1))
    if len(colouring.ramp_rgb):
        height = max(int(min(360.0, y1 - y - swatch_px * n_lines - 40)), 40)
        for row in range(height):
            colour = tuple(int(c) for c in colouring.ramp_rgb[round(255 * (1 - row / (height - 1)))])
            draw.line((x0, y + row, x0 + 34, y + row), fill=colour)
        draw.rectangle((x0, y, x0 + 34, y + height - 1), outline=INK)
        for place, text in colouring.ticks:
            tick = y + (height - 1) * (1 - place)
            draw.line((x0 + 34, tick, x0 + 42, tick), fill=INK)
            draw.text((x0 + 50, tick), f"{text} {colouring.unit}".rstrip(), font=letters(17), fill=INK, anchor="lm")
        y += height + 22
    for swatch, lines in zip(colouring.swatches, named, strict=True):
        _swatch(draw, swatch, lines, (x0, y))
        y += max(swatch_px, min(SWATCH_LINE_PX, swatch_px) * len(lines) + 8)


def _swatch(draw: ImageDraw.ImageDraw, swatch: Swatch, lines: Sequence[str], at: tuple[float, float]) -> None:
    x, y = at
    if swatch.shape is not None:
        _sign(draw, swatch.shape, swatch.rgb, (x + 17, y + 9), 9.0)
    elif swatch.cross:
        for a, b in ((0, 18), (18, 0)):
            draw.line((x + 8 + a, y, x + 8 + b, y + 18), fill=swatch.rgb, width=5)
    else:
        draw.rectangle((x, y, x + 34, y + 18), fill=swatch.rgb, outline=INK)
    for k, line in enumerate(lines):
        draw.text((x + 50, y + 9 + k * SWATCH_LINE_PX), line, font=letters(16), fill=INK, anchor="lm")


def spoken(label: Label) -> str:
    """What a label says: an unresolved mark says so itself."""
    return f"{label.text}: no anchor" if label.unresolved else label.text


def place_labels(
    labels: Sequence[Label],
    camera: Camera,
    size_px: tuple[int, int],
    letter_px: int,
    taken: Sequence[Box] = (),
) -> tuple[tuple[Label, Box], ...]:
    """The labels that fit and face the eye, lowest rank first, each with its box.

    No two boxes overlap, none covers what is `taken`, and none leaves the model's part.
    """
    if not labels:
        return ()
    width, height = size_px
    points = np.array([label.point_ft for label in labels])
    seen = camera.project(points, width, height)
    back = np.asarray(camera.position_ft) - points
    outward = np.array([label.outward for label in labels])
    facing = np.sum(back[:, :2] * outward, axis=1) / np.linalg.norm(back, axis=1)
    facing[~outward.any(axis=1)] = 1.0
    if abs(camera.axes()[2, 2]) > STEEP_RATIO:
        facing[:] = 1.0
    font = letters(letter_px)
    kept: list[tuple[Label, Box]] = []
    for k in sorted(range(len(labels)), key=lambda i: labels[i].rank):
        if seen[k, 2] <= 0 or facing[k] < LEAST_FACING_RATIO:
            continue
        half, x = font.getlength(spoken(labels[k])) / 2 + 4, seen[k, 0]
        y = seen[k, 1] - _clear_px(labels[k], letter_px)
        box = (float(x - half), float(y - letter_px - 7), float(x + half), float(y))
        inside = box[0] >= 1 and box[1] >= 1 and box[2] <= width - 1 and box[3] <= height - 1
        if inside and not any(_overlap(box, other) for other in (*taken, *(o for _, o in kept))):
            kept.append((labels[k], box))
    return tuple(kept)


def letter_model(
    sheet: Image.Image,
    frame: Frame,
    scene: Scene,
    shown: tuple[ColourKey, Stage],
    camera: Camera,
    keeps: Callable[[Point3], bool] = lambda _: True,
) -> None:
    """Draws the signs and labels of a colouring up to a stage, those at places that are kept, over the model."""
    size = frame.model_px[2:]
    stated = shown[0] is ColourKey.STATE and shown[1] is not Stage.FINISHED
    signs = [s for s in scene.signs if stated and keeps(s.point_ft)]
    draw_signs(sheet, frame, signs, camera)
    wanted = [label for label in scene.labels_of(*shown) if keeps(label.point_ft)]
    placed = place_labels(wanted, camera, size, LABEL_PX, sign_boxes(signs, camera, size))
    draw_labels(sheet, frame, placed, LABEL_PX)


def sign_boxes(signs: Sequence[Signed], camera: Camera, size_px: tuple[int, int]) -> tuple[Box, ...]:
    """The places of the signs in the model's part; dots are small and may be covered."""
    found = [s.point_ft for s in signs if s.shape not in DOTS]
    if not found:
        return ()
    seen = camera.project(np.array(found), *size_px)
    return tuple((float(x - SIGN_PX), float(y - SIGN_PX), float(x + SIGN_PX), float(y + SIGN_PX)) for x, y, _ in seen)


def draw_signs(sheet: Image.Image, frame: Frame, signs: Sequence[Signed], camera: Camera) -> None:
    """Draws signs at their places onto the model's part of a sheet, those of the gravest states last, and a line from
    where a strap stood.
    """
    draw = ImageDraw.Draw(sheet)
    left, top, width, height = frame.model_px
    for one in signs:
        points = np.array([p for p in (one.point_ft, one.from_ft) if p is not None])
        seen = camera.project(points, width, height)
        inside = (seen[:, 2] > 0) & (seen[:, 0] > 8) & (seen[:, 0] < width - 8) & (seen[:, 1] > 8)
        if not (inside & (seen[:, 1] < height - 8)).all():
            continue
        at = [(float(left + x), float(top + y)) for x, y in seen[:, :2]]
        if len(at) == 2:
            draw.line(at, fill=PAPER, width=6)
            draw.line(at, fill=INK, width=3)
            _sign(draw, Shape.OPEN_DOT, one.rgb, at[1], SIGN_PX)
        _sign(draw, one.shape, one.rgb, at[0], SIGN_PX)


def _sign(draw: ImageDraw.ImageDraw, shape: Shape, rgb: Rgb, at: tuple[float, float], reach_px: float) -> None:
    """A sign with a dark edge."""

    def placed(ring: Outline) -> list[tuple[float, float]]:
        return [(at[0] + reach_px * x, at[1] - reach_px * y) for x, y in ring]

    sign = SIGNS[shape]
    draw.polygon(placed(sign.body), fill=rgb, outline=INK, width=1 if shape in DOTS else 2)
    if sign.core:
        draw.polygon(placed(sign.core), fill=PAPER, outline=INK, width=1)
    for stroke in sign.strokes:
        draw.line(placed(stroke), fill=PAPER, width=5)
        draw.line(placed(stroke), fill=INK, width=2)


def _clear_px(label: Label, letter_px: int) -> float:
    """How far a label's lower edge stands over its place; a zone's letters stand on it."""
    if label.zone:
        return -(letter_px + 7) / 2
    return CLEAR_OF_CROSS_PX if label.unresolved else CLEAR_OF_TAG_PX


def _overlap(a: Box, b: Box) -> bool:
    return a[0] < b[2] + 2 and b[0] < a[2] + 2 and a[1] < b[3] + 2 and b[1] < a[3] + 2


def draw_labels(sheet: Image.Image, frame: Frame, placed: Sequence[tuple[Label, Box]], letter_px: int) -> None:
    """Draws placed labels onto the model's part of a sheet."""
    draw = ImageDraw.Draw(sheet)
    left, top, _, _ = frame.model_px
    for label, (x0, y0, x1, y1) in placed:
        ink, paper = (PAPER, INK) if label.unresolved else (INK, PAPER)
        draw.rectangle((left + x0, top + y0, left + x1, top + y1), fill=paper, outline=EDGE)
        middle = (left + (x0 + x1) / 2, top + (y0 + y1) / 2)
        draw.text(middle, spoken(label), font=letters(letter_px), fill=ink, anchor="mm")
