"""What sizes the anchors, in words: which storm governs, and what the cladding pressures cost over the main frame."""

from __future__ import annotations

from framing.anchors.schedule import BEFORE
from framing.plan import Basis
from framing.run import Run

BASES = {Basis.WORSE: "the worse of both bases", Basis.CLADDING: "the cladding"}


def sizing_lines(run: Run) -> list[str]:
    """All of it; of an engineer's layout that its uplift alone does."""
    if run.reconciled is not None and run.by_engineer:
        return [f"Truss package {run.reconciled.words}."]
    return [storm_words(run), basis_words(run)]


def storm_words(run: Run) -> str:
    """Which storm governs: the covering counted or not."""
    n, whole = sum(m.storm == BEFORE for m in run.schedule.marks), len(run.schedule.marks)
    if not run.plan.dead.without_covering:
        return "The storm that governs: on the finished roof; the plan leaves out the one before the covering is on."
    elsewhere = ", on the finished roof elsewhere" if n < whole else ""
    return f"The storm that governs: before the covering is on at {n} of {whole} marks{elsewhere}."


def basis_words(run: Run) -> str:
    """What the plan's basis costs against the main frame alone, in anchors and in money."""
    now, alone = run.schedule.totals, run.schedule.main_frame_alone
    here = f"{now.n_anchors} anchors for {now.price:,.2f} by the catalogue"
    if run.plan.wind.basis is Basis.MWFRS:
        return f"Anchors are sized by the main frame alone: {here}."
    said = (
        f"Anchors are sized by {BASES[run.plan.wind.basis]}: {here}; by the main frame alone {alone.n_anchors} for "
        f"{alone.price:,.2f}"
    )
    if now.n_unresolved != alone.n_unresolved:
        return (
            f"{said}. With the cladding {now.n_unresolved} marks are left without an anchor, without it "
            f"{alone.n_unresolved}: until they have one, counts and prices do not compare."
        )
    more, money = now.n_anchors - alone.n_anchors, now.price - alone.price
    return f"{said}, so the cladding costs {more:+d} anchors and {money:+,.2f}."
