"""What a client is told, in plain words: of one mark, and of the whole roof."""

from __future__ import annotations

from framing.anchors.interaction import Interaction
from framing.anchors.schedule import Mark, Use
from framing.run import Run


def mark_words(mark: Mark) -> str:
    """One mark in plain words: what pulls there, what is allowed, and who decides where nothing holds it."""
    if mark.bearing.by_engineer:
        return "The truss engineer's own connection holds this one."
    pull = "The design wind does not lift here."
    if mark.uplift_lb > 0:
        pull = f"The design wind pulls up {mark.uplift_lb:,.0f} lb here."
    if mark.anchor is None:
        return f"{pull} No strap of the list is allowed the load here: the engineer decides."
    straps = "The strap is" if mark.count == 1 else f"The {mark.count} straps together are"
    used = "" if mark.ratio is None or mark.use is None else f" {_uses(mark.use)} {mark.ratio:.0%} of what is allowed."
    return f"{pull} {straps} allowed {mark.allowable_uplift_lb:,.0f} lb upward.{used}"


def _uses(use: Use) -> str:
    """What the one ratio is made of, by the row's own rule."""
    if use.parallel_ratio is None and use.perpendicular_ratio is None:
        return "The pull alone uses"
    if use.rule is Interaction.SUM:
        return "Pull and side push added use"
    return "The hardest of pull and side push uses"


def share_words(mark: Mark) -> str:
    """The anchor's hardest case as its parts: shares of what is allowed upward and on the strap's two level axes."""
    if mark.use is None:
        return ""
    parts = (mark.use.uplift_ratio, mark.use.parallel_ratio, mark.use.perpendicular_ratio)
    up, parallel, square = ("not stated" if r is None else f"{r:.2f}" for r in parts)
    return f"up {up}, parallel {parallel}, perpendicular {square}; {mark.use.rule.words}"


def roof_words(run: Run) -> tuple[str, str, str]:
    """Three sentences on the whole roof: where it is pulled most, whether every mark has an anchor, and who decides."""
    marks, schedule = run.schedule.marks, run.schedule
    hardest = max(marks, key=lambda m: m.uplift_lb)
    n_straps = sum(m.count for m in marks if m.anchor is not None)
    straps = f"{n_straps} straps" if n_straps != 1 else "1 strap"
    pull = (
        f"{straps} in the concrete beam are chosen for a design wind of {run.plan.wind.speed_mph:.0f} mph; it pulls "
        f"hardest at {hardest.mark}, with {hardest.uplift_lb:,.0f} lb."
    )
    n_open, n_other = len(schedule.unresolved), len(schedule.by_engineer)
    held = "Every mark has a strap that is allowed the pull worked out here"
    if n_open:
        held = f"At {n_open} of {len(marks)} marks no strap of the list is allowed the pull, and the engineer decides"
    if n_other:
        own = f"{n_other} {'more ' if n_open else ''}with the engineer's own connection"
        held += f", besides {own}" if n_open else f", but for {own}"
    return pull, f"{held}.", "The truss engineer's sealed figures and the strap's own approval decide, not this page."
