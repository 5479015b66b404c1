"""Scene + what became of each strap -> the scene coloured by state: a sign at each strap, labels where something is."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from framing.members import MemberKind
from framing.plan import Point
from viewer.colours import (
    KIND_RGB,
    NO_ANCHOR_RGB,
    STILL_RGB,
    UNRESOLVED_RGB,
    Colouring,
    ColourKey,
    Rgb,
    Swatch,
)
from viewer.pieces import ItemKind
from viewer.ramp import ramp
from viewer.scene import Label, Scene, Signed
from viewer.signs import Shape
from viewer.stages import Stage

SIGN_UP_FT = 0.8
"""How far over the beam a sign stands: at the head of its strap. For the eye only."""
GREEN, PALE, SKY, OCHRE, BLUE, PINK, VIOLET, RED = (
    KIND_RGB[kind]
    for kind in (
        MemberKind.SIDE_JACK,
        MemberKind.VALLEY,
        MemberKind.END_JACK,
        MemberKind.STEP_DOWN,
        MemberKind.GABLE_END,
        MemberKind.CORNER_JACK,
        MemberKind.GIRDER,
        MemberKind.HIP_GIRDER,
    )
)
CYAN: Rgb = UNRESOLVED_RGB
"""The colours that tell kinds of member apart for every sight and in grey, used for states."""


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """One thing that may have become of a strap: its word, colour and shape; where `plain`, nothing is to be done."""

    text: str
    rgb: Rgb
    shape: Shape
    plain: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One strap: the mark of the scene whose plate it colours ('' where the scene has none), its state, what its label
    says, where it stands in plan and where it stood, None where that is the same. [ft]
    """

    mark: str
    state: State
    label: str
    at_ft: Point
    from_ft: Point | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class States:
    """What is shown: `headline` stands under the title, `sentence` in the legend; `states` in the legend's order, the
    gravest last.
    """

    title: str
    headline: str
    sentence: str
    states: tuple[State, ...]
    told: tuple[Told, ...]


def with_states(scene: Scene, states: States) -> Scene:
    """The same house, coloured by state first of all; signs and labels by state belong to that colouring alone."""
    z = scene.tie_beam_top_ft + SIGN_UP_FT
    rank = {state: k for k, state in enumerate(states.states)}
    told = sorted(states.told, key=lambda t: rank[t.state])
    signs = tuple(
        Signed(
            shape=t.state.shape,
            rgb=t.state.rgb,
            point_ft=(*t.at_ft, z),
            from_ft=None if t.from_ft is None else (*t.from_ft, z),
        )
        for t in told
    )
    labels = tuple(
        Label(
            text=t.label,
            point_ft=(*t.at_ft, z),
            outward=(0.0, 0.0),
            rank=-len(told) + k,
            stage=Stage.ANCHORS,
            unresolved=False,
            only=ColourKey.STATE,
        )
        for k, t in enumerate(reversed(told))
        if not t.state.plain
    )
    return replace(
        scene,
        title=states.title,
        colourings=(_by_state(scene, states, rank), *scene.colourings),
        labels=(*labels, *scene.labels),
        signs=signs,
    )


def _by_state(scene: Scene, states: States, rank: dict[State, int]) -> Colouring:
    """Plates and straps by the gravest state of their mark, all else grey."""
    of_mark: dict[str, State] = {}
    for t in sorted(states.told, key=lambda t: rank[t.state]):
        if t.mark:
            of_mark[t.mark] = t.state
    rgb = np.array(
        [
            of_mark[i.mark].rgb
            if i.mark in of_mark
            else UNRESOLVED_RGB
            if i.kind is ItemKind.CROSS
            else STILL_RGB.get(i.kind, NO_ANCHOR_RGB)
            for i in scene.items
        ],
        np.uint8,
    ).reshape(-1, 3)
    rgb.setflags(write=False)
    count = {state: sum(t.state is state for t in states.told) for state in states.states}
    return Colouring(
        key=ColourKey.STATE,
        title="Straps by state",
        unit="",
        rgb=rgb,
        ramp_rgb=ramp()[:0],
        ticks=(),
        swatches=tuple(Swatch(text=f"{s.text}: {n}", rgb=s.rgb, shape=s.shape) for s, n in count.items() if n),
        sentence=states.sentence,
        headline=states.headline,
    )
