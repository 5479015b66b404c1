"""Framing + pieces -> the linear map: from a vertical force on each piece to every bearing's reaction.

Each member is a simple beam on its two ends; a gable end stands on its wall, its outlookers are levers over
it. Only vertical reactions pass from member to member. The map is built once, every column sums to one, and
every case is one product. Two variants: 'heel', where a member's in-plane horizontal part is held at bearing
height (at its wall bearing, or by the diaphragm at that level), and 'deck', where the roof diaphragm holds it
where it acts. Source: own derivation: tests/statics.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from framing.members import Framing, MemberKind
from framing.patches import Floats, Patches
from framing.pieces import Ints, Pieces


class Variant(StrEnum):
    """Where a member's in-plane horizontal part is held."""

    HEEL = "heel"
    DECK = "deck"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LinearMap:
    """A sparse (n_bearings, n_pieces) matrix as triplets sorted by bearing."""

    bearing: Ints
    piece: Ints
    share: Floats
    n_bearings: int
    n_pieces: int

    def apply(self, force_lb: Floats) -> Floats:
        """Reactions of forces on the pieces. (n_pieces, k) -> (n_bearings, k) [lb], positive up"""
        out = np.zeros((self.n_bearings, force_lb.shape[1]))
        if len(self.bearing):
            starts = np.flatnonzero(np.r_[True, self.bearing[1:] != self.bearing[:-1]])
            out[self.bearing[starts]] = np.add.reduceat(self.share[:, None] * force_lb[self.piece], starts, axis=0)
        return out

    def column_sums(self) -> Floats:
        """What each piece's unit force adds up to over all bearings: one. (n_pieces,)"""
        sums: Floats = np.bincount(self.piece, weights=self.share, minlength=self.n_pieces).astype(np.float64)
        return sums


def build_map(
    framing: Framing, patches: Patches, pieces: Pieces, rise_per_run: float, thickness_ft: float, variant: Variant
) -> LinearMap:
    """The map of one variant. Heights are above the roof plane over the bearing line (the heel's own height is
    left out of the couple, as in the published tables).
    """
    node, piece, share = first_step(framing, patches, pieces, rise_per_run, thickness_ft, variant)
    to_bearing = _influence(framing)
    counts = np.array([len(to_bearing[n][0]) for n in range(len(to_bearing))])
    starts = np.r_[0, np.cumsum(counts)[:-1]]
    flat_bearing = np.concatenate([np.array(b, dtype=np.int64) for b, _ in to_bearing])
    flat_share = np.concatenate([np.array(s, dtype=np.float64) for _, s in to_bearing])
    times = counts[node]
    first = np.repeat(starts[node], times)
    within = np.arange(int(times.sum())) - np.repeat(np.cumsum(times) - times, times)
    pick = first + within
    bearing = flat_bearing[pick]
    order = np.argsort(bearing, kind="stable")
    return LinearMap(
        bearing=bearing[order],
        piece=np.repeat(piece, times)[order],
        share=(np.repeat(share, times) * flat_share[pick])[order],
        n_bearings=len(framing.bearings),
        n_pieces=len(pieces.patch),
    )


