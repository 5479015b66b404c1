"""Run -> run.json: everything that one run found out, for machines."""

from __future__ import annotations

import datetime
import json
from collections import Counter
from dataclasses import asdict, is_dataclass
from typing import Any, cast

from export.tables.ground_json import ground_plain
from export.tables.package_json import package_plain, stated_plain
from framing.anchors.schedule import Mark, Use
from framing.loads.cases import GravityLoad, LoadBasis
from framing.loads.reactions import Case
from framing.members import Member, MemberKind, Strap
from framing.run import CAUTION, Run
from framing.units import feet_inches

FORMAT = 1
NO_STAGES: dict[str, object] = dict.fromkeys(
    ("finished_uplift_lb", "before_covering_uplift_lb", "before_covering_governs")
)


def run_json(run: Run) -> bytes:
    """The whole run as JSON in UTF-8, keys in a fixed order, a record a line.

    Forces are positive up except `down_lb`; each bearing's `reactions_lb` stand in the order of `cases`.
    """
    data = {
        "format": FORMAT,
        "program": {"name": "strapline", "version": run.version},
        "fingerprint": run.fingerprint,
        "caution": CAUTION,
        "plan": _plain(run.plan),
        "catalogue": {
            "name": run.schedule.catalogue.name,
            "invented": run.schedule.catalogue.invented,
            "sha256": run.schedule.catalogue.sha256,
        },
        "walls": [
            {"name": w.name, "start_ft": w.start_ft, "end_ft": w.end_ft, "length_ft": w.length_ft}
            for w in run.outline.walls
        ],
        "totals": _totals(run),
        "wind": [_plain(f) for f in run.wind],
        "cases": [_case(c) for c in run.reactions.cases],
        "combinations": _combinations(run),
        "members": [_member(m) for m in run.framing.members],
        "bearings": _bearings(run),
        "rests": _rests(run),
        "tie_beam": ground_plain(run),
        "unresolved": [_unresolved(m) for m in run.schedule.unresolved],
        "truss_package": package_plain(run),
        "notes": [*run.outline.notes, *run.roof.notes, *run.framing.notes, *run.notes],
        "flags": list(run.flags),
    }
    return ("{\n" + ",\n".join(f"{_json(k)}: {_by_line(v)}" for k, v in data.items()) + "\n}\n").encode()


def _by_line(value: object) -> str:
    if isinstance(value, list) and value:
        return "[\n " + ",\n ".join(_json(v) for v in value) + "\n]"
    return _json(value)


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def _plain(value: object) -> Any:
    """A frozen record as dicts, lists, texts and numbers; dates as ISO 8601."""
    if is_dataclass(value) and not isinstance(value, type):
        return _plain(asdict(value))
    if isinstance(value, dict):
        return {str(k): _plain(v) for k, v in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(v) for v in value]
    return value.isoformat() if isinstance(value, datetime.date) else value


def _totals(run: Run) -> dict[str, object]:
    by_kind = Counter(m.kind for m in run.framing.members)
    anchors: Counter[str] = Counter()
    for m in run.schedule.marks:
        if m.anchor:
            anchors[m.anchor.id] += m.count
    return {
        "roof_plan_area_ft2": run.roof.plan_area_ft2,
        "members": {kind.value: by_kind[kind] for kind in MemberKind},
        "marks": len(run.schedule.marks),
        "unresolved": len(run.schedule.unresolved),
        "anchors": dict(sorted(anchors.items())),
    }


def _case(case: Case) -> dict[str, object]:
    return {
        "name": case.name,
        "load": case.load,
        "basis": case.basis.value,
        "variant": case.variant.value if case.variant else "",
        "lifted": case.lifted,
        "rake": case.rake.value if case.rake else "",
        "area_ft2": case.area_ft2,
        "applied_vertical_lb": case.applied_vertical_lb,
        "reactions_vertical_lb": case.reactions_vertical_lb,
    }


