"""The build stages, in the order in which a crew meets them, with one plain sentence each."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum


class Stage(IntEnum):
    """A stage of the build. A picture at one stage shows every stage up to it."""

    WALLS = 0
    TIE_BEAM = 1
    ANCHORS = 2
    TRUSSES = 3
    DECK = 4
    COVERING = 5
    FINISHED = 6

    @property
    def key(self) -> str:
        """The word people type: 'walls', 'tie beam', 'anchors', 'trusses', 'deck', 'covering',
        'finished'.
        """
        return self.name.lower().replace("_", " ")


@dataclass(frozen=True, slots=True, kw_only=True)
class StageText:
    """What a stage is called, what one sees and why it is there, and how solid it is drawn (1 is solid) until the house
    is finished: then all of it is solid.
    """

    stage: Stage
    title: str
    sentence: str
    opacity_ratio: float


STAGES: tuple[StageText, ...] = (
    StageText(
        stage=Stage.WALLS,
        title="Walls",
        sentence="Block walls stand on the floor slab and carry everything above them.",
        opacity_ratio=1.0,
    ),
    StageText(
        stage=Stage.TIE_BEAM,
        title="Tie beam",
        sentence="A concrete beam is poured on top of the walls; it ties them together, and its weight helps to "
        "hold the roof.",
        opacity_ratio=1.0,
    ),
    StageText(
        stage=Stage.ANCHORS,
        title="Anchors",
        sentence="A steel strap is set in the wet concrete wherever a truss will land, because a strap cannot be moved "
        "once the concrete is hard.",
        opacity_ratio=1.0,
    ),
    StageText(
        stage=Stage.TRUSSES,
        title="Trusses",
        sentence="The trusses are set on their marks and nailed to the straps, which hold them against the "
        "design wind.",
        opacity_ratio=1.0,
    ),
    StageText(
        stage=Stage.DECK,
        title="Deck",
        sentence="Wood panels are nailed over the trusses; they hold the trusses upright and carry the wind to them.",
        opacity_ratio=0.16,
    ),
    StageText(
        stage=Stage.COVERING,
        title="Covering",
        sentence="The covering keeps the rain out; it hides every strap below, which is why they are counted first.",
        opacity_ratio=0.16,
    ),
    StageText(
        stage=Stage.FINISHED,
        title="Finished",
        sentence="Gables, soffit and fascia close the house; the straps are out of sight and can be reached no more.",
        opacity_ratio=1.0,
    ),
)