def first_step(
    framing: Framing, patches: Patches, pieces: Pieces, rise_per_run: float, thickness_ft: float, variant: Variant
) -> tuple[Ints, Ints, Floats]:
    """From pieces to nodes: member ends (2 i, 2 i + 1 of member i), then bearings after them.

    Parameters
    ----------
    rise_per_run : float
        The roof's slope.
    thickness_ft : float
        Of the walls.

    Returns
    -------
    tuple of (k,) arrays
        Node, piece, and the share of that piece's force that goes to that node; in the same order for either variant.
    """
    trib = framing.tributaries
    n_ends = 2 * len(framing.members)
    lines = np.array([[*m.frame_ft[0], *m.frame_ft[1]] for m in framing.members])
    start, along = lines[:, :2], lines[:, 2:] - lines[:, :2]
    length = np.hypot(along[:, 0], along[:, 1])
    unit = along / length[:, None]
    owner = np.array([t.owner for t in trib])[pieces.tributary]
    gable = np.array([m.kind is MemberKind.GABLE_END for m in framing.members])[owner]
    measure = unit[owner].copy()
    cut = np.array([t.measure is not None for t in trib])
    squared = np.array([t.measure or (0.0, 0.0) for t in trib])
    use = cut[pieces.tributary] & patches.in_bearings[pieces.patch]
    measure[use] = squared[pieces.tributary[use]]
    s = ((pieces.centre_ft - start[owner]) * measure).sum(axis=1)
    if variant is Variant.HEEL:
        g = (patches.gradient[pieces.patch] * unit[owner]).sum(axis=1)
        z = patches.height_ft(pieces.patch, pieces.centre_ft) - rise_per_run * thickness_ft / 2.0
        s = s + np.where(pieces.on_valley, 0.0, z * g)
    span = np.flatnonzero(~gable)
    far = s[span] / length[owner[span]]
    nodes = [2 * owner[span], 2 * owner[span] + 1]
    which, shares = [span, span], [1.0 - far, far]
    for n, p, w in _gable_step(framing, pieces, owner, np.flatnonzero(gable), (start, unit, length), n_ends):
        nodes.append(n)
        which.append(p)
        shares.append(w)
    return np.concatenate(nodes), np.concatenate(which), np.concatenate(shares)


def _gable_step(
    framing: Framing, pieces: Pieces, owner: Ints, at: Ints, lines: tuple[Floats, Floats, Floats], n_ends: int
) -> list[tuple[Ints, Ints, Floats]]:
    """A gable end's pieces: to the anchor that stands there, and by the outlookers' lever to the truss inside."""
    start, unit, length = lines
    trib = [framing.tributaries[i] for i in pieces.tributary[at]]
    anchors: dict[int, list[int]] = {}
    for t in framing.tributaries:
        if t.bearing is not None:
            anchors.setdefault(t.owner, []).append(t.bearing)
    bearing = np.array([t.bearing if t.bearing is not None else min(anchors[t.owner]) for t in trib], dtype=np.int64)
    levers = [t.lever for t in trib]
    has = np.array([lv is not None for lv in levers], dtype=bool)
    inside_member = np.array([lv[0] if lv else 0 for lv in levers], dtype=np.int64)
    axis = np.array([lv[1] if lv else 0 for lv in levers], dtype=np.int64)
    gable_ft = np.array([lv[2] if lv else 0.0 for lv in levers])
    inside_ft = np.array([lv[3] if lv else 1.0 for lv in levers])
    centre = pieces.centre_ft[at]
    along = centre[np.arange(len(at)), axis] if len(at) else np.zeros(0)
    inner = np.where(has, (along - gable_ft) / (inside_ft - gable_ft), 0.0)
    s = ((centre - start[inside_member]) * unit[inside_member]).sum(axis=1) / length[inside_member]
    k = np.flatnonzero(has)
    return [
        (n_ends + bearing, at, 1.0 - inner),
        (2 * inside_member[k], at[k], (inner * (1.0 - s))[k]),
        (2 * inside_member[k] + 1, at[k], (inner * s)[k]),
    ]


def _influence(framing: Framing) -> list[tuple[list[int], list[float]]]:
    """For every node the bearings that it ends at and their shares: jack to girder to wall."""
    known: dict[int, dict[int, float]] = {}

    def of(node: int) -> dict[int, float]:
        if node in known:
            return known[node]
        member, end = divmod(node, 2)
        path = framing.members[member].paths[end] if framing.members[member].paths else None
        out: dict[int, float] = {}
        if path is not None and path.bearing is not None:
            out = {path.bearing: 1.0}
        elif path is not None and path.carrier is not None:
            carrier = framing.members[path.carrier]
            (ax, ay), (bx, by) = carrier.frame_ft
            far = path.at_ft / float(np.hypot(bx - ax, by - ay))
            for share, next_node in ((1.0 - far, 2 * path.carrier), (far, 2 * path.carrier + 1)):
                for bearing, part in of(next_node).items():
                    out[bearing] = out.get(bearing, 0.0) + share * part
        known[node] = out
        return out

    ends = [of(n) for n in range(2 * len(framing.members))]
    ends += [{b: 1.0} for b in range(len(framing.bearings))]
    return [(list(e), list(e.values())) for e in ends]
