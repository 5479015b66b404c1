"""Pieces -> what the deck holds of a roof's horizontal parts, and what members bring to their bearings instead.

Where the deck holds all of it (variant 'deck') nothing comes to the bearings. In the variant 'heel' a member's in-plane
part is held at its bearing, either one may hold it all; a member without a bearing of its own, a valley piece and a
gable end give it to the deck, and so does what pushes a member out of its plane.
Source: own derivation: tests/statics/test_sideways.py.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from framing.loads.pieces import Pieces
from framing.members import Framing, MemberKind

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Thrust:
    """`member_lb` (n_members, k, 2) is what a member's bearing holds, `deck_lb` (n_pieces, k, 2) what the deck does."""

    member_lb: Floats
    deck_lb: Floats


def held_at_bearings(framing: Framing, pieces: Pieces, push_lb: Floats) -> Thrust:
    """The horizontal forces on the pieces (n_pieces, k, 2), parted between the bearings and the deck."""
    owner = np.array([t.owner for t in framing.tributaries])[pieces.tributary]
    gable = np.array([m.kind is MemberKind.GABLE_END for m in framing.members])[owner]
    index = {m.name: i for i, m in enumerate(framing.members)}
    stands = np.zeros(len(framing.members), dtype=bool)
    stands[[index[b.member] for b in framing.bearings if not b.by_engineer]] = True
    member, unit = pieces.way.member, pieces.way.unit
    held = stands[member] & ~gable & ~pieces.on_valley
    in_plane = np.where(held[:, None], np.einsum("pkd,pd->pk", push_lb, unit), 0.0)
    own = in_plane[:, :, None] * unit[:, None, :]
    out = np.zeros((len(framing.members), *push_lb.shape[1:]))
    np.add.at(out, member, own)
    return Thrust(member_lb=out, deck_lb=push_lb - own)