def _combinations(run: Run) -> list[dict[str, object]]:
    """What is added up at each bearing, by the names of the cases; before the covering only if the plan counts it.

    Source: ASCE 7-22, sec. 2.4.1, combinations 7a (0.6 D + 0.6 W) and 3a (D + Lr; its number from memory).
    """
    reactions, before = run.reactions, run.plan.dead.without_covering
    winds = [c for c in reactions.cases if c.basis.is_wind]
    dead = [c for c in reactions.cases if c.basis is LoadBasis.DEAD]
    counted = (GravityLoad.FINISHED, GravityLoad.BEFORE_COVERING) if before else (GravityLoad.FINISHED,)
    resisting = [c for c in dead if c.gravity in counted]
    down: dict[object, list[str]] = {}
    for c in reactions.cases:
        if c.gravity in (GravityLoad.PRESSING, GravityLoad.ROOF_LIVE):
            down.setdefault(c.rake, []).append(c.name)
    uplift: list[dict[str, object]] = [
        {"for": "uplift", "terms": [{"case": d.name, "factor": 0.6}, {"case": w.name, "factor": 0.6}]}
        for w in winds
        for d in resisting
        if (d.lifted, d.rake) == (w.lifted, w.rake)
    ]
    pressing: list[dict[str, object]] = [
        {"for": "down", "terms": [{"case": name, "factor": 1.0} for name in names]} for names in down.values()
    ]
    return [*uplift, *pressing]


def _member(m: Member) -> dict[str, object]:
    return {
        "name": m.name,
        "kind": m.kind.value,
        "plies": m.plies,
        "start_ft": m.start_ft,
        "end_ft": m.end_ft,
        "span_ft": m.span_ft,
        "tail_start_ft": m.tail_start_ft,
        "tail_end_ft": m.tail_end_ft,
        "base_ft": m.base_ft,
        "profile_ft": m.profile,
        "wing": m.wing,
        "carriers": [{"kind": c.kind.value, "name": c.name} for c in m.carriers],
    }


def _bearings(run: Run) -> list[dict[str, object]]:
    """The schedule's rows with every case's reaction."""
    row_of = {b.mark: i for i, b in enumerate(run.framing.bearings)}
    reactions = cast("list[list[float]]", run.reactions.by_case_lb.round(6).tolist())
    return [
        _bearing(m)
        | (NO_STAGES if m.alone else _stages(run, row_of[m.mark]))
        | {"reactions_lb": reactions[row_of[m.mark]]}
        for m in run.schedule.marks
    ]


def _stages(run: Run, i: int) -> dict[str, object]:
    """The uplift of the finished roof and before the covering, and whether the latter governs."""
    return {
        "finished_uplift_lb": float(run.reactions.finished_uplift_lb[i]),
        "before_covering_uplift_lb": float(run.reactions.bare_uplift_lb[i]),
        "before_covering_governs": bool(run.reactions.before_covering[i]),
    }


def _bearing(m: Mark) -> dict[str, object]:
    return {
        "mark": m.mark,
        "wall": m.bearing.wall,
        "station_ft": m.bearing.station_ft,
        "station": feet_inches(m.bearing.station_ft),
        "strap_station_ft": m.bearing.strap_station_ft,
        "strap_station": feet_inches(m.bearing.strap_station_ft),
        "member": m.bearing.member,
        "kind": m.bearing.kind.value,
        "plies": m.bearing.plies,
        "side": m.side.value,
        "x_ft": m.bearing.point_ft[0],
        "y_ft": m.bearing.point_ft[1],
        "strap_x_ft": m.bearing.strap_ft[0],
        "strap_y_ft": m.bearing.strap_ft[1],
        "down_lb": m.known_down_lb,
        "uplift_lb": m.uplift_lb,
        "parallel_lb": m.parallel_lb,
        "perpendicular_lb": m.perpendicular_lb,
        "basis": m.basis,
        "case": m.case,
        "anchor": m.anchor.id if m.anchor else None,
        "count": m.count,
        "allowable_uplift_lb": m.allowable_uplift_lb,
        "ratio": m.ratio,
        "good_to_mph": m.good_to_mph,
        "held_by": m.held_by,
        "skew_deg": m.bearing.skew_deg,
        "bearing_length_in": 12.0 * m.bearing.bearing_length_ft,
        "crossing": m.bearing.crossing.value,
        "next_wall": m.bearing.next_wall,
        "only_bottom_chord": m.only_bottom_chord,
        "wood_ft": m.bearing.wood_ft,
        "embedment_in": m.anchor.embedment_in if m.anchor else None,
        "clear_in": None if m.clear_ft is None else 12.0 * m.clear_ft,
        "straps": [_strap(s) for s in m.straps],
        **_sized_by(m),
    }


