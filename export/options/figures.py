"""What tells one variant from another: anchors, money, minutes, the weakest mark, the wind it is good to."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from export.takeoff.table import takeoff_total
from framing.run import Run


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """One variant. `anchors` are (id, straps) in the catalogue's order, `price` and `minutes` those of the straps where
    the catalogue gives them for each of them (else None), `takeoff_price` all of the takeoff that has one, `weakest`
    the mark used hardest with its ratio, `good_to_mph` the least of all marks (None where a mark has no anchor or
    none of them lifts).
    """

    name: str
    changes: tuple[tuple[str, object], ...]
    anchors: tuple[tuple[str, int], ...]
    n_straps: int
    n_pairs: int
    n_unresolved: int
    price: float | None
    takeoff_price: float | None
    minutes: float | None
    nails: int
    weakest: str
    weakest_ratio: float | None
    good_to_mph: float | None
    largest_uplift_lb: float
    fingerprint: str


def figures(name: str, changes: tuple[tuple[str, object], ...], run: Run) -> Figures:
    """The figures of a run."""
    marks = [m for m in run.schedule.marks if m.anchor is not None]
    counts: Counter[str] = Counter()
    for m in marks:
        counts[m.anchor.id if m.anchor else ""] += m.count
    order = list(dict.fromkeys(a.id for a in run.schedule.catalogue.anchors))
    held = [m.anchor for m in marks if m.anchor is not None]
    weakest = max(marks, key=lambda m: m.ratio or 0.0, default=None)
    speeds = [m.good_to_mph for m in marks if m.good_to_mph is not None]
    return Figures(
        name=name,
        changes=changes,
        anchors=tuple((i, counts[i]) for i in order if counts[i]),
        n_straps=sum(counts.values()),
        n_pairs=sum(m.count > 1 for m in marks),
        n_unresolved=len(run.schedule.unresolved),
        price=sum(a.price for a in held) if held and all(a.price for a in held) else None,
        takeoff_price=takeoff_total(run),
        minutes=sum(a.minutes or 0.0 for a in held) if held and all(a.minutes for a in held) else None,
        nails=sum(a.n_nails for a in held),
        weakest=weakest.bearing.mark if weakest else "",
        weakest_ratio=weakest.ratio if weakest else None,
        good_to_mph=min(speeds, default=None) if not run.schedule.unresolved else None,
        largest_uplift_lb=max((m.uplift_lb for m in run.schedule.marks), default=0.0),
        fingerprint=run.fingerprint,
    )
