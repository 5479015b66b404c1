"""Entry + its strap -> how it stands: one signed rule on the strap's own geometry.

Away from its wood a strap has a gap, into its wood the truss has to shift. The bands are the plan's own.
Source: common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from framing.anchors.schedule import Mark
from framing.asbuilt.entries import Entry, Survey, Written
from framing.members import Crossing, Member, Strap
from framing.plan import AnchorSpec, Point
from framing.run import Run
from framing.tolerances import ROUNDING, TIE_FT
from framing.units import inches

PLY_IN = 1.5


class State(StrEnum):
    """What is to be said of a strap; the first two are as planned."""

    GOOD = "good"
    NOT_MEASURED = "set, not measured"
    FILLER = "filler"
    SHIFT = "shift"
    ASK = "ask"
    WRONG_SIDE = "wrong side"
    WRONG_ANCHOR = "wrong anchor"
    OUT_OF_REACH = "out of reach"
    MISSING = "missing"


AS_PLANNED = frozenset({State.GOOD, State.NOT_MEASURED})


@dataclass(frozen=True, slots=True, kw_only=True)
class AsBuilt:
    """One strap of the plan and how it was set.

    `away_in` is how far from its truss's face it stands, less than 0 where it stands in its wood; `shift_in` how far
    the truss would have to move; `along_in` how far off its mark along the tape, positive away from START;
    `off_face_in` how far farther in from the outside face than planned; each None where it is not known.
    """

    mark: Mark
    strap: Strap
    number: int
    entry: Entry | None
    state: State
    words: str
    away_in: float | None
    along_in: float | None
    off_face_in: float | None
    shift_in: float | None

    @property
    def as_planned(self) -> bool:
        """Whether nothing is found."""
        return self.state in AS_PLANNED

    @property
    def name(self) -> str:
        """The mark, with the strap's number where it has several."""
        return f"{self.mark.mark} strap {self.number}" if len(self.mark.straps) > 1 else self.mark.mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """The way a wall's tape runs and the way in from its outside face, unit vectors in plan."""

    tape: Point
    inward: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    away_in: float | None
    along_in: float | None
    off_face_in: float | None


def judged(run: Run, survey: Survey) -> tuple[AsBuilt, ...]:
    """Every strap of the plan in its order, judged; one that no list has is missing."""
    entries = {(e.mark, e.strap): e for e in survey.entries}
    members = {m.name: m for m in run.framing.members}
    ways = wall_ways(run)
    return tuple(
        _judged(
            run.plan.anchors,
            mark,
            (ways[mark.bearing.wall], members[mark.bearing.member]),
            strap,
            n,
            entries.get((mark.mark, n)),
        )
        for mark in run.schedule.marks
        for n, strap in enumerate(sorted(mark.straps, key=lambda s: s.tape_ft), start=1)
    )


def _judged(
    bands: AnchorSpec, mark: Mark, on: tuple[Ways, Member], strap: Strap, number: int, entry: Entry | None
) -> AsBuilt:
    place = _Place(away_in=None, along_in=None, off_face_in=None)
    if entry is not None and entry.stands:
        place = _place(*on, strap, entry)
    state, words, shift_in = _state(bands, mark, strap, entry, place)
    return AsBuilt(
        mark=mark,
        strap=strap,
        number=number,
        entry=entry,
        state=state,
        words=words,
        away_in=place.away_in,
        along_in=place.along_in,
        off_face_in=place.off_face_in,
        shift_in=shift_in,
    )


def wall_ways(run: Run) -> dict[str, Ways]:
    """Of each wall and support by its name: the way its tape runs and the way in from its face."""
    ways = {
        w.name: Ways(tape=_unit(w.start_ft, w.end_ft), inward=(-w.outward[0], -w.outward[1])) for w in run.outline.walls
    }
    for number, support in enumerate(run.plan.supports, start=1):
        x, y = _unit(support.start_ft, support.end_ft)
        ways[f"S{number}"] = Ways(tape=(x, y), inward=(-y, x))
    return ways


def _unit(a: Point, b: Point) -> Point:
    length = math.dist(a, b)
    return ((b[0] - a[0]) / length, (b[1] - a[1]) / length)


def away_from_wood(ways: Ways, member: Member, strap: Strap) -> tuple[float, float]:
    """How much farther from its truss's face an inch along the tape and an inch inward take a strap: the parts of the
    face's normal, which points from the truss's centre line to where the plan has the strap.
    """
    x, y = _unit(member.start_ft, member.end_ft)
    beside = (strap.point_ft[0] - member.start_ft[0]) * -y + (strap.point_ft[1] - member.start_ft[1]) * x
    normal = (-y, x) if beside > 0.0 else (y, -x)
    along, inward = (normal[0] * way[0] + normal[1] * way[1] for way in (ways.tape, ways.inward))
    return (along, inward)


