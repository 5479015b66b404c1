"""How a scene is looked at - colouring, view, stage - from the words that people type."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from framing.errors import StraplineError
from framing.units import shown
from viewer.camera import View
from viewer.colours import TYPED_KEYS, ColourKey
from viewer.stages import Stage


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """A colouring, a standard view and the last build stage that is drawn."""

    colour: ColourKey
    view: View
    stage: Stage


STATES_LOOK = Look(colour=ColourKey.STATE, view=View.CORNER, stage=Stage.ANCHORS)
"""How straps are looked at by their state: the beam as it is poured, nothing over it."""


def look_from(*, colour: str, view: str, stage: str) -> Look:
    """The look that three words mean; capitals and outer spaces do not matter.

    By what lifts the deck nothing is drawn over the deck.

    Raises
    ------
    StraplineError
        If a word is none of those that can be chosen; lists them.
    """
    key = ColourKey(_word("colour", colour, TYPED_KEYS))
    last = Stage[_word("stage", stage, [s.key for s in Stage]).upper().replace(" ", "_")]
    return Look(
        colour=key,
        view=View(_word("view", view, list(View))),
        stage=min(last, Stage.DECK) if key is ColourKey.DECK else last,
    )


def _word(what: str, typed: str, words: Sequence[str]) -> str:
    word = " ".join(typed.lower().split())
    if word not in words:
        raise StraplineError(f"{what} {shown(typed)} is not known; choose one of {', '.join(words)}")
    return word
