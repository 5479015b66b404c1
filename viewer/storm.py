"""What another wind than the design wind would do: which marks pass their allowed pull, in words."""

from __future__ import annotations

from framing.anchors.schedule import AnchorSchedule
from framing.run import Run


def past_allowed(schedule: AnchorSchedule, mph: float) -> tuple[int, ...]:
    """The places in the schedule of the anchored marks that a wind of `mph` takes past what is allowed."""
    return tuple(
        i
        for i, m in enumerate(schedule.marks)
        if m.anchor is not None and m.good_to_mph is not None and m.good_to_mph < mph
    )


def storm_words(run: Run, mph: float) -> str:
    """How many straps a wind takes past their allowed pull; marks without an anchor are counted apart."""
    marks = run.schedule.marks
    anchored = sum(m.anchor is not None for m in marks)
    past = len(past_allowed(run.schedule, mph))
    engineer = sum(m.bearing.by_engineer for m in marks)
    bare = len(marks) - anchored - engineer
    others = [
        *([f"{bare} with no anchor of the list"] if bare else []),
        *([f"{engineer} by the engineer"] if engineer else []),
    ]
    apart = f" Not counted: {', '.join(others)}." if others else ""
    return f"At {mph:.0f} mph {past} of {anchored} marks with an anchor are past what is allowed.{apart}"