def _place(ways: Ways, member: Member, strap: Strap, entry: Entry) -> _Place:
    off_face = None
    if entry.face_in is not None and strap.in_from_face_ft is not None:
        off_face = entry.face_in - 12.0 * strap.in_from_face_ft
    along, inward = away_from_wood(ways, member, strap)
    away: float | None = None
    if entry.gap_in is not None:
        away = entry.gap_in
    elif entry.offset_in is not None or off_face is not None:
        away = along * (entry.offset_in or 0.0) + inward * (off_face or 0.0)
        if abs(along) < ROUNDING and off_face is None:  # a truss along the wall: only its depth would tell
            away = None
    return _Place(away_in=away, along_in=entry.offset_in, off_face_in=off_face)


Verdict = tuple[State, str, float | None]


def _state(bands: AnchorSpec, mark: Mark, strap: Strap, entry: Entry | None, place: _Place) -> Verdict:
    if why := _missing_words(entry):
        return State.MISSING, why, None
    if entry is None or mark.anchor is None:
        return State.ASK, "the plan itself has no anchor for this mark", None
    if entry.anchor and entry.anchor.lower() != mark.anchor.id.lower():
        return State.WRONG_ANCHOR, f"{entry.anchor} is set, the plan has {mark.anchor.id}", None
    if entry.side is not None and entry.side is not strap.side:
        return State.WRONG_SIDE, f"it stands on the {entry.side} side, the plan has {strap.side}", None
    if not entry.stands:
        return State.ASK, f"written down as {entry.written}, not measured", None
    return _of_place(bands, mark, place)


def _missing_words(entry: Entry | None) -> str:
    """Why a strap counts as missing; '' where it does not. What nobody has looked at does."""
    if entry is None:
        return "no list has it: it counts as missing until somebody has looked"
    if entry.written is Written.MISSING:
        return "no strap is there"
    if entry.written is Written.TO_SET:
        return "not ticked as set: it counts as missing until somebody has looked"
    return ""


def _of_place(bands: AnchorSpec, mark: Mark, place: _Place) -> Verdict:
    """By where it stands: off its truss first, then in from the face, then along a truss that runs along the wall."""
    along = mark.bearing.crossing is Crossing.ALONG
    if place.away_in is not None:
        state, words, shift_in = _off_wood(bands, mark, place.away_in)
        if state is not State.GOOD:
            return state, words, shift_in
    if along and place.along_in is not None:
        said = f"{_inches(abs(place.along_in))} off along its truss"
        far = abs(place.along_in) > 12.0 * (bands.along_band_ft + TIE_FT)
        return (State.ASK if far else State.GOOD, said, None)
    if not along and place.off_face_in is not None and abs(place.off_face_in) > 12.0 * (bands.face_band_ft + TIE_FT):
        way = "farther in from" if place.off_face_in > 0 else "nearer to"
        return State.ASK, f"{_inches(abs(place.off_face_in))} {way} the outside face than planned", None
    if place.away_in is not None:
        return state, words, shift_in
    return State.NOT_MEASURED, "set, its place not measured", None


def _off_wood(bands: AnchorSpec, mark: Mark, away_in: float) -> Verdict:
    """The signed rule: away from its wood a gap, into it a shift."""
    if away_in >= -12.0 * TIE_FT:
        return _gap(bands, max(0.0, away_in))
    return _into(bands, PLY_IN * mark.bearing.plies, -away_in)


def _gap(bands: AnchorSpec, gap_in: float) -> Verdict:
    said = f"gap {_inches(gap_in)}"
    if gap_in <= 12.0 * (bands.gap_good_ft + TIE_FT):
        return State.GOOD, said, None
    if gap_in <= 12.0 * (bands.gap_filler_ft + TIE_FT):
        return State.FILLER, f"{said}: a filler between strap and truss", None
    if gap_in <= 12.0 * (bands.gap_ask_ft + TIE_FT):
        return State.ASK, f"{said}: over a filler's {_inches(12.0 * bands.gap_filler_ft)}", None
    return State.OUT_OF_REACH, f"{said}: over {_inches(12.0 * bands.gap_ask_ft)}", None


def _into(bands: AnchorSpec, wood_in: float, into_in: float) -> Verdict:
    """A truss may move either way onto a strap in its wood: the shorter way is told."""
    good = 12.0 * (bands.gap_good_ft + TIE_FT)
    if into_in <= good:
        return State.GOOD, f"{_inches(into_in)} into its truss, within what is good", None
    past = into_in - wood_in
    if past > 12.0 * (bands.gap_ask_ft + TIE_FT):
        return State.OUT_OF_REACH, f"past the other face by {_inches(past)}", None
    if past >= -good:
        gap = f" with a gap of {_inches(past)}" if past > good else ""
        return State.WRONG_SIDE, f"at the truss's other face{gap}", None
    shift = min(into_in, wood_in - into_in)
    other = "" if into_in <= wood_in - into_in else ", the strap then on its other face"
    said = f"{_inches(into_in)} into its wood: the truss would have to shift {_inches(shift)}{other}"
    return State.SHIFT, said, shift


def _inches(value_in: float) -> str:
    """A length in inches to the sixteenth, as people read it."""
    return inches(value_in / 12.0).removeprefix("0 ").replace('"', " in.")
