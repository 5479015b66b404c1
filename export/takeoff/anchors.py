"""Run -> anchors with spares, their nails, and the connections that are the engineer's."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from export.takeoff.rows import NO_SOURCE, Row, up
from export.wall_marks.tape_marks import SAMPLE_WORDS, n_straps_by_type
from framing.run import Run

SPARE_ANCHOR_RATIO, FEWEST_SPARE_ANCHORS = 0.05, 1
SPARE_NAIL_RATIO = 0.10


def anchor_rows(run: Run) -> Iterator[Row]:
    """Straps by type with spares, then the marks that no anchor holds.

    Source: common practice, no source (5 % spare rounded up, at least one of each).
    """
    singles = {a.id: a for a in reversed(run.schedule.catalogue.anchors) if a.count == 1}
    invented = f" {SAMPLE_WORDS}." if run.schedule.catalogue.invented else ""
    for anchor_id, n in n_straps_by_type(run.schedule.marks):
        spare = max(FEWEST_SPARE_ANCHORS, up(n * SPARE_ANCHOR_RATIO))
        one = singles.get(anchor_id)
        note = f"{n} on the plan and {spare} spare: 5 % rounded up, at least one ({NO_SOURCE}).{invented}"
        yield Row(
            item=f"anchor {anchor_id}{f', {one.name}' if one else ''}",
            quantity=n + spare,
            unit="each",
            note=note,
            price=(one.price or None) if one else None,
        )
    for name in dict.fromkeys(m.bearing.wall for m in run.schedule.by_engineer):
        there = [m for m in run.schedule.by_engineer if m.bearing.wall == name]
        where = "porch beam" if name in {b.name for b in run.framing.porch_beams} else "support"
        each = ", ".join(f"{m.mark} {m.uplift_lb:.0f} lb up" for m in there)
        note = f"Not on the tie beam and not counted above; post and beam connections by the engineer: {each}."
        yield Row(item=f"connection on {where} {name}", quantity=len(there), unit="each", note=note)
    if unresolved := run.schedule.unresolved:
        marks = ", ".join(m.mark for m in unresolved)
        note = f"No anchor of the catalogue holds: {marks}."
        yield Row(item="anchor not chosen", quantity=len(unresolved), unit="mark", note=note)
    yield from _nails(run)


def _nails(run: Run) -> Iterator[Row]:
    """Nails by kind, for the anchors on the plan."""
    nails: Counter[str] = Counter()
    for m in run.schedule.marks:
        if m.anchor:
            nails[m.anchor.fasteners] += m.anchor.n_nails
    for kind, n in nails.items():
        if n:
            note = f"{n} for the anchors on the plan and 10 % ({NO_SOURCE})."
            yield Row(item=f"nail {kind}", quantity=up(n * (1 + SPARE_NAIL_RATIO)), unit="each", note=note, key="nail")
