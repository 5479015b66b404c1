"""What a drawing holds, as text for people and as JSON for machines."""

from __future__ import annotations

import json
import math
from pathlib import Path

from export.architects_drawing.loops import place
from export.architects_drawing.picking import unit_question
from export.architects_drawing.search import Candidate, Search
from framing.run import CAUTION
from framing.units import feet_inches, shown

FORMAT = 2
MOST_GAPS, MOST_LAYERS = 12, 2
NONE = (
    "No house found: no pair of lines 3 to 16 in. apart closes a ring. Draw the outside face as a closed line on a "
    "layer of its own."
)


def found_json(found: Search, chosen: Candidate | None, file: Path) -> str:
    """The candidates with all that is known of each; `pick` is the number that was picked, or null."""
    ft = found.unit.ft
    answer = {
        "format": FORMAT,
        "file": str(file),
        "unit": {"words": found.unit.words, "feet": ft, "sure": found.unit_sure},
        "units": [{"unit": v.name, "points": round(v.points, 3)} for v in found.votes],
        "sure": found.sure,
        "pick": None if chosen is None else chosen.number,
        "plans_on_sheet": found.n_plans,
        "outlines": [_outline(c, ft) for c in found.candidates],
        "notes": [*said_of(found, chosen)],
        "caution": CAUTION,
    }
    return json.dumps(answer, indent=1, allow_nan=False) + "\n"


def _outline(c: Candidate, ft: float) -> dict[str, object]:
    x0, y0 = c.corners[0]
    return {
        "number": c.number,
        "how": str(c.how),
        "layer": c.layers[0],
        "layers": list(c.layers),
        "sheet_plan": c.sheet_plan,
        "n_corners": len(c.corners),
        "size_ft": list(c.size_ft),
        "area_ft2": c.area_ft2,
        "corners": [list(p) for p in c.corners],
        "corners_ft": [[(x - x0) * ft, (y - y0) * ft] for x, y in c.corners],
        "inside": list(c.inside),
        "closed": [{"width_ft": wide, "at": list(at)} for wide, at in c.closed],
        "left_out": [{"length_ft": long, "at": list(at)} for long, at in c.cut],
        "single_lines": c.single_lines,
    }


def found_text(found: Search, chosen: Candidate | None, file: Path) -> str:
    """The same for people: the likeliest first, what was closed for it, and how to go on."""
    known = f" ({found.unit.known_by})" if found.unit.known_by else ""
    lines = [str(file), f"in {found.unit.words}{known}", ""]
    if not found.candidates:
        return "\n".join([*lines, NONE, "", CAUTION, ""])
    lines.append("Outlines that may be the outside face of the walls, the likeliest first")
    lines += [f"  {_line(c, found)}" for c in found.candidates]
    first = chosen or found.candidates[0]
    if first.closed:
        lines += ["", f"Closed for outline {first.number}"]
        lines += [f"  {feet_inches(wide)} at {_at(at, found)}" for wide, at in first.closed[:MOST_GAPS]]
        rest = len(first.closed) - MOST_GAPS
        lines += [f"  and {rest} more"] if rest > 0 else []
    said = said_of(found, chosen)
    if said:
        lines += ["", *said]
    return "\n".join([*lines, "", *_way_on(found, chosen, file), "", CAUTION, ""])


def said_of(found: Search, chosen: Candidate | None) -> tuple[str, ...]:
    """What a person should know before taking an outline."""
    doubt = unit_question(found)
    out = [*(s[0].upper() + s[1:] + "." for s in found.notes), *([doubt[0].upper() + doubt[1:] + "."] if doubt else [])]
    if not found.candidates:
        return (*out, NONE)
    first = chosen or found.candidates[0]
    header = next((v for v in found.votes if v.header), None)
    if not doubt and not found.unit.asked and header is not None and header.unit.words != found.unit.words:
        size = " by ".join(map(feet_inches, first.size_ft))
        out.append(
            f"The header says {header.unit.words}; doors, walls and size say {found.unit.words}: the house would be "
            f"{size}. If not, give --unit."
        )
    if found.n_plans > 1 and chosen is None:
        out.append(f"{found.n_plans} plans are on this sheet; pick the one that the trusses stand on.")
    if first.single_lines:
        out.append(
            f"The walls of outline {first.number} are single lines; the line is taken as the outside face. Is it?"
        )
    out += [f"A free wall {long:.0f} ft long near {_at(at, found)} was left out." for long, at in first.cut[:4]]
    return tuple(out)


def _way_on(found: Search, chosen: Candidate | None, file: Path) -> list[str]:
    number = (chosen or found.candidates[0]).number
    take = f"  strapline outline {file} --pick {number} --write PLAN.toml"
    if chosen is not None or found.sure:
        return ["To take it", take]
    return [
        "To see them over the drawing, then to take one",
        f"  strapline outline {file} --picture outlines.png",
        take,
    ]


def _line(c: Candidate, found: Search) -> str:
    size = " by ".join(map(feet_inches, c.size_ft))
    layers = ", ".join(shown(name) for name in c.layers[:MOST_LAYERS])
    more = f" and {len(c.layers) - MOST_LAYERS} more" if len(c.layers) > MOST_LAYERS else ""
    plan = f"plan {c.sheet_plan}, " if found.n_plans > 1 else ""
    inside = f"around {_at(c.inside, found)}"
    return (
        f"{c.number}  {plan}{size}, {c.area_ft2:.0f} sq ft, {len(c.corners)} corners, {inside}: "
        f"{c.how} on {layers}{more}"
    )


def _at(p: tuple[float, float], found: Search) -> str:
    """A point of the drawing to a tenth of a foot or so, as somebody types it."""
    digits = max(0, round(math.log10(found.unit.ft)) + 2)
    return place((round(p[0], digits), round(p[1], digits)))
