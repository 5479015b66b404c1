"""How colours look: CIELAB, and what the colour-blind see. A metric from outside the program.

CIELAB: CIE 15:2004, sec. 8.2.1, white D65; sRGB to XYZ: IEC 61966-2-1 (from memory).
Colour blindness: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, 'A physiologically-based model for simulation of
color vision deficiency', IEEE TVCG 15(6), 2009, the matrices at severity 1.0, applied to linear sRGB (from memory,
compared with several public copies on 2026-11-25).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

SIGHT: dict[str, Floats] = {
    "ordinary": np.eye(3),
    "protanope": np.array(
        ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998))
    ),
    "deuteranope": np.array(
        ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881))
    ),
    "tritanope": np.array(
        ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900))
    ),
}
XYZ_FROM_RGB = np.array(
    ((0.4124564, 0.3575761, 0.1804375), (0.2126729, 0.7151522, 0.0721750), (0.0193339, 0.1191920, 0.9503041))
)
D65 = np.array((0.95047, 1.0, 1.08883))


def lab(rgb: ArrayLike, sight: str = "ordinary") -> Floats:
    """CIELAB (n, 3) of screen colours (n, 3) from 0 to 255, as that sight sees them."""
    screen = np.asarray(rgb, float).reshape(-1, 3) / 255
    linear = np.where(screen <= 0.04045, screen / 12.92, ((screen + 0.055) / 1.055) ** 2.4)
    xyz = np.clip(linear @ SIGHT[sight].T, 0, 1) @ XYZ_FROM_RGB.T / D65
    f = np.where(xyz > (6 / 29) ** 3, np.cbrt(xyz), xyz / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.stack((116 * f[:, 1] - 16, 500 * (f[:, 0] - f[:, 1]), 200 * (f[:, 1] - f[:, 2])), axis=1)
