"""Deck and covering: every visible face of the roof as a closed sheet."""

from __future__ import annotations

import numpy as np

from framing.run import Run
from viewer.masonry import tie_beam_top_ft
from viewer.pieces import Item, ItemKind, Pieces, boxes_from, prism, solids_from
from viewer.stages import Stage

LIFT_FT = 0.01
"""The deck is drawn this much above the top chords, so that the two surfaces do not flicker."""
DECK_FT = 0.05
"""Upright thickness drawn for the deck, about 5/8 in. on the slope. Source: common practice, no source."""
COVERING_FT = 0.10
"""Upright thickness drawn for the covering. For the eye only."""
ROOF_FT = LIFT_FT + DECK_FT + COVERING_FT


def sheathing(run: Run) -> Pieces:
    """`deck 1` ... and `covering 1` ..., one of each per face of the roof, in the roof's order."""
    top = tie_beam_top_ft(run)
    items: list[Item] = []
    meshes = []
    layers = (
        (ItemKind.DECK, Stage.DECK, top + LIFT_FT, DECK_FT),
        (ItemKind.COVERING, Stage.COVERING, top + LIFT_FT + DECK_FT, COVERING_FT),
    )
    for kind, stage, rise_ft, thickness_ft in layers:
        for n, face in enumerate(run.roof.faces, start=1):
            rings = [np.asarray(face.ring_ft, float), *(np.asarray(h, float) for h in face.holes_ft)]
            low = np.concatenate([r[:, 2] for r in rings]) + rise_ft
            meshes.append((len(items), prism([r[:, :2] for r in rings], low, low + thickness_ft)))
            items.append(Item(node=f"{kind} {n}", kind=kind, stage=stage))
    return Pieces(items=tuple(items), boxes=boxes_from((), ()), solids=solids_from(meshes))
