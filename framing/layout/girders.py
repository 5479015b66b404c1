"""The girder on a chord."""

from __future__ import annotations

from framing.frame_side import sides_of
from framing.layout.records import Cell, Chord, Draft, Landing, girder_key
from framing.members import MemberKind
from framing.plan import Plan
from framing.tolerances import TIE_FT


def girder_on(plan: Plan, chord: Chord, cells: list[Cell]) -> Draft:
    """The girder on a chord, from the bearing at its one end to that at its other."""

    def point(at: float) -> tuple[float, float]:
        return (at, chord.bearing_ft) if chord.axis == 0 else (chord.bearing_ft, at)

    landings = [
        Landing(
            wall=e.wall,
            member=girder_key(e.chord) if e.chord is not None else None,
            support=e.support,
            point_ft=point(e.at_ft),
        )
        for e in (chord.low_end, chord.high_end)
    ]
    beside = next(
        (
            c
            for c in cells
            if min(abs(c.side_ft(s) - chord.line_ft) for s in sides_of(1 - chord.axis)) < TIE_FT
            and c.low_ft[chord.axis] < chord.high_ft
            and c.high_ft[chord.axis] > chord.low_ft
        ),
        cells[0],
    )
    return Draft(
        key=girder_key(chord.index),
        kind=MemberKind.GIRDER,
        plies=plan.trusses.girder_plies,
        start=landings[0],
        end=landings[1],
        tail_start_ft=0.0,
        tail_end_ft=0.0,
        wing=beside.wing,
        width_ft=plan.trusses.spacing_ft,
    )
