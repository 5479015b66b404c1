"""Straps as set -> what each is coloured by in three dimensions: its state, by the signs of the plan."""

from __future__ import annotations

from export.asbuilt.plan import stands_ft
from export.asbuilt.words import Findings, verdict
from framing.asbuilt.judge import AsBuilt, Ways, wall_ways
from framing.asbuilt.judge import State as Judged
from viewer.signs import Shape
from viewer.states import BLUE, CYAN, GREEN, OCHRE, PALE, PINK, RED, SKY, VIOLET, State, States, Told

STATES = {
    Judged.GOOD: State(text="good", rgb=GREEN, shape=Shape.DOT, plain=True),
    Judged.NOT_MEASURED: State(text="set, not measured", rgb=PALE, shape=Shape.OPEN_DOT, plain=True),
    Judged.FILLER: State(text="filler", rgb=SKY, shape=Shape.OPEN_CIRCLE),
    Judged.SHIFT: State(text="shift", rgb=OCHRE, shape=Shape.OPEN_TRIANGLE),
    Judged.ASK: State(text="ask", rgb=BLUE, shape=Shape.OPEN_DIAMOND),
    Judged.WRONG_SIDE: State(text="wrong side", rgb=PINK, shape=Shape.FULL_SQUARE),
    Judged.WRONG_ANCHOR: State(text="wrong anchor", rgb=VIOLET, shape=Shape.FULL_DIAMOND),
    Judged.OUT_OF_REACH: State(text="out of reach", rgb=RED, shape=Shape.CROSSED_SQUARE),
    Judged.MISSING: State(text="missing", rgb=CYAN, shape=Shape.CROSS),
}
"""The shapes of the plan in asbuilt.pdf, the gravest last."""
SENTENCE = "Each strap where it was found, a missing one where it should stand. Small dots are as planned."


def asbuilt_states(found: Findings) -> States:
    """What is shown of the straps as set."""
    project, ways = found.run.plan.project, wall_ways(found.run)
    return States(
        title=f"As built: {project.name}, revision {project.revision or '-'}",
        headline=" ".join(verdict(found)[: 1 + len(found.patterns)]),
        sentence=SENTENCE,
        states=tuple(STATES.values()),
        told=tuple(_told(s, ways[s.mark.bearing.wall]) for s in found.straps),
    )


def _told(s: AsBuilt, way: Ways) -> Told:
    state = STATES[s.state]
    return Told(mark=s.mark.mark, state=state, label=s.name, at_ft=stands_ft(s, way))
