"""One perceptually even ramp of colour, our own, made without a plotting library.

A path through OKLab, walked in equal steps, so that equal steps of a figure look like equal steps of colour; lightness
falls all the way, so that it reads the same in grey and to the colour-blind. Darker always needs more care.
OKLab: B. Ottosson, 'A perceptual color space for image processing', 2020 (matrices from memory, checked by tests).
"""

from __future__ import annotations

import functools

import numpy as np
from numpy.typing import NDArray

from viewer.pieces import Floats

Bytes = NDArray[np.uint8]

_LMS_FROM_RGB = np.array(
    (
        (0.4122214708, 0.5363325363, 0.0514459929),
        (0.2119034982, 0.6806995451, 0.1073969566),
        (0.0883024619, 0.2817188376, 0.6299787005),
    )
)
_LAB_FROM_ROOT = np.array(
    (
        (0.2104542553, 0.7936177850, -0.0040720468),
        (1.9779984951, -2.4285922050, 0.4505937099),
        (0.0259040371, 0.7827717662, -0.8086757660),
    )
)
_RAMP_STOPS_LCH = (
    (0.960, 0.055, 100.0),
    (0.850, 0.115, 78.0),
    (0.720, 0.145, 52.0),
    (0.570, 0.165, 24.0),
    (0.420, 0.145, 350.0),
    (0.300, 0.115, 316.0),
    (0.200, 0.085, 290.0),
)
"""Lightness, chroma and hue in degrees of OKLab that the ramp passes, from the lowest figure to the highest."""


def oklab_to_rgb(lab: Floats) -> Floats:
    """The sRGB values (n, 3) of OKLab colours (n, 3); outside 0 to 1 where a screen cannot show the colour."""
    linear = ((lab @ np.linalg.inv(_LAB_FROM_ROOT).T) ** 3) @ np.linalg.inv(_LMS_FROM_RGB).T
    return np.where(linear <= 0.0031308, 12.92 * linear, 1.055 * np.abs(linear) ** (1 / 2.4) - 0.055)


@functools.cache
def ramp() -> Bytes:
    """The ramp (256, 3) uint8 from pale yellow to dark violet, in equal steps of OKLab."""
    lightness, chroma, hue = np.array(_RAMP_STOPS_LCH).T
    turn = np.unwrap(np.radians(hue))
    t, fine = np.linspace(0, 1, len(lightness)), np.linspace(0, 1, 4001)
    c, h = np.interp(fine, t, chroma), np.interp(fine, t, turn)
    lab = np.stack((np.interp(fine, t, lightness), c * np.cos(h), c * np.sin(h)), axis=1)
    length = np.concatenate(([0.0], np.cumsum(np.linalg.norm(np.diff(lab, axis=0), axis=1))))
    even = np.interp(np.linspace(0, length[-1], 256), length, fine)
    table = np.stack([np.interp(even, fine, lab[:, k]) for k in range(3)], axis=1)
    rgb = np.rint(np.clip(oklab_to_rgb(table), 0, 1) * 255).astype(np.uint8)
    rgb.setflags(write=False)
    return rgb