def _sized_by(m: Mark) -> dict[str, object]:
    """Both bases, the storm, and the three ratios of the anchor's hardest case."""
    return {
        "uplift_mwfrs_lb": None if m.alone else m.uplift_mwfrs_lb,
        "uplift_cladding_lb": None if m.alone else m.uplift_cladding_lb,
        "storm": "" if m.alone else m.storm,
        **stated_plain(m),
        "ratio_uplift": m.use.uplift_ratio if m.use else None,
        "ratio_parallel": m.use.parallel_ratio if m.use else None,
        "ratio_perpendicular": m.use.perpendicular_ratio if m.use else None,
        "ratio_case": m.use.case if m.use else None,
        "rule": m.use.rule.value if m.use else None,
        "in_ratio_case": _in_ratio_case(m.use) if m.use else None,
    }


def _in_ratio_case(use: Use) -> dict[str, object]:
    """What the anchor's hardest case asks, sideways on the strap's axes; and the cladding's uplift with the main
    frame's pushes, told for comparison.
    """
    return {
        "kind": use.kind.value,
        "uplift_lb": use.uplift_lb,
        "parallel_lb": use.parallel_lb,
        "perpendicular_lb": use.perpendicular_lb,
        "ratio_cladding_with_sideways": use.cladding_with_sideways_ratio,
    }


def _strap(strap: Strap) -> dict[str, object]:
    """One strap: its face, its point, the tape's figure and the distances in from the faces; None on a support."""
    lengths = {
        "in_from_face_in": strap.in_from_face_ft,
        "in_from_next_face_in": strap.in_from_next_ft,
        "edge_in": strap.edge_ft,
        "end_in": strap.end_ft,
    }
    place: dict[str, object] = {
        "side": strap.side.value,
        "x_ft": strap.point_ft[0],
        "y_ft": strap.point_ft[1],
        "tape_ft": strap.tape_ft,
        "tape": feet_inches(strap.tape_ft),
    }
    return place | {name: None if ft is None else 12.0 * ft for name, ft in lengths.items()}


def _rests(run: Run) -> list[dict[str, object]]:
    """Where members run on over supports that only push: no anchor, nothing lifts there."""
    reactions = cast("list[list[float]]", run.reactions.rests_by_case_lb.round(6).tolist())
    return [
        {
            "mark": b.mark,
            "support": b.wall,
            "station_ft": b.station_ft,
            "member": b.member,
            "x_ft": b.point_ft[0],
            "y_ft": b.point_ft[1],
            "down_lb": float(down_lb),
            "reactions_lb": row,
        }
        for b, down_lb, row in zip(run.framing.rests, run.reactions.rests_down_lb, reactions, strict=True)
    ]


def _unresolved(m: Mark) -> dict[str, object]:
    return {
        "mark": m.mark,
        "wall": m.bearing.wall,
        "member": m.bearing.member,
        "kind": m.bearing.kind.value,
        "plies": m.bearing.plies,
        "uplift_lb": m.uplift_lb,
        "parallel_lb": m.parallel_lb,
        "perpendicular_lb": m.perpendicular_lb,
    }
