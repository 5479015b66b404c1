"""What carries a rake overhang: outlookers that stand on the first truss inside, or a ladder on the gable end alone.

A plan that does not say is reckoned both ways, each a house of its own in balance by itself; the worse holds at each
member. Where the first bay is too short for outlookers there is nothing to choose.
"""

from __future__ import annotations

from dataclasses import replace

from framing.members import Framing, Tributary
from framing.plan import Plan, RakeFrame


def rake_frames(plan: Plan, framing: Framing) -> tuple[RakeFrame | None, ...]:
    """The ways in which the rakes are reckoned; None alone where no outlookers reach a truss inside."""
    if all(t.lever is None for t in framing.tributaries):
        return (None,)
    return (plan.roof.rake_frame,) if plan.roof.rake_frame else tuple(RakeFrame)


def framed_by(framing: Framing, rake: RakeFrame | None) -> Framing:
    """The framing with its rakes carried that way: as a ladder each half of the first bay loads its own truss."""
    if rake is not RakeFrame.LADDER:
        return framing
    return replace(framing, tributaries=tuple(_by_ladder(t) for t in framing.tributaries))


def _by_ladder(tributary: Tributary) -> Tributary:
    lever = tributary.lever
    if lever is None:
        return tributary
    if lever.nearer_inside:
        return replace(tributary, owner=lever.inside, bearing=None, lever=None)
    return replace(tributary, lever=None)
