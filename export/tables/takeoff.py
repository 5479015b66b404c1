"""Run -> takeoff.csv: what to order, and the rule behind every quantity."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator

import shapely

from export.tables.csv_rows import csv_bytes, safe_text
from export.wall_marks.tape_marks import SAMPLE_WORDS, n_straps_by_type
from framing.members import MemberKind
from framing.roof.lines import LineKind
from framing.roof.surface import Face, Roof
from framing.run import Run
from framing.units import feet_inches
from framing.walls.standing_walls import standing_lines

COLUMNS = ("item", "quantity", "unit", "note")
NO_SOURCE = "common practice, no source"
SPARE_ANCHOR_RATIO, FEWEST_SPARE_ANCHORS = 0.05, 5
SPARE_NAIL_RATIO = 0.10
SHEET_FT2 = 32.0
BLOCK_JOINT_IN = 0.375
Row = tuple[str, str, str, str]


def takeoff_csv(run: Run) -> bytes:
    """Anchors with spares, nails, trusses, deck, roof lengths and tie-beam concrete.

    Returns
    -------
    bytes
        UTF-8 with byte-order mark, comma, CRLF; `COLUMNS`, then the fingerprint and the caution.

    Source: common practice, no source (every waste rule; each note says so).
    """
    rows = [*_anchors(run), *_nails(run), *_trusses(run), *_roof(run.roof), _concrete(run)]
    return csv_bytes(run, COLUMNS, [tuple(safe_text(cell) for cell in row) for row in rows])


def _anchors(run: Run) -> Iterator[Row]:
    """Straps by type with spares, then the marks that no anchor holds."""
    names = {a.id: a.name for a in reversed(run.schedule.catalogue.anchors) if a.count == 1}
    invented = f" {SAMPLE_WORDS}." if run.schedule.catalogue.invented else ""
    for anchor_id, n in n_straps_by_type(run.schedule.marks):
        spare = max(FEWEST_SPARE_ANCHORS, _up(n * SPARE_ANCHOR_RATIO))
        name = f", {names[anchor_id]}" if anchor_id in names else ""
        note = f"{n} on the plan and {spare} spare: 5 %, at least 5 ({NO_SOURCE}).{invented}"
        yield (f"anchor {anchor_id}{name}", str(n + spare), "each", note)
    for name in dict.fromkeys(m.bearing.wall for m in run.schedule.by_engineer):
        there = [m for m in run.schedule.by_engineer if m.bearing.wall == name]
        where = "porch beam" if name in {b.name for b in run.framing.porch_beams} else "support"
        each = ", ".join(f"{m.mark} {m.uplift_lb:.0f} lb up" for m in there)
        note = f"Not on the tie beam and not counted above; post and beam connections by the engineer: {each}."
        yield (f"connection on {where} {name}", str(len(there)), "each", note)
    if unresolved := run.schedule.unresolved:
        marks = ", ".join(m.mark for m in unresolved)
        yield ("anchor not chosen", str(len(unresolved)), "mark", f"No anchor of the catalogue holds: {marks}.")


def _nails(run: Run) -> Iterator[Row]:
    """Nails by kind, for the anchors on the plan."""
    nails: Counter[str] = Counter()
    for m in run.schedule.marks:
        if m.anchor:
            nails[m.anchor.fasteners] += m.anchor.n_nails
    for kind, n in nails.items():
        if n:
            note = f"{n} for the anchors on the plan and 10 % ({NO_SOURCE})."
            yield (f"nail {kind}", str(_up(n * (1 + SPARE_NAIL_RATIO))), "each", note)


def _trusses(run: Run) -> Iterator[Row]:
    """Members by kind, span between bearings and plies, then the pieces in all."""
    kinds = list(MemberKind)
    counts = Counter((kinds.index(m.kind), feet_inches(m.span_ft), m.plies) for m in run.framing.members)
    longest = {(kinds.index(m.kind), feet_inches(m.span_ft), m.plies): m.span_ft for m in run.framing.members}
    for key in sorted(counts, key=lambda k: (k[0], -longest[k], k[2])):
        kind, span, plies = key
        note = f"Span between bearings; {plies} {'plies' if plies > 1 else 'ply'} each; overhangs not counted."
        yield (f"{kinds[kind].value}, span {span}, {plies} ply", str(counts[key]), "each", note)
    plies = sum(m.plies for m in run.framing.members)
    yield ("plies of all members", str(plies), "each", "Members x plies; the truss engineer's package governs.")


def _roof(roof: Roof) -> Iterator[Row]:
    """Areas on the slope, deck sheets, and the length of every kind of line."""
    area_ft2 = sum(_sloped_area_ft2(f) for f in roof.faces)
    lengths = {k: sum(line.length_ft for line in roof.lines if line.kind is k) for k in LineKind}
    waste, shape = _deck_waste(lengths)
    yield (
        "roof area on the slope",
        f"{area_ft2:.1f}",
        "sq ft",
        "Every visible face, overhangs included; no waste added.",
    )
    note = f"4 x 8 ft sheets over the area on the slope and {100 * waste:.0f} % waste for {shape} ({NO_SOURCE})."
    yield ("deck sheet 4 x 8 ft", str(_up(area_ft2 * (1 + waste) / SHEET_FT2)), "each", note)
    for kind, length_ft in lengths.items():
        if length_ft > 0 or kind is not LineKind.STEP:
            yield (kind.value, f"{length_ft:.1f}", "ft", "True length on the slope; no waste added.")


def _deck_waste(lengths_ft: dict[LineKind, float]) -> tuple[float, str]:
    """The upper end of the usual range for the roof's shape.

    Source: common practice, no source (5 to 8 % gable, 10 to 15 % hip, 15 to 20 % cut-up).
    """
    if lengths_ft[LineKind.VALLEY] > 0:
        return 0.20, "a cut-up roof"
    return (0.15, "a hip roof") if lengths_ft[LineKind.HIP] > 0 else (0.08, "a gable roof")


def _sloped_area_ft2(face: Face) -> float:
    """True area of a plane face: its plan area over the cosine of its slope. [ft2]."""
    plan = shapely.Polygon([p[:2] for p in face.ring_ft], [[p[:2] for p in hole] for hole in face.holes_ft])
    x0, y0, z0 = face.ring_ft[0]
    dx, dy = face.downhill
    fall = [((x - x0) * dx + (y - y0) * dy, z0 - z) for x, y, z in face.ring_ft[1:]]
    run_ft, drop_ft = max(fall, key=lambda f: abs(f[0]))
    return float(plan.area) * math.hypot(1.0, drop_ft / run_ft if run_ft else 0.0)


def _concrete(run: Run) -> Row:
    """Concrete of the tie beam along the middle of the walls; under a porch beam there is none, but where the beam is
    said to hold down it is the tie beam, run on.

    Source: common practice, no source (block sizes: actual is 3/8 in. under nominal).
    """
    beam = run.plan.tie_beam
    width_ft = (beam.nominal_width_in - BLOCK_JOINT_IN) / 12.0
    other = tuple(b for b in run.framing.porch_beams if not run.plan.supports[b.support].holds_down)
    length_ft = sum(shapely.LineString(s).length for s in standing_lines(run.outline, other, width_ft / 2.0))
    yards = length_ft * beam.depth_ft * width_ft / 27.0
    porch = f"; none along porch beam {' and '.join(b.name for b in other)}" if other else ""
    note = (
        f"Tie beam {beam.name}: {length_ft:.1f} ft along the middle of the walls{porch} x {12 * beam.depth_ft:g} in. "
        f"deep x {12 * width_ft:g} in. wide (actual sizes, {NO_SOURCE}); filled cells and waste not counted."
    )
    return ("concrete of the tie beam", f"{yards:.2f}", "cu yd", note)


def _up(quantity: float) -> int:
    """The next whole number, forgiving the last bit of a float."""
    return math.ceil(quantity - 1e-9)
