"""Changes -> what each strap of the new house is coloured by in three dimensions, by what changed most there."""

from __future__ import annotations

from collections import Counter

from export.changes.differences import Change, What
from export.changes.sources import HouseThen
from export.changes.words import verdict
from viewer.signs import Shape
from viewer.states import BLUE, CYAN, GREEN, OCHRE, PALE, PINK, RED, SKY, VIOLET, State, States, Told

AS_IT_WAS = State(text="as it was", rgb=PALE, shape=Shape.DOT, plain=True)
STATES = {
    What.LOAD: State(text="another load alone", rgb=SKY, shape=Shape.OPEN_DOT, plain=True),
    What.MEMBER: State(text="another member", rgb=BLUE, shape=Shape.OPEN_DIAMOND),
    What.SIDE: State(text="on another side", rgb=PINK, shape=Shape.FULL_SQUARE),
    What.COUNT: State(text="another number of straps", rgb=RED, shape=Shape.CROSSED_SQUARE),
    What.ANCHOR: State(text="another anchor", rgb=VIOLET, shape=Shape.FULL_DIAMOND),
    What.MOVED: State(text="moved", rgb=OCHRE, shape=Shape.FULL_TRIANGLE),
    What.GONE: State(text="gone", rgb=CYAN, shape=Shape.CROSS),
    What.NEW: State(text="new", rgb=GREEN, shape=Shape.PLUS),
}
"""From what is least to what changes the most at a mark, which is what the mark is shown by."""
SENTENCE = (
    "Each strap of the new plan at its place, shown by what changed most there; a line leads from where a strap stood. "
    "Small dots are as they were on the wall."
)


def change_states(before: HouseThen, after: HouseThen, changes: tuple[Change, ...]) -> States:
    """What is shown of two houses, on the new one."""
    told = tuple(_told(c) for c in changes)
    return States(
        title=f"What changed: {after.name}, revision {before.revision or '-'} to {after.revision or '-'}",
        headline=_headline(changes, told),
        sentence=SENTENCE,
        states=(AS_IT_WAS, *STATES.values()),
        told=told,
    )


def _headline(changes: tuple[Change, ...], told: tuple[Told, ...]) -> str:
    """The verdict in one line: the walls whose old sheet is not to be used."""
    lines = verdict(changes)
    stale = [line.partition(":")[0] for line in lines if line.endswith("do not use the old sheet.")]
    if not stale:
        return lines[0]
    found = Counter(t.state for t in told)
    said = ", ".join(f"{found[state]} {state.text}" for state in reversed(STATES.values()) if found[state])
    return f"Do not use the old sheet of {', '.join(stale)}: {said}."


def _told(c: Change) -> Told:
    state = next((STATES[what] for what in reversed(STATES) if what in c.what), AS_IT_WAS)
    moved = c.before is not None and c.after is not None and What.MOVED in c.what
    return Told(
        mark=c.after.mark if c.after else "",
        state=state,
        label=c.one.mark,
        at_ft=c.one.strap_ft,
        from_ft=c.before.strap_ft if c.before is not None and moved else None,
    )
