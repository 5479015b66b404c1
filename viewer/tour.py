"""Run -> the client's tour: from the finished house, layer by layer, down to the strap that is pulled hardest."""

from __future__ import annotations

from dataclasses import dataclass

from framing.anchors.schedule import Mark
from framing.run import Run
from viewer.stages import Stage

MOST_WORDS = 25
"""What a sentence of the tour may have."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TourStep:
    """One still of the tour: its sentence, the last stage that stands, whether the beam is glass, and the mark that is
    looked at closely ('' where it is the house).
    """

    sentence: str
    stage: Stage
    glass_beam: bool = False
    mark: str = ""


def tour(run: Run) -> tuple[TourStep, ...]:
    """The steps in their order; nothing in them promises that a roof stays on."""
    members, straps = len(run.framing.members), sum(m.count for m in run.schedule.marks)
    hardest = max((m for m in run.schedule.marks if not m.bearing.by_engineer), key=lambda m: m.uplift_lb, default=None)
    lifts = hardest is not None and hardest.uplift_lb > 0
    return (
        TourStep(
            sentence="Here is the finished house; its roof hides the steel that ties it to the walls.",
            stage=Stage.FINISHED,
        ),
        TourStep(
            sentence="Under the covering, wood panels are nailed to the trusses; the wind pulls at them first.",
            stage=Stage.DECK,
        ),
        TourStep(
            sentence=f"Under the panels stand {members} trusses and jacks; they carry the pull to the walls.",
            stage=Stage.TRUSSES,
        ),
        TourStep(
            sentence=f"Under the trusses, {straps} straps stand in the beam; the plates show how hard each is pulled.",
            stage=Stage.ANCHORS,
        ),
        TourStep(
            sentence="Each strap is set in the concrete beam on the walls while the concrete is still wet.",
            stage=Stage.ANCHORS,
            glass_beam=True,
        ),
        *((TourStep(sentence=_hardest(hardest), stage=Stage.ANCHORS, mark=hardest.mark),) if hardest and lifts else ()),
        TourStep(
            sentence="The truss engineer's sealed figures and the strap's own approval decide, not this page.",
            stage=Stage.FINISHED,
        ),
    )


def _hardest(mark: Mark) -> str:
    pull = f"The wind pulls hardest at {mark.mark}, with {mark.uplift_lb:,.0f} lb"
    if mark.anchor is None:
        return f"{pull}; no strap of the list is allowed that, so the engineer decides."
    return f"{pull}; the strap{'s hold' if mark.count > 1 else ' holds'} it against the design wind."
