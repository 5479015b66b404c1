"""What the window alone letters over its sheet: cards and help, the hint, north, and the scale of the wind."""

from __future__ import annotations

import math
from collections.abc import Sequence

from PIL import Image, ImageDraw

from viewer.camera import Camera
from viewer.help import LEAST_MPH, MOST_MPH, STEP_MPH
from viewer.overlay import FAINT_INK, INK, LEGEND_PX, PAD_PX, PAPER, Box, Frame, letters, wrapped

PANEL_SIZES_PX = (16, 15, 14, 13, 12, 11, 10)
NORTH_PX = 30
SCALE_PX = 118
"""The height kept free for the wind's scale at the foot of the legend."""
REACH_PX = 16
Rows = Sequence[tuple[str, str]]


def draw_panel(sheet: Image.Image, frame: Frame, rows: Rows, *, middle: bool) -> Box:
    """A panel of rows, word and value, in the middle or at the bottom left of the model's part; its box.

    The largest letters are taken with which every row, folded where it is too wide, fits inside the model's part.
    """
    left, top, room, height = frame.model_px
    for size in PANEL_SIZES_PX:
        first, lines = _folded(rows, size, room - 44)
        pitch = size * 1.35
        if pitch * len(lines) <= height - 28:
            break
    font = letters(size)
    width = max(first * bool(value) + font.getlength(value or word) for word, value in lines)
    x, y = left + 20.0, top + height - pitch * len(lines) - 18
    if middle:
        x, y = left + (room - width) / 2, top + (height - pitch * len(lines)) / 2
    box = (x - 10, y - 8, x + width + 10, y + pitch * len(lines) + 6)
    draw = ImageDraw.Draw(sheet)
    draw.rectangle(box, fill=(255, 255, 255, 244), outline=INK)
    for k, (word, value) in enumerate(lines):
        draw.text((x, y + k * pitch), word, font=font, fill=FAINT_INK)
        draw.text((x + first, y + k * pitch), value, font=font, fill=INK)
    return box


def _folded(rows: Rows, size_px: int, room_px: float) -> tuple[float, list[tuple[str, str]]]:
    """The width of the first column, and the rows with long values folded; a row without a word fills both columns."""
    font = letters(size_px)
    first = max((font.getlength(word) for word, _ in rows), default=0.0) + 16
    lines: list[tuple[str, str]] = []
    for word, value in rows:
        if word:
            folded = wrapped(value, size_px, room_px - first)
            lines += [(word if k == 0 else "", text) for k, text in enumerate(folded)]
        else:
            lines += [(text, "") for text in wrapped(value, size_px, min(room_px, 460.0))]
    return first, lines


def draw_hint(sheet: Image.Image, frame: Frame, text: str) -> None:
    """A short text at the right end of the title."""
    at = (frame.width_px - PAD_PX, 26)
    ImageDraw.Draw(sheet).text(at, text, font=letters(15), fill=FAINT_INK, anchor="rm")


def draw_note(sheet: Image.Image, frame: Frame, text: str) -> None:
    """One line at the top left of the model's part, such as what to do next or what was measured."""
    left, top, room, _ = frame.model_px
    draw = ImageDraw.Draw(sheet)
    for k, line in enumerate(wrapped(text, 16, room - 40 - 3 * NORTH_PX)):
        width = letters(16).getlength(line)
        draw.rectangle((left + 12, top + 10 + 26 * k, left + 28 + width, top + 36 + 26 * k), fill=PAPER, outline=INK)
        draw.text((left + 20, top + 23 + 26 * k), line, font=letters(16), fill=INK, anchor="lm")


def north_tip_px(frame: Frame, camera: Camera, north_deg: float) -> tuple[Box, tuple[float, float]]:
    """The ring of the compass as the eye sees it lying on the ground, and where its needle ends."""
    left, top, room, _ = frame.model_px
    x, y = left + room - NORTH_PX - 26, top + NORTH_PX + 26
    right, up, _ = camera.axes()
    flat = abs(float(camera.axes()[2, 2]))
    c, s = math.cos(math.radians(north_deg)), math.sin(math.radians(north_deg))
    tip = (x + NORTH_PX * (right[0] * c + right[1] * s), y - NORTH_PX * (up[0] * c + up[1] * s))
    return (x - NORTH_PX, y - NORTH_PX * flat, x + NORTH_PX, y + NORTH_PX * flat), (float(tip[0]), float(tip[1]))


def draw_north(sheet: Image.Image, frame: Frame, camera: Camera, north_deg: float) -> None:
    """A compass lying on the ground at the top right of the model's part; `north_deg` is the plan's, from its x."""
    ring, tip = north_tip_px(frame, camera, north_deg)
    x, y = (ring[0] + ring[2]) / 2, (ring[1] + ring[3]) / 2
    draw = ImageDraw.Draw(sheet)
    draw.ellipse(ring, outline=FAINT_INK, width=1)
    draw.line((2 * x - tip[0], 2 * y - tip[1], *tip), fill=FAINT_INK, width=2)
    draw.line((x, y, *tip), fill=INK, width=4)
    reach = math.hypot(tip[0] - x, tip[1] - y) or 1.0
    at = (x + (tip[0] - x) * (1 + 12 / reach), y + (tip[1] - y) * (1 + 12 / reach))
    draw.text(at, "N", font=letters(17), fill=INK, anchor="mm")


def scale_px(frame: Frame) -> tuple[float, float, float]:
    """The wind's scale: where it begins and ends, and its height in the window."""
    left, top, room, height = frame.model_px
    return left + room + PAD_PX + 8, left + room + LEGEND_PX - PAD_PX - 8, top + height - 30


def mph_at(frame: Frame, x_px: float, y_px: float) -> float | None:
    """The speed at a place in the window, in whole steps, None away from the scale."""
    low, high, y = scale_px(frame)
    if abs(y_px - y) > REACH_PX or not low - REACH_PX <= x_px <= high + REACH_PX:
        return None
    ratio = min(max((x_px - low) / (high - low), 0.0), 1.0)
    return LEAST_MPH + STEP_MPH * round(ratio * (MOST_MPH - LEAST_MPH) / STEP_MPH)


def draw_scale(sheet: Image.Image, frame: Frame, mph: float, design_mph: float, words: str) -> None:
    """The wind's scale at the foot of the legend, with the design wind ticked and what that wind does."""
    low, high, y = scale_px(frame)
    draw = ImageDraw.Draw(sheet)
    lines = wrapped(words, 14, high - low + 16)
    for k, line in enumerate(lines):
        draw.text((low - 8, y - 26 - 18 * (len(lines) - k - 1)), line, font=letters(14), fill=INK, anchor="ls")
    at = {v: low + (high - low) * (v - LEAST_MPH) / (MOST_MPH - LEAST_MPH) for v in (mph, design_mph)}
    draw.line((low, y, high, y), fill=FAINT_INK, width=5)
    draw.line((at[design_mph], y - 9, at[design_mph], y + 9), fill=INK, width=2)
    draw.ellipse((at[mph] - 9, y - 9, at[mph] + 9, y + 9), fill=PAPER, outline=INK, width=3)
    draw.text((low - 8, y + 20), f"{LEAST_MPH:.0f}", font=letters(13), fill=FAINT_INK, anchor="lm")
    draw.text((high + 8, y + 20), f"{MOST_MPH:.0f} mph", font=letters(13), fill=FAINT_INK, anchor="rm")
    draw.text((at[design_mph], y + 20), "design", font=letters(13), fill=INK, anchor="mm")
