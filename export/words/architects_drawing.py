"""What a drawing holds, as text for people and as JSON for machines."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path

from export.architects_drawing.loops import place
from export.architects_drawing.outline import Candidate, Found
from framing.errors import PlanError
from framing.run import CAUTION
from framing.units import feet_inches, shown

FORMAT = 1
MOST_LISTED = 20


def found_json(found: Found, file: Path) -> str:
    """The closed outlines, the layers that a plan may name, and why the others cannot be."""
    answer = {
        "format": FORMAT,
        "file": str(file),
        "outlines": [asdict(c) for c in found.candidates],
        "layers": list(found.readable),
        "refused": [{"layer": layer, "why": why} for layer, why in found.refused],
        "caution": CAUTION,
    }
    return json.dumps(answer, indent=1, allow_nan=False) + "\n"


def found_text(found: Found, file: Path) -> str:
    """The same for people: the largest outlines first."""
    listed = found.candidates[:MOST_LISTED]
    rest = len(found.candidates) - len(listed)
    parts = {
        "Closed outlines, the largest first": [
            *(_line(c) for c in listed),
            *([f"and {rest} smaller"] if rest else []),
        ],
        "Layers that a plan can take its outline from": [
            f"outline_dxf = {{ file = {json.dumps(file.name)}, layer = {json.dumps(layer)} }}"
            for layer in found.readable
        ],
        "Layers that it cannot": [why for _, why in found.refused],
    }
    lines = [str(file)]
    for heading, body in parts.items():
        lines += ["", heading, *(f"  {line}" for line in body or ["none"])]
    return "\n".join([*lines, "", CAUTION, ""])


def only_layer(found: Found, file: Path) -> str:
    """The one layer of a drawing that gives an outline.

    Raises
    ------
    PlanError
        If there is none or more than one.
    """
    if len(found.readable) == 1:
        return found.readable[0]
    if found.readable:
        names = ", ".join(map(shown, found.readable))
        raise PlanError(f"{file}: the layers {names} each hold an outline; name one with --layer")
    if len(found.refused) == 1:
        raise PlanError(found.refused[0][1])
    raise PlanError(f"{file}: no layer holds an outline; strapline outline {file} says why for each")


def _line(c: Candidate) -> str:
    size = " by ".join(map(feet_inches, c.size_ft))
    place_words = f"{c.n_corners} corners, first at {place(c.first)}"
    return f"{shown(c.layer)}: {size}, {c.area_ft2:.0f} sq ft, {place_words}, in {c.unit}"
