"""What is said about a bearing or a member that somebody points at: rows of a word and a value."""

from __future__ import annotations

from framing.anchors.schedule import Mark
from framing.loads.cases import LoadBasis
from framing.members import CarrierKind, Member
from framing.plan import Side
from framing.run import Run
from framing.units import feet_inches
from viewer.plain import mark_words, share_words

Rows = tuple[tuple[str, str], ...]


def bearing_card(mark: Mark) -> Rows:
    """The card of a mark: where it is, what pulls on it, what holds it, and which case governs."""
    reach = "never below 300 mph" if mark.good_to_mph is None else f"{mark.good_to_mph:,.0f} mph"
    if mark.bearing.by_engineer:
        holds: Rows = (("held by", mark.held_by),)
    elif mark.anchor is None:
        holds = (("anchor", "none in the catalogue holds it: ask the engineer"),)
    else:
        sides = {
            Side.START: "start side",
            Side.FAR: "far side",
            Side.BOTH: "both sides",
            Side.INSIDE: "inside face",
            Side.OUTSIDE: "outside face",
        }
        holds = (
            ("anchor", f"{mark.count} x {mark.anchor.name}, {sides[mark.side]} of the truss"),
            ("allowable uplift", f"{mark.allowable_uplift_lb:,.0f} lb"),
            *_share_used(mark),
            ("reached at", reach),
        )
    return (
        ("bearing", mark.mark),
        ("member", f"{mark.bearing.member}, {mark.bearing.plies} ply"),
        ("truss centre", feet_inches(mark.bearing.station_ft)),
        ("mark for strap", feet_inches(mark.bearing.strap_station_ft)),
        ("uplift", f"{mark.uplift_lb:,.0f} lb"),
        *_by_package(mark),
        ("uplift, main frame", _lb(mark.uplift_mwfrs_lb, governs=mark.basis is LoadBasis.MWFRS)),
        ("uplift, cladding", _lb(mark.uplift_cladding_lb, governs=mark.basis is LoadBasis.CLADDING)),
        ("storm", mark.storm),
        ("load down", f"{mark.down_lb:,.0f} lb"),
        *holds,
        ("governing case", mark.case),
    )


def _by_package(mark: Mark) -> Rows:
    """What the truss package has here, ours beside it."""
    if mark.stated is None or mark.stated.theirs_lb is None:
        return ()
    return (("by truss package", f"{mark.stated.theirs_lb:,.0f} lb, ours {mark.stated.ours_lb:,.0f} lb"),)


def _lb(uplift_lb: float, *, governs: bool) -> str:
    return f"{uplift_lb:,.0f} lb{', governs' if governs else ''}"


def _share_used(mark: Mark) -> Rows:
    """The sum of the anchor's hardest case and the three ratios that make it."""
    if mark.use is None or mark.ratio is None:
        return ()
    return (("share used", f"{mark.ratio:.2f}"), ("its parts", share_words(mark)), ("in the case", mark.use.case))


def short_card(mark: Mark) -> Rows:
    """The card of a mark before its figures are asked for: its name and what a client is told."""
    return (("bearing", f"{mark.mark}, {mark.bearing.member}"), ("", mark_words(mark)), ("f", "the figures"))


def member_card(run: Run, member: Member) -> Rows:
    """The card of a member: its kind and size, what carries it, and the uplift at each of its marks."""
    carried = list(dict.fromkeys(_carrier(c.kind, c.name) for c in member.carriers))
    shown = carried if len(carried) <= 4 else [*carried[:3], f"{len(carried) - 3} more"]
    marks = [m for m in run.schedule.marks if m.bearing.member == member.name]
    lifts = tuple(
        (f"uplift at {m.mark}", f"{m.uplift_lb:,.0f} lb{'' if m.resolved else ', no anchor holds it'}") for m in marks
    )
    return (
        ("member", member.name),
        ("plies", str(member.plies)),
        ("between bearings", feet_inches(member.span_ft)),
        ("carried by", ", ".join(shown)),
        *(lifts or (("uplift", "reaches no wall, so it has no wall anchor"),)),
        ("webs", "a pattern only: the truss engineer's"),
    )


def _carrier(kind: CarrierKind, name: str) -> str:
    return f"wall {name}" if kind is CarrierKind.WALL else f"support {name}" if kind is CarrierKind.SUPPORT else name
