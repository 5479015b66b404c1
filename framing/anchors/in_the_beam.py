"""Whether the tie beam can hold an anchor at all: embedment, distances, concrete, each against the catalogue's column.

What a column does not give is not judged: the actual distance stands in the schedule, and the approval is to be read.
No figure of this kind is the program's own.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from framing.anchors.catalogue import Anchor, Catalogue
from framing.anchors.schedule import Mark
from framing.members import Bearing
from framing.plan import Plan

PLY_IN = 1.5
SLACK_IN = 1.0 / 32.0
COLUMNS = {
    "embedment_in": "embedment",
    "spacing_in": "clear spacing",
    "end_in": "distance to a wall's end",
    "edge_in": "distance to the beam's face",
    "f_c_psi": "least strength of the concrete",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What the beam offers an anchor at one bearing, inches: `depth_in` for embedment, the cover taken off where the
    plan says it; the least distances of its straps to the wall's end and to the beam's face; between the two straps of
    a pair, None for a single one. Distances are None on a support, that to the end also in the block of an inside
    corner, where the beam runs on.
    """

    depth_in: float
    cover_known: bool
    end_in: float | None
    edge_in: float | None
    pair_in: float | None
    f_c_psi: float | None


def room(plan: Plan, bearing: Bearing, count: int) -> Room:
    """The room for one anchor, or for a pair."""
    steel, straps = plan.masonry.steel, bearing.straps[:count]
    ends = [s.end_ft for s in straps if s.end_ft is not None]
    edges = [s.edge_ft for s in straps if s.edge_ft is not None]
    return Room(
        depth_in=12.0 * (plan.tie_beam.depth_ft - (steel.cover_ft or 0.0)),
        cover_known=steel.cover_ft is not None,
        end_in=12.0 * min(ends) if ends else None,
        edge_in=12.0 * min(edges) if edges else None,
        pair_in=bearing.plies * PLY_IN if count > 1 else None,
        f_c_psi=steel.f_c_psi,
    )


def beam_faults(plan: Plan, bearing: Bearing, anchor: Anchor) -> tuple[str, ...]:
    """Why the beam cannot hold this anchor at this bearing; nothing where it can, on a support, or where neither side
    says enough.
    """
    if bearing.on_support:
        return ()
    here = room(plan, bearing, anchor.count)
    out = []
    if anchor.embedment_in is not None and anchor.embedment_in > here.depth_in + SLACK_IN:
        less = "less its cover " if here.cover_known else ""
        out.append(f'embedment {anchor.embedment_in:g}", but the {plan.tie_beam.name} {less}has {here.depth_in:.3g}"')
    for needed, there, words in (
        (anchor.spacing_in, here.pair_in, "between the two straps of the pair"),
        (anchor.end_in, here.end_in, "to the wall's end"),
        (anchor.edge_in, here.edge_in, "to the beam's face"),
    ):
        if needed is not None and there is not None and there < needed - SLACK_IN:
            out.append(f'{there:.3g}" {words}, but it wants {needed:g}"')
    if anchor.f_c_psi is not None and here.f_c_psi is not None and here.f_c_psi < anchor.f_c_psi:
        out.append(f"concrete of {here.f_c_psi:,.0f} psi, but it wants {anchor.f_c_psi:,.0f} psi")
    return tuple(out)


def refusal_notes(marks: tuple[Mark, ...]) -> tuple[str, ...]:
    """One sentence on the marks where a heavier anchor stands because the beam cannot hold the lightest."""
    heavier = [m for m in marks if m.beam_refuses and m.anchor is not None]
    if not heavier:
        return ()
    first = heavier[0]
    return (
        f"At {len(heavier)} marks the tie beam cannot hold the lightest anchor that carries the load, so another "
        f"stands there; {first.mark}: {first.beam_refuses}.",
    )


def column_questions(plan: Plan, catalogue: Catalogue, used: tuple[tuple[Bearing, Anchor], ...]) -> tuple[str, ...]:
    """A sentence on what the catalogue leaves out for the anchors in use, with the least actual distances, and one on
    the concrete that they want where the plan does not say its own; none where nothing is left out.
    """
    on_beam = [(b, a) for b, a in used if not b.on_support]
    return (*_left_out(plan, catalogue, on_beam), *_concrete_not_said(plan, on_beam))


def _concrete_not_said(plan: Plan, on_beam: list[tuple[Bearing, Anchor]]) -> tuple[str, ...]:
    wanted = [a.f_c_psi for _, a in on_beam if a.f_c_psi is not None]
    if not wanted or plan.masonry.steel.f_c_psi is not None:
        return ()
    return (
        f"{len(wanted)} anchors want concrete of up to {max(wanted):,.0f} psi, and the plan does not say its strength "
        "(tie_beam.f_c_psi): not judged; ask the engineer.",
    )


def _left_out(plan: Plan, catalogue: Catalogue, on_beam: list[tuple[Bearing, Anchor]]) -> tuple[str, ...]:
    empty = Counter(name for _, a in on_beam for name in COLUMNS if getattr(a, name) is None)
    if not empty:
        return ()
    rooms = [room(plan, b, a.count) for b, a in on_beam]
    least = [f'{rooms[0].depth_in:.3g}" of beam{" under its cover" if rooms[0].cover_known else ", cover not said"}']
    for name, words in (
        ("end_in", "to a wall's end"),
        ("edge_in", "to a face"),
        ("pair_in", "between a pair's straps"),
    ):
        found = [getattr(r, name) for r in rooms if getattr(r, name) is not None]
        least += [f'{min(found):.3g}" {words}'] if found else []
    alike = len(set(empty.values())) == 1
    named = ", ".join(COLUMNS[name] + ("" if alike else f" ({n} marks)") for name, n in empty.items())
    named += f" ({len(on_beam)} marks)" if alike else ""
    return (
        f"{catalogue.name} gives no {named}: not judged. The schedule has each mark's own distances; the least are "
        f"{', '.join(least)}. Read the anchor's approval, or ask the maker, before the pour.",
    )
