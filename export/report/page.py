"""Run -> report.html: the figures behind every mark, to read on a screen, to print and to check by hand."""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterator

from export.report.assumptions import assumptions
from export.report.behind import behind
from export.report.engineer import for_the_engineer
from export.report.ground import where_the_pull_stops
from export.report.markup import esc, paragraph, part, section
from export.report.method import method
from export.report.opening import in_short, wind_figures
from export.report.roof_cover import roof_cover
from export.report.roof_plan import textures, zone_plan
from export.report.sideways import line_sum, lines_told, sideways
from export.report.stages import stages
from export.report.standing import standing
from export.report.tables import every_mark, limits, mark_index, totals, unconfirmed
from export.report.trusses import trusses_by_profile
from export.report.worked import worked_mark
from export.wall_marks.tape_marks import SAMPLE_WORDS
from framing.explain.trace import MarkTrace, traces
from framing.explain.wind_cases import leading_case
from framing.loads.cases import LoadBasis
from framing.members import MemberKind
from framing.run import CAUTION, Run
from viewer.plain import roof_words

PLACE = re.compile(r"@([A-Z]+)@")
LONGEST_RUNNING_HEAD = 70


def report_html(run: Run, *, full: bool = False) -> bytes:
    """The page, with its style inside, no script, nothing fetched; equal runs give equal bytes.

    Every printed page bears the caution, the fingerprint and its number. Printed, it works out one mark of each kind,
    and the one that a link has led to; `full` prints every mark's arithmetic.
    """
    style = PLACE.sub(lambda found: _printed(run)[found[1]], part("report.css"))
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    parts = {
        "FULL": "full" if full else "brief",
        "CSP": f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'",
        "TITLE": esc(f"Figures behind every mark, {run.plan.project.name}"),
        "STYLE": style,
        "CAUTION": esc(CAUTION),
        "HEAD": _head(run),
        "PLAIN": "".join(paragraph(words) for words in roof_words(run)),
        "WARNINGS": _warnings(run),
        "INDEX": mark_index(run),
        "BODY": "".join(_sections(run)),
    }
    return PLACE.sub(lambda found: parts[found[1]], part("report.html")).encode()


def _printed(run: Run) -> dict[str, str]:
    """What stands in the margins of every printed page."""
    project = run.plan.project
    name = project.name if len(project.name) <= LONGEST_RUNNING_HEAD else f"{project.name[:LONGEST_RUNNING_HEAD]}..."
    sample = f"  {SAMPLE_WORDS}" if run.schedule.catalogue.invented else ""
    return {
        "CAUTION": _css_string(CAUTION),
        "RUNNING": _css_string(f"{name}, revision {project.revision or '-'}{sample}"),
        "FINGERPRINT": _css_string(run.fingerprint),
    }


def _css_string(text: str) -> str:
    """A text as a string of a style sheet, in which nothing can end the string or the style."""
    return (
        '"' + "".join(c if c.isascii() and (c.isalnum() or c in " .,;:-'") else f"\\{ord(c):06x}" for c in text) + '"'
    )


def _head(run: Run) -> str:
    """Project, revision and date of the plan, fingerprint, version, and the warnings."""
    project = run.plan.project
    facts = [
        f"revision {project.revision or '-'}",
        f"plan of {project.date}" if project.date else "plan without a date",
        f"truss package: {run.reconciled.words if run.reconciled else project.truss_package or 'none named'}",
        f"fingerprint {run.fingerprint}",
        f"strapline {run.version}",
    ]
    edition = f'<span class="term">{esc(run.plan.wind.edition.value)}</span>'
    return f"<h1>{esc(project.name)}</h1><p>{esc('; '.join(facts))}; {edition}</p>"


