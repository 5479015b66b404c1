"""Framing + reactions -> sentences: ends on supports that lift with nothing to hold them, ends that gravity lifts."""

from __future__ import annotations

import numpy as np

from framing.asce7.chapter2 import ASD_GRAVITY
from framing.loads.cases import GravityLoad
from framing.loads.reactions import Reactions
from framing.members import Framing
from framing.plan import Plan
from framing.walls.outline import Outline
from framing.walls.porch_walls import porch_walls

LEAST_LB = 1.0


def loose_ends(framing: Framing, reactions: Reactions) -> tuple[str, ...]:
    """What is doubtful to build about the supports, one sentence each; these make the exit code 1.

    A porch beam stands before no porch of the plan. An end on a support that is not tied down lifts: the support must
    be tied down, a porch beam's connection is asked of the engineer anyway. A member that runs on over a support may
    lift one of its ends under gravity alone.
    """
    beams = {b.name for b in framing.porch_beams}
    out = [
        f"porch beam {b.name}: no porch of the plan lies behind all of it, so the wind from below is left out there "
        "and the uplifts are too small; write [[porch]] with corners = [[x, y], ...], outside faces of the open floor"
        for b in framing.porch_beams
        if not b.has_porch
    ]
    for name in dict.fromkeys(b.wall for b in framing.bearings if b.by_engineer and b.wall not in beams):
        rows = [i for i, b in enumerate(framing.bearings) if b.wall == name and reactions.uplift_lb[i] > LEAST_LB]
        if rows:
            worst = max(rows, key=lambda i: float(reactions.uplift_lb[i]))
            out.append(
                f"support {name} is not tied down, but truss ends that stand on it lift, up to "
                f"{reactions.uplift_lb[worst]:,.0f} lb at {framing.bearings[worst].mark}: write holds_down = true and "
                "tie it down, or ask the truss engineer"
            )
    column = {c.gravity: j for j, c in enumerate(reactions.cases) if not c.lifted}
    both = ((ASD_GRAVITY.dead_factor, GravityLoad.PRESSING), (ASD_GRAVITY.roof_live_factor, GravityLoad.ROOF_LIVE))
    up = np.sum([factor * reactions.by_case_lb[:, column[load]] for factor, load in both], axis=0)
    over = [i for i in np.flatnonzero(up > LEAST_LB) if up[i] > reactions.uplift_lb[i]]
    if over and any(m.between for m in framing.members):
        at = framing.bearings[max(over, key=lambda i: float(up[i]))]
        out.append(
            f"gravity alone lifts {at.member} at {at.mark} by {max(up[i] for i in over):,.0f} lb, more than the wind: "
            "it runs on over a support too near that end; move the support or ask the truss engineer"
        )
    return tuple(out)


def porch_notes(plan: Plan, outline: Outline, framing: Framing, reactions: Reactions) -> tuple[str, ...]:
    """What is assumed under each porch, the walls with anchors between it and the rooms, and what stands on each
    porch beam that is not tied down: no anchor of the plan, the engineer's connections.
    """
    out = []
    for porch in framing.porches:
        walls = " and ".join(outline.walls[w].name for w in porch.open_walls)
        out.append(
            f"{porch.name.capitalize()} is open to {walls}: wind onto an open side lifts its roof from below as it "
            "does a deep overhang, other wind does not; nothing presses from inside."
        )
    out += [
        f"Support {name} stands between a porch and the rooms: its anchors take the wind's push square to it as those "
        "of an outside wall do."
        for name in porch_walls(plan)
    ]
    for beam in framing.porch_beams:
        rows = [i for i, b in enumerate(framing.bearings) if b.wall == beam.name and b.by_engineer]
        if rows:
            worst = max(rows, key=lambda i: float(reactions.uplift_lb[i]))
            out.append(
                f"On porch beam {beam.name} stand {len(rows)} truss ends without a tie-beam anchor, listed apart: "
                f"order their post and beam connections from the engineer, up to {reactions.uplift_lb[worst]:,.0f} lb "
                f"up at {framing.bearings[worst].mark}."
            )
    return tuple(out)
