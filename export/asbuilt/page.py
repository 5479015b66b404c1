"""Findings -> asbuilt.html: the verdict first, the plan by state, each fault with its sketch, every strap; offline."""

from __future__ import annotations

from export.asbuilt.plan import plan_block
from export.asbuilt.sheet import DESIGNED
from export.asbuilt.sketch import sketch
from export.asbuilt.words import (
    Findings,
    along_words,
    band_words,
    fault_lines,
    fault_title,
    mistake_lines,
    package_line,
    verdict,
)
from export.paper.svg import svg_of
from export.report.markup import bullets, esc, paragraph, section, table
from export.report.still_page import STYLE, still_page
from export.wall_marks.tape_marks import SAMPLE_WORDS
from framing.asbuilt.judge import AsBuilt, wall_ways
from framing.run import CAUTION
from framing.units import feet_inches

PAGE_STYLE = (
    STYLE
    + ".fault { display: flex; flex-wrap: wrap; gap: 1rem; border-top: 1px solid #999; padding: 0.5rem 0; }\n"
    + (
        ".fault svg { width: 15rem; flex: none; } .fault > div { flex: 1 1 20rem; }\n"
        ".wide > svg { min-width: 44rem; } .fault h3 { margin: 0; font-size: 1rem; }\n"
        ".fault ul { margin: 0.2rem 0; padding-left: 1.1rem; }\n"
    )
)


def asbuilt_html(found: Findings) -> bytes:
    """The page; equal input gives equal bytes."""
    run = found.run
    sample = f"<p><b>{esc(SAMPLE_WORDS)}</b></p>" if run.schedule.catalogue.invented else ""
    lines = verdict(found)
    body = (
        f"<h1>As built: {esc(run.plan.project.name)}</h1>{sample}<p><b>{esc(lines[0])}</b></p>"
        + bullets((*lines[1:], *package_line(run), *run.wind_doubts))
        + f'<p class="caution">{esc(CAUTION)}</p>'
        + section(
            "plan",
            "Plan by state",
            f'<div class="wide">{svg_of(plan_block(found, (10.5, 7.1)), "Plan by state")}</div>',
        )
        + _faults(found)
        + section("straps", "Every strap", paragraph(band_words(run)), f'<div class="wide">{_table(found)}</div>')
        + f"<footer><p>Plan {esc(run.fingerprint)}, revision {esc(run.plan.project.revision or '-')}; lists: "
        + f'{esc(", ".join(found.survey.names))}</p><p class="caution">{esc(CAUTION)}</p></footer>'
    )
    return still_page(f"As built: {run.plan.project.name}", body, PAGE_STYLE)


def _faults(found: Findings) -> str:
    if not found.faults:
        return ""
    ways, parts = wall_ways(found.run), []
    for fault in found.faults:
        s = fault.strap
        member = found.run.framing.member(s.mark.bearing.member)
        picture = sketch(s, ways[s.mark.bearing.wall], member, found.run.plan.wall_thickness_ft)
        told = f"<h3>{esc(fault_title(fault))}</h3>{bullets(fault_lines(fault))}"
        parts.append(f'<div class="fault">{svg_of(picture, fault_title(fault))}<div>{told}</div></div>')
    return section("faults", "For the engineer's letter", paragraph(DESIGNED), bullets(mistake_lines(found)), *parts)


def _table(found: Findings) -> str:
    head = ("strap", "member", "planned", "strap on", "anchor", "as set", "state", "by, when")
    return table(head, [_row(s) for s in found.straps])


def _row(s: AsBuilt) -> tuple[str, ...]:
    written = ", ".join(filter(None, (s.entry.by, s.entry.when))) if s.entry else ""
    along = "-" if s.along_in is None else along_words(s)
    state = esc(s.state) if s.as_planned else f"<b>{esc(s.state)}</b>: {esc(s.words)}"
    cells = (
        s.name,
        s.mark.bearing.member,
        feet_inches(s.strap.tape_ft),
        s.strap.side,
        s.mark.anchor.id if s.mark.anchor else "-",
    )
    return (*map(esc, cells), esc(along), state, esc(written))
