"""Framing + pieces -> the linear map: from a vertical force on each piece to every bearing's reaction.

Each member is a beam on its two ends, continuous over the supports that it crosses; a gable end stands on its wall,
its outlookers are levers over it. Only vertical reactions pass from member to member. The map is built once, every
column sums to one, and every case is one product. Two variants: 'heel', where a member's in-plane horizontal part is
held at bearing height (at its wall bearing, or by the diaphragm at that level), and 'deck', where the roof diaphragm
holds it where it acts. Either is built with the members on every support and, for what lifts, lifted off those that
only push (`lifted`). Source: own derivation: tests/statics.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from framing.loads.continuous_beam import bearing_shares
from framing.loads.pieces import Ints, Pieces
from framing.members import Framing, MemberKind
from framing.plan import Plan
from framing.wind.patches import Floats, Patches

CASES_AT_ONCE = 32  # what is multiplied together is kept small, so that memory does not grow with the cases


class Variant(StrEnum):
    """Where a member's in-plane horizontal part is held."""

    HEEL = "heel"
    DECK = "deck"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LinearMap:
    """A sparse (n_bearings, n_pieces) matrix as triplets sorted by bearing; the rests come after the bearings."""

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
            at, share = self.bearing[starts], self.share[:, None]
            for k in range(0, force_lb.shape[1], CASES_AT_ONCE):
                of = slice(k, k + CASES_AT_ONCE)
                out[at, of] = np.add.reduceat(share * force_lb[self.piece, of], starts, axis=0)
        return out

    def column_sums(self) -> Floats:
        """What each piece's unit force adds up to over all bearings: one. (n_pieces,)"""
        sums: Floats = np.bincount(self.piece, weights=self.share, minlength=self.n_pieces).astype(np.float64)
        return sums


def build_map(
    plan: Plan, framing: Framing, patches: Patches, pieces: Pieces, variant: Variant, *, lifted: bool = False
) -> LinearMap:
    """The map of one variant. Heights are above the roof plane over the bearing line (the heel's own height is
    left out of the couple, as in the published tables).
    """
    node, piece, share = first_step(plan, framing, patches, pieces, variant, lifted=lifted)
    n_bearings = len(framing.bearings) + len(framing.rests)
    return _through(node, piece, share, _influence(framing, lifted=lifted), n_bearings, len(pieces.patch))


def build_hung_map(plan: Plan, framing: Framing, patches: Patches, pieces: Pieces, variant: Variant) -> LinearMap:
    """The same onto the ends that hang on members, in the order of `hung_ends`: what each hands to its carrier, what
    others have handed to it included.
    """
    node, piece, share = first_step(plan, framing, patches, pieces, variant)
    wanted = {2 * member + end: k for k, (member, end) in enumerate(hung_ends(framing))}
    to_hung = _influence(framing, lifted=False, at=wanted)
    return _through(node, piece, share, to_hung, len(wanted), len(pieces.patch))


def hung_ends(framing: Framing) -> tuple[tuple[int, int], ...]:
    """The ends that hang on members: (place of the member, its end 0 or 1)."""
    return tuple(
        (i, end) for i, m in enumerate(framing.members) for end, path in enumerate(m.paths) if path.carrier is not None
    )


def _through(
    node: Ints,
    piece: Ints,
    share: Floats,
    to_bearing: list[tuple[list[int], list[float]]],
    n_bearings: int,
    n_pieces: int,
) -> LinearMap:
    """Shares of pieces at nodes, and of nodes at bearings, as shares of pieces at bearings."""
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
        n_bearings=n_bearings,
        n_pieces=n_pieces,
    )


def seats(framing: Framing, member: int, *, lifted: bool) -> tuple[tuple[float, int], ...]:
    """A member's bearings in order: the place along it [ft] and the node there."""
    m, n_ends = framing.members[member], 2 * len(framing.members)
    (ax, ay), (bx, by) = m.frame_ft
    on = [b for b in m.between if not lifted or b.bearing < len(framing.bearings)]
    end = (float(np.hypot(bx - ax, by - ay)), 2 * member + 1)
    return ((0.0, 2 * member), *((b.at_ft, n_ends + b.bearing) for b in on), end)


def first_step(
    plan: Plan, framing: Framing, patches: Patches, pieces: Pieces, variant: Variant, *, lifted: bool = False
) -> tuple[Ints, Ints, Floats]:
    """From pieces to nodes: member ends (2 i, 2 i + 1 of member i), then bearings and rests after them.

    Returns
    -------
    tuple of (k,) arrays
        Node, piece, and the share of that piece's force that goes to that node; in the same order for either variant.
    """
    way, points, n_ends = pieces.way, pieces.points, 2 * len(framing.members)
    piece, at = points.piece, points.point_ft
    s = ((at - way.start_ft[piece]) * way.measure[piece]).sum(axis=1)
    owner = np.array([t.owner for t in framing.tributaries])[pieces.tributary[piece]]
    gable = np.array([m.kind is MemberKind.GABLE_END for m in framing.members])[owner]
    push = np.zeros(len(s))
    if variant is Variant.HEEL:
        g = (patches.gradient[pieces.patch] * way.unit).sum(axis=1)[piece]
        z = patches.height_ft(pieces.patch[piece], at) - plan.roof.rise_per_run * plan.wall_thickness_ft / 2.0
        push = np.where(pieces.on_valley[piece] | gable, 0.0, z * g)
    span, over = np.flatnonzero(~gable), np.flatnonzero(gable)
    found = _onto(framing, owner[span], piece[span], s[span], push[span], points.share[span], lifted=lifted)
    found += _gable_step(framing, pieces, over, s[over], n_ends, lifted=lifted)
    node, which, share = (np.concatenate(column) for column in zip(*found, strict=True))
    if len(piece) == len(pieces.patch):
        return node, which, share
    key, place = np.unique(node * len(pieces.patch) + which, return_inverse=True)
    merged: Floats = np.bincount(place, weights=share).astype(np.float64)
    return key // len(pieces.patch), key % len(pieces.patch), merged


