"""What a client is told of two roofs side by side: as planned, and with the house minimum one size up."""

from __future__ import annotations

from framing.anchors.schedule import AnchorSchedule, Mark
from framing.run import Run
from framing.stronger import Stronger, first_full, price

PLANNED, LARGER = "As planned", "One size up"
NO_LARGER = "The list has no larger strap for this roof, so there is no stronger roof to show beside it."


def two_roofs_words(run: Run, stronger: Stronger) -> tuple[str, ...]:
    """What changes, what it costs, and the wind at which the first strap of each roof reaches what it is allowed."""
    n, marks = len(stronger.changed), run.schedule.marks
    more = f"{n} of {len(marks)} marks get" if n > 1 else f"1 of {len(marks)} marks gets"
    changes = f"One size up, no strap is smaller than the {stronger.least.name}; {more} another strap."
    return changes, _cost_words(run.schedule, stronger), *_speed_words(run.schedule, stronger.schedule)


def changed_words(mark: Mark) -> str:
    """What holds a mark on the stronger roof, for its card."""
    if mark.anchor is None:
        return "One size up, no strap of the list is allowed the load here: the engineer decides."
    straps = "strap is" if mark.count == 1 else f"{mark.count} straps together are"
    return f"One size up, the {straps} allowed {mark.allowable_uplift_lb:,.0f} lb upward ({mark.anchor.name})."


def _cost_words(planned: AnchorSchedule, stronger: Stronger) -> str:
    before, after = price(planned), price(stronger.schedule)
    if before is None or after is None:
        return "The list gives no price for every strap, so the cost is not told."
    if abs(after - before) < 0.005:
        return "By the prices of the list both roofs' straps cost the same."
    way = "more" if after > before else "less"
    return (
        f"Its straps cost {abs(after - before):,.2f} {way} by the prices of the list: {after:,.2f}, not {before:,.2f}."
    )


def _speed_words(planned: AnchorSchedule, larger: AnchorSchedule) -> tuple[str, ...]:
    """Which strap is full first on each roof, and at what wind; marks without a strap are told apart."""
    one, two = first_full(planned), first_full(larger)
    if one is None or two is None:
        said = "No wind that was tried fills a strap of either roof."
    elif one == two:
        said = f"The first strap is full at {one[1]:.0f} mph on both roofs: at {one[0]}, where it stays the same."
    elif round(one[1]) == round(two[1]):
        said = f"The first strap is full at {one[1]:.0f} mph on both roofs: at {one[0]} as planned, "
        said += f"at {two[0]} one size up."
    else:
        said = f"As planned, the first strap is full at {one[1]:.0f} mph, at {one[0]}. "
        said += f"One size up, that wind is {two[1]:.0f} mph, at {two[0]}."
    bare = [len(s.unresolved) for s in (planned, larger)]
    if bare == [0, 0]:
        return (said,)
    counts = f"{bare[0]} marks as planned and {bare[1]} one size up"
    return said, f"Left out of this: {counts}, where no strap of the list is allowed the load."
