"""What `check` finds: one record of it, as text for people and as JSON for machines."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import asdict
from typing import Any

from export.words.demand import unresolved_words
from export.words.ground import beam_lines, opening_lines
from export.words.sizing import sizing_lines
from export.words.supports import Carried, carried_by_supports, support_words
from framing.anchors.schedule import BEFORE, Mark
from framing.plan import Point
from framing.run import CAUTION, Run
from framing.units import feet_inches

FORMAT = 1
N_LARGEST = 10


def findings(run: Run) -> dict[str, Any]:
    """Walls, wings, member counts, wind, the largest uplifts, everything assumed, noted, flagged, unresolved.

    Parameters
    ----------
    run : Run
        The run of a plan.

    Returns
    -------
    dict
        Plain texts, numbers and lists; lengths in feet, forces in pounds.
    """
    largest = sorted(run.schedule.marks, key=lambda m: -m.uplift_lb)[:N_LARGEST]
    catalogue = run.schedule.catalogue
    return {
        "format": FORMAT,
        "project": run.plan.project.name,
        "fingerprint": run.fingerprint,
        "walls": [
            {"name": w.name, "start_ft": w.start_ft, "end_ft": w.end_ft, "length_ft": w.length_ft}
            for w in run.outline.walls
        ],
        "wings": _wings(run),
        "porches": [
            {
                "name": p.name,
                "corners_ft": list(run.plan.porches[p.porch].corners_ft),
                "open_to": [run.outline.walls[w].name for w in p.open_walls],
            }
            for p in run.framing.porches
        ],
        "supports": [_support(c) for c in carried_by_supports(run)],
        "members": dict(Counter(str(m.kind) for m in run.framing.members)),
        "n_marks": len(run.schedule.marks),
        "wind": [asdict(figure) for figure in run.wind],
        "catalogue": {"name": catalogue.name, "invented": catalogue.invented},
        "sizing": {
            "storm_before_covering_governs": sum(m.storm == BEFORE for m in run.schedule.marks),
            "anchors": asdict(run.schedule.totals),
            "anchors_by_main_frame_alone": asdict(run.schedule.main_frame_alone),
        },
        "largest_uplifts": [_uplift(m) for m in largest if m.uplift_lb > 0],
        "assumed": list(run.plan.assumed),
        "notes": list(dict.fromkeys((*run.outline.notes, *run.roof.notes, *run.framing.notes, *run.notes))),
        "flags": list(run.flags),
        "unresolved": [_uplift(m) for m in run.schedule.unresolved],
        "caution": CAUTION,
    }


def findings_json(run: Run) -> str:
    """The findings for machines."""
    return json.dumps(findings(run), indent=1, allow_nan=False) + "\n"


def findings_text(run: Run) -> str:
    """The findings for people, a heading and its lines at a time."""
    found, catalogue = findings(run), run.schedule.catalogue
    sample = " (invented sample)" if found["catalogue"]["invented"] else ""
    parts = {
        "Walls, outside face, counter-clockwise": [_wall_line(w) for w in found["walls"]],
        "Wings": [_wing_line(w) for w in found["wings"]],
        "Open porches": [_porch_line(p) for p in found["porches"]],
        "Supports": [support_words(c) for c in carried_by_supports(run)],
        f"Members, {found['n_marks']} marks": [f"{n:4d}  {kind}" for kind, n in found["members"].items()],
        "Wind": [_wind_line(f) for f in found["wind"]],
        f"Largest ASD net uplifts, anchors of {found['catalogue']['name']}{sample}": [
            _uplift_line(m) for m in found["largest_uplifts"]
        ],
        "Where the pull stops (ASD)": [*beam_lines(run), *opening_lines(run)],
        "What sizes the anchors": sizing_lines(run),
        "Assumed, because the plan does not say": found["assumed"],
        "Notes": found["notes"],
        "Flags": found["flags"],
        "Unresolved": [f"{m.mark:<8} {unresolved_words(m, catalogue)}" for m in run.schedule.unresolved],
    }
    lines = [f"{found['project']}   fingerprint {found['fingerprint']}"]
    for heading, body in parts.items():
        if body:
            lines += ["", heading, *(f"  {line}" for line in body)]
    return "\n".join([*lines, "", CAUTION, ""])


def _wings(run: Run) -> list[dict[str, Any]]:
    ridges = ("along W1", "square to W1")
    return [
        {
            "name": w.name,
            "corners_ft": [run.outline.frame.to_plan(w.low_ft), run.outline.frame.to_plan(w.high_ft)],
            "along_w1_ft": w.high_ft[0] - w.low_ft[0],
            "square_to_w1_ft": w.high_ft[1] - w.low_ft[1],
            "ridge": ridges[w.ridge_axis],
            "n_gables": sum(w.gable),
        }
        for w in run.roof.wings
    ]


def _support(carried: Carried) -> dict[str, Any]:
    s = carried.support
    return {
        "name": carried.name,
        "kind": s.kind.value,
        "start_ft": s.start_ft,
        "end_ft": s.end_ft,
        "holds_down": s.holds_down,
        "n_marks": carried.n_marks,
        "largest_uplift_lb": carried.largest_uplift_lb,
        "n_rests": carried.n_rests,
        "largest_down_lb": carried.largest_down_lb,
    }


def _uplift(m: Mark) -> dict[str, Any]:
    return {
        "mark": m.mark,
        "member": m.bearing.member,
        "plies": m.bearing.plies,
        "uplift_lb": m.uplift_lb,
        "parallel_lb": m.parallel_lb,
        "perpendicular_lb": m.perpendicular_lb,
        "basis": m.basis,
        "case": m.case,
        "anchor": m.anchor.id if m.anchor else None,
        "count": m.count,
        "ratio": m.ratio,
        "good_to_mph": m.good_to_mph,
    }


def _wall_line(wall: dict[str, Any]) -> str:
    start, end = _point(wall["start_ft"]), _point(wall["end_ft"])
    return f"{wall['name']:<4} {feet_inches(wall['length_ft']):>12}   from {start} to {end}"


def _wing_line(wing: dict[str, Any]) -> str:
    size = f"{feet_inches(wing['along_w1_ft'])} along W1 x {feet_inches(wing['square_to_w1_ft'])}"
    ends = {0: "hipped at both ends", 1: "gabled at one end", 2: "gabled at both ends"}
    return f"{wing['name']}: {size}, ridge {wing['ridge']}, {ends.get(wing['n_gables'], 'gabled on more sides')}"


def _porch_line(porch: dict[str, Any]) -> str:
    corners = ", ".join(_point(p) for p in porch["corners_ft"])
    return f"{porch['name']}: open to {' and '.join(porch['open_to'])}, corners {corners}"


def _wind_line(figure: dict[str, Any]) -> str:
    value = f"{figure['symbol']} = {figure['value']:.4g} {figure['unit']}".rstrip()
    return f"{value:<28} {figure['meaning']} [{figure['source']}]"


def _uplift_line(m: dict[str, Any]) -> str:
    held = "no anchor" if m["anchor"] is None else f"{m['count']} x {m['anchor']}, ratio {m['ratio']:.2f}"
    if m["good_to_mph"] is not None:
        held += f", good to {m['good_to_mph']:.0f} mph"
    return f"{m['mark']:<8} {m['uplift_lb']:>6.0f} lb   {m['member']:<16} {held}   [{m['case']}]"


def _point(p: Point) -> str:
    return f"({feet_inches(p[0])}, {feet_inches(p[1])})"
