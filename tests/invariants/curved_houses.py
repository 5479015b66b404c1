"""Random houses with curves, drawn as people draw them: by short straight walls."""

from __future__ import annotations

import math
import random

from framing.plan import Plan, Point
from invariants.houses import plan_of

KINDS = ("circle", "ellipse", "rounded corners", "apse", "bow", "cove")


def curved_plan(seed: int) -> Plan:
    """A house of its kind in turn, every third turned by 17 degrees."""
    dice = random.Random(seed)
    turn = math.radians(17.0) if seed % 3 == 2 else 0.0
    cos, sin = math.cos(turn), math.sin(turn)
    ring = _ring(KINDS[seed % len(KINDS)], dice)
    return plan_of([(round(x * cos - y * sin, 3), round(x * sin + y * cos, 3)) for x, y in ring])


def _ring(kind: str, dice: random.Random) -> list[Point]:
    if kind in ("circle", "ellipse"):
        n, radius = dice.randrange(12, 80), dice.uniform(14.0, 50.0)
        flat, first = 1.0 if kind == "circle" else dice.uniform(0.5, 1.0), dice.random()
        turns = [2.0 * math.pi * (k + first) / n for k in range(n)]
        return [(radius * math.cos(t), flat * radius * math.sin(t)) for t in turns]
    long, wide, n = dice.uniform(36.0, 80.0), dice.uniform(26.0, 44.0), dice.randrange(3, 16)
    if kind == "rounded corners":
        r = dice.uniform(4.0, wide / 2.0 - 2.0)
        centres = ((long - r, r, -90), (long - r, wide - r, 0), (r, wide - r, 90), (r, r, 180))
        return [p for x, y, at in centres for p in _arc(x, y, r, at, at + 90, n)]
    if kind == "apse":
        r = dice.uniform(5.0, wide / 2.0 - 3.0)
        return [(0.0, 0.0), (long, 0.0), *_arc(long, wide / 2.0, r, -90, 90, n), (long, wide), (0.0, wide)]
    if kind == "bow":
        half = dice.uniform(4.0, 10.0)
        deep = dice.uniform(1.0, min(4.0, half))
        r, x = (half**2 + deep**2) / 2.0 / deep, dice.uniform(half + 2.0, long - half - 2.0)
        wide_deg = math.degrees(math.asin(min(1.0, half / r)))
        return [
            (0.0, 0.0),
            *_arc(x, r - deep, r, -90 - wide_deg, -90 + wide_deg, n),
            (long, 0.0),
            (long, wide),
            (0.0, wide),
        ]
    r = dice.uniform(4.0, wide / 2.0)
    return [(0.0, 0.0), *_arc(long, 0.0, r, 180, 90, n), (long, wide), (0.0, wide)]


def _arc(x: float, y: float, radius: float, from_deg: float, to_deg: float, n: int) -> list[Point]:
    turns = [math.radians(from_deg + (to_deg - from_deg) * k / n) for k in range(n + 1)]
    return [(x + radius * math.cos(t), y + radius * math.sin(t)) for t in turns]
