"""Figures of variants -> options.html: a chart for the client, a table for the builder, nothing fetched."""

from __future__ import annotations

import textwrap

from export.options.figures import Figures
from export.report.markup import bullets, esc, num, paragraph, section, table
from export.report.still_page import STYLE, still_page
from export.wall_marks.tape_marks import SAMPLE_WORDS
from framing.run import CAUTION, Run

FIRST_ROW_BOLD = STYLE + "tbody tr:first-child td { font-weight: 700; }\n"
ROW, BAR, LEFT, RIGHT, WIDE = 46.0, 15.0, 220.0, 150.0, 900.0


def options_html(run: Run, found: tuple[Figures, ...]) -> bytes:
    """The page; equal runs give equal bytes."""
    sample = f"<p><b>{esc(SAMPLE_WORDS)}</b></p>" if run.schedule.catalogue.invented else ""
    body = (
        f"<h1>Choices for {esc(run.plan.project.name)}</h1>{sample}"
        f'<p class="caution">{esc(CAUTION)}</p>'
        + (bullets(run.wind_doubts) if run.wind_doubts else "")
        + section("chart", "Cost, and the wind it is good to", paragraph(_words(run)), _chart(run, found))
        + section("table", "The same in figures", f'<div class="wide">{_table(found)}</div>', paragraph(NOTE))
        + f"<footer><p>Fingerprint {esc(run.fingerprint)}, revision {esc(run.plan.project.revision or '-')}</p>"
        + f'<p class="caution">{esc(CAUTION)}</p></footer>'
    )
    return still_page(f"Choices for {run.plan.project.name}", body, FIRST_ROW_BOLD)


NOTE = (
    "Price, minutes and nails are those of the anchors alone, by the catalogue; 'takeoff' is all of takeoff.csv "
    "that has a price; a dash where it does not give them for "
    "every anchor. 'Good to' is the wind at which the hardest used anchor of the house reaches what it may "
    "carry; it is no "
    "promise for the house. A mark without an anchor leaves no such wind."
)


def _words(run: Run) -> str:
    return (
        f"The plan's wind is {run.plan.wind.speed_mph:g} mph. The upper bar of each choice is what its anchors "
        "cost, the lower "
        "one the wind at which its hardest used anchor reaches what it may carry; the line is the plan's wind."
    )


def _chart(run: Run, found: tuple[Figures, ...]) -> str:
    """Two bars a choice: money hatched by outline, speed full; words and numbers beside them, no colour needed."""
    most_price = max((f.price or 0.0 for f in found), default=0.0) or 1.0
    most_mph = max([run.plan.wind.speed_mph, *(f.good_to_mph or 0.0 for f in found)]) * 1.02
    room = WIDE - LEFT - RIGHT
    wind_x = LEFT + room * run.plan.wind.speed_mph / most_mph
    height = ROW * len(found) + 24.0
    parts = [
        f'<line x1="{wind_x:.1f}" x2="{wind_x:.1f}" y1="16" y2="{height - 4:.0f}" stroke="#000" '
        'stroke-dasharray="5 4"/>'
        f'<text x="{wind_x:.1f}" y="12" text-anchor="middle" font-size="13">{run.plan.wind.speed_mph:g} mph, '
        "the plan</text>"
    ]
    for k, f in enumerate(found):
        y = 22.0 + ROW * k
        lines = textwrap.wrap(f.name, 26)[:2]
        parts += [
            f'<text x="{LEFT - 8:.0f}" y="{y + 20 + 16 * (j - (len(lines) - 1) / 2):.1f}" text-anchor="end" '
            'font-size="15">'
            f"{esc(line)}</text>"
            for j, line in enumerate(lines)
        ]
        cost = room * (f.price or 0.0) / most_price
        price = "price not given" if f.price is None else f"{f.price:,.0f}"
        parts.append(
            f'<rect x="{LEFT:.1f}" y="{y:.1f}" width="{cost:.1f}" height="{BAR}" fill="#fff" stroke="#000" '
            'stroke-width="1.5"/>'
            f'<text x="{LEFT + cost + 5:.1f}" y="{y + 12:.1f}" font-size="13">{price}</text>'
        )
        speed = room * (f.good_to_mph or 0.0) / most_mph
        told = f"{f.n_unresolved} marks without an anchor" if f.n_unresolved else _speed(f)
        parts.append(
            f'<rect x="{LEFT:.1f}" y="{y + BAR + 2:.1f}" width="{speed:.1f}" height="{BAR}" fill="#1b4f72"/>'
            f'<text x="{LEFT + speed + 5:.1f}" y="{y + BAR + 14:.1f}" font-size="13">{esc(told)}</text>'
        )
    return (
        f'<svg viewBox="0 0 {WIDE:.0f} {height:.0f}" role="img" aria-label="Cost and wind of every '
        f'choice">{"".join(parts)}</svg>'
    )


def _speed(f: Figures) -> str:
    return "over 300 mph" if f.good_to_mph is None else f"{f.good_to_mph:.0f} mph"


def _table(found: tuple[Figures, ...]) -> str:
    planned = found[0]
    rows = []
    for f in found:
        more = f.price - planned.price if f.price is not None and planned.price is not None else None
        rows.append(
            (
                esc(f.name),
                esc(", ".join(f"{key} = {value}" for key, value in f.changes) or "the plan"),
                esc(", ".join(f"{n} {i}" for i, n in f.anchors)),
                str(f.n_pairs),
                str(f.n_unresolved or ""),
                num(f.price, 2),
                num(more, 2) if f is not planned else "",
                num(f.takeoff_price, 2),
                num(f.minutes, 0),
                esc(f"{f.weakest} at {f.weakest_ratio:.2f}" if f.weakest_ratio is not None else "-"),
                num(f.good_to_mph, 0),
            )
        )
    head = (
        "choice",
        "set",
        "straps",
        "pairs#",
        "no anchor#",
        "price#",
        "more#",
        "takeoff#",
        "minutes#",
        "hardest used",
        "good to, mph#",
    )
    return table(head, rows)
