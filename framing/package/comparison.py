"""Pairs -> what differs, in the order in which a careful engineer looks: wind, counts, hung or on the wall, places,
plies, then the reactions with their ratio.

Every band is common practice, no source: no public tolerance exists.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from enum import StrEnum

from framing.package.matching import Pair, overhang_off_ft, span_off_ft
from framing.package.ours import Ours
from framing.package.rows import Package, PackageRow
from framing.plan import Plan
from framing.units import feet_inches

ASK_UNDER_RATIO, ASK_OVER_RATIO = 0.75, 1.33
NEAR_RATIO, NEAR_LB = 0.10, 50.0
REMARK_FT, OTHER_TRUSS_FT = 0.5 / 12.0, 1.0 / 12.0
USUAL = (  # ratio from, to, what it usually means; the first that fits
    (0.55, 0.65, "0.6 W taken twice, or an interior zone where ours is an end zone"),
    (0.65, 0.75, "an interior zone where ours is an end zone, or 0.6 D taken off twice"),
    (0.82, 0.87, "the directionality factor taken twice (1 / 1.18)"),
    (1.15, 1.21, "the directionality factor left out (1.18)"),
    (1.21, 1.45, "components and cladding against the main frame"),
    (1.58, 1.76, "strength level typed as allowable stress (1 / 0.6 = 1.67)"),
    (1.85, 2.2, "a girder where ours carries its own strip, or another number of plies"),
)
UNUSUAL_LOW = "less roof than ours comes to it: a girder moved, an end hung, or another bearing takes it"
UNUSUAL_HIGH = "more roof than ours comes to it: a girder, a longer span or another overhang"


class Topic(StrEnum):
    """What a pair may differ in besides its reactions, in the order in which it is looked at."""

    HUNG = "hung or on the wall"
    PLACE = "places"
    PLIES = "plies"


class Band(StrEnum):
    """What a ratio of theirs to ours asks for."""

    NEAR = "near"
    DIFFERS = "differs"
    ASK = "ask"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reaction:
    """Theirs beside ours at one bearing: `ratio` is theirs over ours, None where ours is under 1 lb. [lb]"""

    theirs_lb: float
    ours_lb: float
    ratio: float | None
    band: Band
    usually: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """One pair: `differs` are sentences on where and how it stands that a person has to decide on; `told` is what is
    worth knowing.
    """

    pair: Pair
    differs: tuple[tuple[Topic, str], ...]
    uplift: Reaction | None
    down: Reaction | None
    told: tuple[str, ...]

    @property
    def asks(self) -> bool:
        """Whether a reaction is outside the bands."""
        return any(r is not None and r.band is Band.ASK for r in (self.uplift, self.down))


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """All of it: `wind` the inputs that differ, `unsaid` those that the table does not state, `counts` the numbers that
    differ, then the pairs.
    """

    wind: tuple[str, ...]
    unsaid: tuple[str, ...]
    counts: tuple[str, ...]
    pairs: tuple[Compared, ...]


def compare(plan: Plan, package: Package, pairs: tuple[Pair, ...]) -> Comparison:
    """Theirs beside ours, in order."""
    wind, unsaid = _wind(plan, package)
    return Comparison(wind=wind, unsaid=unsaid, counts=_counts(pairs), pairs=tuple(_compared(p) for p in pairs))


def reaction(theirs_lb: float, ours_lb: float) -> Reaction:
    """One reaction beside ours.

    Source: common practice, no source (every band is the user's).
    """
    ratio = theirs_lb / ours_lb if ours_lb >= 1.0 else None
    off = abs(theirs_lb - ours_lb)
    if off <= max(NEAR_LB, NEAR_RATIO * ours_lb):
        band = Band.NEAR
    elif ratio is None or not ASK_UNDER_RATIO <= ratio <= ASK_OVER_RATIO:
        band = Band.ASK
    else:
        band = Band.DIFFERS
    return Reaction(
        theirs_lb=theirs_lb,
        ours_lb=ours_lb,
        ratio=ratio,
        band=band,
        usually="" if band is Band.NEAR else usual_meaning(ratio),
    )


def usual_meaning(ratio: float | None) -> str:
    """What a ratio of theirs to ours usually means.

    Source: common practice, no source.
    """
    if ratio is None:
        return "nothing lifts here by ours: another dead load, or another case of wind"
    if 0.95 <= ratio <= 1.05:
        return ""
    fits = next((words for low, high, words in USUAL if low <= ratio < high), "")
    if fits or 0.75 <= ratio <= 1.15:
        return fits or "another dead load, span or effective area"
    return UNUSUAL_LOW if ratio < 1.0 else UNUSUAL_HIGH


def _by_main_frame(found: Reaction, o: Ours) -> Reaction:
    """The same, said more nearly where theirs is ours by the main frame alone."""
    main = reaction(found.theirs_lb, o.mwfrs_uplift_lb)
    if found.band is Band.NEAR or main.band is not Band.NEAR:
        return found
    return replace(found, usually=f"main frame alone: ours by the main frame is {o.mwfrs_uplift_lb:,.0f} lb")


def _wind(plan: Plan, package: Package) -> tuple[tuple[str, ...], tuple[str, ...]]:
    theirs, ours = package.wind, plan.wind
    lines: list[str] = []
    unsaid: list[str] = []
    for what, one, other in (
        ("wind speed", theirs.speed_mph, ours.speed_mph),
        ("exposure", theirs.exposure, ours.exposure),
        ("enclosure", theirs.enclosure, ours.enclosure),
        ("edition", theirs.edition, ours.edition),
    ):
        if one is None:
            unsaid.append(what)
        elif one != other:
            said = [f"{v:g} mph" if isinstance(v, float) else v.value for v in (one, other)]
            lines.append(
                f"the package is made for {what} {said[0]} and the plan has {said[1]}: its reactions are for another "
                "wind; ask for them again before anything else; until then the larger of theirs and ours stands"
            )
    return tuple(lines), tuple(unsaid)


def _counts(pairs: tuple[Pair, ...]) -> tuple[str, ...]:
    """Rows on each wall against our marks there, where the table names walls."""
    theirs = Counter(p.row.wall.upper() for p in pairs if p.row is not None and p.row.wall and not p.row.hung)
    ours = Counter(p.ours.bearing.wall for p in pairs if p.ours is not None)
    lines = [
        f"{wall}: the package has {theirs[wall]} bearings on it, the plan {ours[wall]}"
        for wall in dict.fromkeys([*ours, *theirs])
        if theirs and theirs[wall] != ours[wall]
    ]
    rows, marks = sum(p.row is not None for p in pairs), ours.total()
    hung = sum(p.row is not None and p.row.hung is True for p in pairs)
    if rows - hung != marks:
        lines.insert(0, f"in all the package has {rows - hung} bearings that do not hang, the plan {marks}")
    return tuple(lines)


def _compared(pair: Pair) -> Compared:
    row, o = pair.row, pair.ours
    if row is None or o is None:
        return Compared(pair=pair, differs=(), uplift=None, down=None, told=())
    up = None if row.uplift_lb is None or row.hung else _by_main_frame(reaction(row.uplift_lb, o.uplift_lb), o)
    down = None if row.down_lb is None or row.hung else reaction(row.down_lb, o.down_lb)
    return Compared(pair=pair, differs=tuple(_differs(row, o)), uplift=up, down=down, told=tuple(_told(row, o)))


def _differs(row: PackageRow, o: Ours) -> list[tuple[Topic, str]]:
    mark, wall, place_ft = o.bearing.mark, o.bearing.wall, o.bearing.station_ft
    out = []
    if row.hung:
        said = f"hangs this end on another member, ours stands on {wall}: a strap there would hold nothing; ask"
        out.append((Topic.HUNG, f"{mark}: the package {said}"))
    if row.wall and row.wall.upper() != wall:
        out.append((Topic.PLACE, f"{mark}: the package has it on {row.wall}, ours on {wall}"))
    elif row.station_ft is not None and abs(row.station_ft - place_ft) > REMARK_FT:
        off_ft = row.station_ft - place_ft
        way = "away from START" if off_ft > 0 else "toward START"
        theirs, ours, off = (feet_inches(ft) for ft in (row.station_ft, place_ft, abs(off_ft)))
        said = f"has it at {theirs}, ours at {ours}: {off} {way}; move the mark before the pour"
        out.append((Topic.PLACE, f"{mark}: the package {said}"))
    if row.plies is not None and row.plies != o.bearing.plies:
        said = f"has {row.plies} plies, ours {o.bearing.plies}: the strap's face and its anchor change"
        out.append((Topic.PLIES, f"{mark}: the package {said}"))
    return out


def _told(row: PackageRow, o: Ours) -> list[str]:
    out = []
    if span_off_ft(row, o) > OTHER_TRUSS_FT and row.span_ft is not None:
        out.append(f"span {feet_inches(row.span_ft)}, ours {feet_inches(o.span_ft)} between the bearings' middles")
    if overhang_off_ft(row, o) > OTHER_TRUSS_FT and row.overhang_ft is not None:
        out.append(f"overhang {feet_inches(row.overhang_ft)}, ours {feet_inches(o.overhang_ft)}")
    if row.horizontal_lb:
        out.append(f"its own horizontal reaction is {abs(row.horizontal_lb):,.0f} lb, not the wall's push")
    return out
