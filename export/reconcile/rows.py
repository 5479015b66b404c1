"""Reconciled run -> one plain row a bearing or a package row, from which page and table are made."""

from __future__ import annotations

from dataclasses import dataclass

from framing.anchors.schedule import Mark
from framing.package.comparison import Compared
from framing.package.governing import Reconciled, accepted
from framing.run import Run


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One pair with the mark's anchor by the package and by ours alone (None where it is no mark with an anchor)."""

    compared: Compared
    governs: str
    now: Mark | None
    by_ours: Mark | None

    @property
    def mark(self) -> str:
        """Our mark; '' where a row has no partner."""
        o = self.compared.pair.ours
        return o.bearing.mark if o else ""


def reconciled_of(run: Run) -> Reconciled:
    """The package of a run that has one."""
    if run.reconciled is None:
        raise ValueError("no package governs this run")
    return run.reconciled


def lines(run: Run) -> tuple[Line, ...]:
    """Every pair, in the order of our marks, the rows without partner last."""
    found = reconciled_of(run)
    now = {m.mark: m for m in run.schedule.marks}
    ours = {m.mark: m for m in run.by_ours.marks} if run.by_ours else {}
    out = []
    for c in found.comparison.pairs:
        mark = c.pair.ours.bearing.mark if c.pair.ours else ""
        out.append(
            Line(compared=c, governs=_governs(found, c, now.get(mark)), now=now.get(mark), by_ours=ours.get(mark))
        )
    return tuple(out)


def _governs(found: Reconciled, c: Compared, mark: Mark | None) -> str:
    """Whose uplift the mark is sized for."""
    row = c.pair.row
    stated = mark.stated if mark is not None else None
    cases = (
        (c.pair.ours is None, "hangs: no strap" if row is not None and row.hung else "no mark of ours"),
        (mark is None, "only pushes: no strap"),
        (row is None, "ours: no row"),
        (row is not None and row.hung is True, "ours: hung, ask"),
        (not accepted(found.package, c), "ours: not accepted"),
        (row is not None and row.uplift_lb is None, "ours: left empty"),
        (stated is not None and not stated.by_package, "ours: larger, other wind"),
        (True, "package"),
    )
    return next(words for holds, words in cases if holds)


def anchor_words(mark: Mark | None) -> str:
    """A mark's anchor as people say it."""
    if mark is None or mark.bearing.by_engineer:
        return ""
    return f"{mark.count} x {mark.anchor.id}" if mark.anchor else "NONE HOLDS"
