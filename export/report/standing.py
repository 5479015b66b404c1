"""What the marks stand on: those on supports and those whose truss crosses its wall askew, and where trusses run on."""

from __future__ import annotations

from export.report.markup import bullets, esc, num, paragraph, section, table
from export.wall_marks.tape_marks import LEAST_SKEW_DEG
from export.words.supports import carried_by_supports, support_words
from framing.anchors.schedule import Mark
from framing.members import MemberKind
from framing.run import Run
from framing.units import feet_inches, inches

MARKS = ("mark", "member", "stands on", "held by", "off square, degrees#", "bearing length, in.#")
RESTS = ("mark", "member", "runs on over", "station, from its 'from' end", "down, lb#")


def standing(run: Run) -> str:
    """The marks that do not stand square on a wall, what holds them, and where trusses only rest."""
    rows = [_mark(m) for m in run.schedule.marks if _listed(m)]
    along = (
        "; a gable end lies along it" if any(m.bearing.kind is MemberKind.GABLE_END for m in run.schedule.marks) else ""
    )
    ordinary = paragraph(
        f"Every mark{' that is not listed here' if rows else ''} stands square on the tie beam of its wall, on its "
        f"whole thickness of {inches(run.plan.wall_thickness_ft)}{along}."
    )
    found = table(MARKS, rows, name="standing") if rows else ""
    supports = carried_by_supports(run)
    said = f"<h3>Supports</h3>{bullets(map(support_words, supports))}" if supports else ""
    return section("standing", "What the marks stand on", ordinary, found, said, _rests(run))


def _listed(m: Mark) -> bool:
    return m.bearing.on_support or m.bearing.skew_deg >= LEAST_SKEW_DEG


def _mark(m: Mark) -> tuple[str, ...]:
    return (
        f'<a href="#worked-{esc(m.mark)}">{esc(m.mark)}</a>',
        esc(m.bearing.member),
        esc(m.bearing.wall),
        esc(m.held_by),
        num(m.bearing.skew_deg, 1),
        num(12.0 * m.bearing.bearing_length_ft, 2),
    )


def _rests(run: Run) -> str:
    """Where trusses run on over supports that only push up."""
    if not run.framing.rests:
        return ""
    rows = [
        (esc(b.mark), esc(b.member), esc(b.wall), esc(feet_inches(b.station_ft)), num(float(down_lb), 1))
        for b, down_lb in zip(run.framing.rests, run.reactions.rests_down_lb, strict=True)
    ]
    said = paragraph(
        "Supports that are not tied down press up and never hold down: nothing lifts there and no anchor stands "
        "there. Down is D + L_r for gravity."
    )
    return f"<h3>Where trusses run on over a support and only press on it</h3>{said}{table(RESTS, rows, name='rests')}"