def _warnings(run: Run) -> str:
    """What stands below the plain sentences: a sample catalogue, and marks that no anchor holds."""
    lines = []
    if run.schedule.catalogue.invented:
        lines.append(f'<p class="warning">{esc(SAMPLE_WORDS)}</p>')
    if n_open := len(run.schedule.unresolved):
        names = ", ".join(m.mark for m in run.schedule.unresolved)
        lines.append(f'<p class="warning">{n_open} UNRESOLVED, no anchor holds: {esc(names)}</p>')
    return "".join(lines)


def _sections(run: Run) -> Iterator[str]:
    yield in_short(run)
    yield assumptions(run)
    yield wind_figures(run)
    yield _plans(run)
    yield method(run)
    yield behind(run)
    found = {t.mark: t for t in traces(run)}
    first = _one_of_each_kind(run)
    yield _worked(run, found, first)
    yield every_mark(run)
    yield standing(run)
    yield where_the_pull_stops(run)
    yield for_the_engineer(run)
    yield sideways(run)
    yield trusses_by_profile(run)
    yield roof_cover(run)
    yield stages(run)
    yield totals(run)
    yield unconfirmed()
    yield limits(run)
    yield _others(run, found, first)


def _plans(run: Run) -> str:
    """The roof twice: the main frame's leading case, and the cladding's."""
    widths = run.loads.widths
    figures = [textures()]
    for basis, words in ((LoadBasis.MWFRS, "Main frame"), (LoadBasis.CLADDING, "Components and cladding")):
        j = leading_case(run, basis)
        if j is None:
            continue
        name = run.reactions.cases[j].load
        case = next(c for c in run.loads.cases if c.name == name)
        figures.append(f'<div class="whole">{zone_plan(run, case, f"{words}: {name}")}</div>')
    said = (
        f"<p>Of each basis the case that pulls hardest at the most bearings. a = {widths.a_ft:.2f} ft: the main "
        f"frame's end zones (E) are 2a = {widths.end_zone_ft:.2f} ft wide, the cladding's strips a wide. Seen from "
        f"above; dashed: outside faces of the walls; {'dotted: open porches; ' if run.framing.porches else ''}heavy: "
        "ridges, hips and valleys.</p>"
    )
    return section("zones", "The roof in plan with its pressure zones", said, *figures)


def _one_of_each_kind(run: Run) -> list[str]:
    """The mark of each kind that is pulled hardest."""
    out = []
    for kind in MemberKind:
        mine = [m for m in run.schedule.marks if m.bearing.kind is kind]
        if mine:
            out.append(max(mine, key=lambda m: m.uplift_lb).mark)
    return out


def _worked(run: Run, found: dict[str, MarkTrace], first: list[str]) -> str:
    marks = {m.mark: m for m in run.schedule.marks}
    said = (
        "<p>Of each kind of member the mark that is pulled hardest. Lift and reactions are positive up; p is positive "
        "toward the surface. Lines are printed to 0.01 lb and add up within the last figure of each.</p>"
    )
    parts = [
        f'<article id="worked-{esc(name)}"><p class="kind">{esc(marks[name].bearing.kind.value)}</p>'
        f"{worked_mark(run, found[name], marks[name], level=3)}</article>"
        for name in first
    ]
    return section("worked", "One mark of each kind, worked out", said, *parts)


def _others(run: Run, found: dict[str, MarkTrace], first: list[str]) -> str:
    """All other marks worked out, and the lines of the deck that they lead to, folded away until a link leads there."""
    said = (
        '<p class="screen">A link to a mark or to a line unfolds it here, and a printed page then holds it. '
        f'<a href="#others">Unfold and print every mark</a>, {len(run.schedule.marks) - len(first)} more.</p>'
    )
    parts = [
        f'<article id="worked-{esc(m.mark)}">{worked_mark(run, found[m.mark], m, level=3)}</article>'
        for m in run.schedule.marks
        if m.mark not in first
    ]
    parts += [f"<article>{line_sum(run, *line)}</article>" for line in lines_told(run)]
    return section("others", "Every other mark, worked out", said, *parts, name="folded")