def _onto(
    framing: Framing, member: Ints, piece: Ints, at_ft: Floats, push_ft: Floats, weight: Floats, *, lifted: bool
) -> list[tuple[Ints, Ints, Floats]]:
    """Forces on members, `weight` of each piece's at `at_ft` along its member, to the nodes that the members stand on;
    `push_ft` is each force's couple. Members with the same bearings are solved together.
    """
    places = [seats(framing, m, lifted=lifted) for m in range(len(framing.members))]
    two = np.array([len(p) == 2 for p in places])[member]
    k = np.flatnonzero(two)
    length = np.array([p[-1][0] for p in places])[member[k]]
    far = (at_ft[k] + push_ft[k]) / length
    out = [(2 * member[k], piece[k], (1.0 - far) * weight[k]), (2 * member[k] + 1, piece[k], far * weight[k])]
    alike: dict[tuple[float, ...], list[int]] = {}
    for row in np.flatnonzero(~two).tolist():
        alike.setdefault(tuple(at for at, _ in places[member[row]]), []).append(row)
    for at, rows in alike.items():
        shares = bearing_shares(np.array(at), at_ft[rows], push_ft[rows]) * weight[rows][:, None]
        nodes = np.array([[n for _, n in places[m]] for m in member[rows]])
        out += [(nodes[:, j], piece[rows], shares[:, j]) for j in range(len(at))]
    return out


def _gable_step(
    framing: Framing, pieces: Pieces, at: Ints, along_ft: Floats, n_ends: int, *, lifted: bool
) -> list[tuple[Ints, Ints, Floats]]:
    """A gable end's load points `at`: to the anchor that stands there, and by the outlookers' lever to the truss
    inside, `along_ft` along it.
    """
    points = pieces.points
    piece, centre, weight = points.piece[at], points.point_ft[at], points.share[at]
    trib = [framing.tributaries[i] for i in pieces.tributary[piece]]
    bearing = np.array([t.bearing for t in trib], dtype=np.int64)  # a gable end's tributaries have an anchor each
    levers = [t.lever for t in trib]
    has = np.array([lv is not None for lv in levers], dtype=bool)
    axis = np.array([lv.axis if lv else 0 for lv in levers], dtype=np.int64)
    gable_ft = np.array([lv.gable_ft if lv else 0.0 for lv in levers])
    inside_ft = np.array([lv.inside_ft if lv else 1.0 for lv in levers])
    across = centre[np.arange(len(at)), axis] if len(at) else np.zeros(0)
    inner = np.where(has, (across - gable_ft) / (inside_ft - gable_ft), 0.0) * weight
    k = np.flatnonzero(has)
    return [
        (n_ends + bearing, piece, weight - inner),
        *_onto(framing, pieces.way.member[piece[k]], piece[k], along_ft[k], np.zeros(len(k)), inner[k], lifted=lifted),
    ]


def _influence(
    framing: Framing, *, lifted: bool, at: dict[int, int] | None = None
) -> list[tuple[list[int], list[float]]]:
    """For every node the bearings that it ends at and their shares: jack to girder to wall; or, where `at` names
    nodes on the way, those that it passes.
    """
    n_ends = 2 * len(framing.members)
    n_bearings = len(framing.bearings) + len(framing.rests)
    known: dict[int, dict[int, float]] = {n_ends + b: {} if at else {b: 1.0} for b in range(n_bearings)}

    def of(node: int) -> dict[int, float]:
        if node in known:
            return known[node]
        member, end = divmod(node, 2)
        path = framing.members[member].paths[end] if framing.members[member].paths else None
        out: dict[int, float] = {}
        if path is not None and path.bearing is not None:
            out = {} if at else {path.bearing: 1.0}
        elif path is not None and path.carrier is not None:
            on = seats(framing, path.carrier, lifted=lifted)
            far = path.at_ft / on[-1][0]
            shares = [1.0 - far, far]
            if len(on) > 2:
                places = np.array([at for at, _ in on])
                shares = bearing_shares(places, np.array([path.at_ft]), np.zeros(1))[0].tolist()
            for share, (_, next_node) in zip(shares, on, strict=True):
                for bearing, part in of(next_node).items():
                    out[bearing] = out.get(bearing, 0.0) + share * part
        if at and node in at:
            out[at[node]] = 1.0
        known[node] = out
        return out

    ends = [of(n) for n in range(n_ends + n_bearings)]
    return [(list(e), list(e.values())) for e in ends]
