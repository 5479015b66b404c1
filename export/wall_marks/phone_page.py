"""Run -> wall-marks.html: one file for a phone that shows a wall at a time and keeps what was set."""

from __future__ import annotations

import base64
import hashlib
import html
import json
import math
import re
from importlib import resources
from typing import Any

from export.wall_marks.deck_section import deck_section
from export.wall_marks.tape_marks import SAMPLE_WORDS, Tape, Tick, count_words, place_words, tick_words, wall_tapes
from export.words.demand import demand_words
from export.words.inspection import ANCHOR_HEAD, ANCHOR_NOTE, WRONG_STRAP, anchor_rows, placing_words, wind_rows
from framing.anchors.schedule import Mark
from framing.members import Crossing
from framing.plan import AnchorSpec, Side
from framing.run import CAUTION, Run
from framing.units import feet_inches, inches
from viewer.plain import share_words

PLACE = re.compile(r"@([A-Z]+)@")
SCRIPTS = ("judge", "store", "list", "deck", "page", "start")
PLY_IN = 1.5  # of 2x lumber: common practice, no source


def wall_marks_html(run: Run) -> bytes:
    """The page, with its figures, style and script inside; equal runs give equal bytes.

    The browser is told to run no other script and to fetch nothing (content security policy by hash).
    """
    style, script = _part("wall_marks.css"), "\n".join(_part(f"wall_marks.{name}.js") for name in SCRIPTS)
    policy = (
        f"default-src 'none'; style-src '{_hash(style)}'; script-src '{_hash(script)}'; "
        "base-uri 'none'; form-action 'none'"
    )
    parts = {
        "CSP": policy,
        "TITLE": html.escape(f"Wall marks, {run.plan.project.name}"),
        "CAUTION": html.escape(CAUTION),
        "OPEN": "\n".join(f'  <p class="open">{html.escape(said)}</p>' for said in run.wind_doubts),
        "DECK": deck_section(run),
        "STYLE": style,
        "SCRIPT": script,
        "DATA": _inside_script(wall_marks_data(run)),
    }
    return PLACE.sub(lambda found: parts[found[1]], _part("wall_marks.html")).encode()


def wall_marks_data(run: Run) -> dict[str, Any]:
    """What the page shows, as plain texts and numbers: the project, what the inspector comes for, then wall by wall and
    mark by mark.
    """
    project = run.plan.project
    return {
        "fingerprint": run.fingerprint,
        "caution": CAUTION,
        "project": project.name,
        "revision": project.revision,
        "date": str(project.date or ""),
        "truss_package": run.reconciled.words if run.reconciled else project.truss_package,
        "sample": SAMPLE_WORDS if run.schedule.catalogue.invented else "",
        "gauge": _gauge(run.plan.anchors, run.plan.wall_thickness_ft),
        "placing": placing_words(run),
        "wrong_strap": WRONG_STRAP,
        "wind": wind_rows(run),
        "anchor_head": ANCHOR_HEAD,
        "anchors": anchor_rows(run),
        "anchor_note": ANCHOR_NOTE,
        "walls": [_wall(tape) for tape in wall_tapes(run)],
    }


def _gauge(anchors: AnchorSpec, thickness_ft: float) -> dict[str, float]:
    """The plan's bands for a strap as set and how thick its walls are, in inches."""
    bands = {
        "good_in": anchors.gap_good_ft,
        "filler_in": anchors.gap_filler_ft,
        "ask_in": anchors.gap_ask_ft,
        "face_in": anchors.face_band_ft,
        "along_in": anchors.along_band_ft,
        "wall_in": thickness_ft,
    }
    return {name: round(12.0 * ft, 6) for name, ft in bands.items()}


def _wall(tape: Tape) -> dict[str, Any]:
    return {
        "name": tape.name,
        "description": tape.description,
        "start_end": tape.start_end,
        "length": feet_inches(tape.length_ft),
        "straps": count_words(tape.marks),
        "marks": [_mark(m, [t for t in tape.ticks if t.mark is m]) for m in tape.marks],
    }


def _mark(mark: Mark, ticks: list[Tick]) -> dict[str, Any]:
    return {
        "mark": mark.mark,
        "member": mark.bearing.member,
        "centre": feet_inches(mark.bearing.station_ft),
        "anchor": mark.anchor.id if mark.anchor else "",
        "count": mark.count,
        "side": mark.side.value,
        "wood_in": mark.bearing.plies * PLY_IN,
        "along": mark.bearing.crossing is Crossing.ALONG,
        "resolved": mark.resolved,
        "demand": demand_words(mark),
        **_use(mark),
        "ticks": [_tick(t) for t in ticks],
    }


def _use(mark: Mark) -> dict[str, Any]:
    """The share of the anchor that its hardest case uses, its three parts and the rule that makes one of them, by the
    schedule's names; `used` says them in words.
    """
    if mark.use is None or mark.ratio is None:
        return {"used": ""}
    use = mark.use
    parts = {"uplift": use.uplift_ratio, "parallel": use.parallel_ratio, "perpendicular": use.perpendicular_ratio}
    return {
        "ratio": round(mark.ratio, 4),
        **{f"ratio_{name}": None if ratio is None else round(ratio, 4) for name, ratio in parts.items()},
        "ratio_case": use.case,
        "rule": use.rule.value,
        "used": f"Share of the anchor used {mark.ratio:.2f}: {share_words(mark)}. In the case: {use.case}.",
    }


def _tick(tick: Tick) -> dict[str, Any]:
    """`away` and `inward` are how much farther from its truss an inch toward the far end and an inch into the house
    take the strap, less than nothing where they take it nearer; `face` is how far in it stands, None on a support.
    """
    along, inward = _normal(tick)
    in_ft = tick.strap.in_from_face_ft
    return {
        "number": tick.number,
        "side": tick.side.value,
        "away": round(along, 6),
        "inward": round(inward, 6),
        "face": None if in_ft is None else round(12.0 * in_ft, 6),
        "start": feet_inches(tick.station_ft),
        "start_in": inches(tick.station_ft),
        "far": feet_inches(tick.far_ft),
        "far_in": inches(tick.far_ft),
        "corner": tick.in_corner_block,
        "place": place_words(tick),
        "note": tick_words(tick).removesuffix(place_words(tick)).removesuffix("; "),
    }


def _normal(tick: Tick) -> tuple[float, float]:
    """The way off the truss's face that the strap lies against: its part along the tape and its part into the house."""
    if tick.mark.bearing.crossing is Crossing.ALONG:
        return (0.0, 1.0 if tick.side is Side.INSIDE else -1.0)
    sign = 1.0 if tick.side is Side.FAR else -1.0
    skew, lean = math.radians(tick.mark.bearing.skew_deg), math.radians(tick.lean_deg)
    return (sign * math.cos(skew), -sign * math.sin(lean))


def _part(name: str) -> str:
    return resources.files("export.wall_marks").joinpath(name).read_text(encoding="utf-8")


def _hash(text: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


def _inside_script(data: dict[str, Any]) -> str:
    """JSON in which no `<` stands, so that no name can end the script element."""
    return json.dumps(data, ensure_ascii=False).replace("<", "\\u003c")
