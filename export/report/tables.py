"""The long tables: every mark, every case, and what nobody has yet compared with the printed standard."""

from __future__ import annotations

from collections import Counter
from itertools import groupby

from export.report.markup import MINUS, bullets, esc, num, paragraph, section, table
from framing.anchors.schedule import Mark
from framing.asce7.chapter2 import ASD_UPLIFT
from framing.asce7.tables import rows as table_rows
from framing.loads.cases import LoadBasis
from framing.run import Run

MARKS = (
    "mark",
    "member",
    "governing case",
    "W, lb#",
    "D, lb#",
    "uplift, lb#",
    "down, lb#",
    "anchor, allowable lb",
    "ratio#",
    "good to, mph#",
)
CASES = ("no.#", "case", "basis", "applied, lb#", "reactions, lb#", "difference, lb#", "governs#")
LIMITS = (
    "One pitch, one eave height and one heel for the whole roof.",
    "Over a wall at an angle the roof is the true roof of equal pitch; its pressures are those of the square corner "
    "that the wall stands in for, with edge zones along its own eave and hips; trusses cross it askew.",
    "A truss that crosses a support runs on over it as a beam of even stiffness on unyielding bearings. Over a support "
    "that is not tied down the wind is reckoned twice, on it and lifted off it; the worse holds.",
    "By the directional procedure hip ends count as windward and leeward slopes of their own wind, from memory; the "
    "reduction of the -1.3 by area is left out.",
    "Sideways the deck is taken as flexible and every anchor of a wall takes its own length of the wall's share; that "
    "the push passes from the deck to the anchors through trusses standing on edge is a question for the engineer: "
    "blocking between the trusses. Torsional wind cases are not run: a house of one storey up to 30 ft, or of two in "
    "light frame or with a flexible deck, is exempt; another is not covered.",
    "The walls' main-frame pressures take q at the mean roof height, on the windward wall too (safe side); a wall at "
    "an angle or behind a porch takes the severest wing's end zone.",
    "Each wing of the roof is zoned as a building of its own with the whole house's a and h; where two wings claim the "
    "same piece the larger suction holds. That is on the safe side.",
    "Hips under the main frame's wind are zoned by the gable's plan map at the hip's pitch, and wind onto a hip end "
    "also by the commentary's rule, from memory; the worse holds.",
)


def mark_index(run: Run) -> str:
    """Every mark as a link, wall by wall; on screen only."""
    lines = []
    for wall, marks in groupby(run.schedule.marks, key=lambda m: m.bearing.wall):
        links = " ".join(f'<a href="#mark-{esc(m.mark)}"{_open(m)}>{esc(m.mark)}</a>' for m in marks)
        lines.append(f"<p><strong>{esc(wall)}</strong> {links}</p>")
    return f'<nav class="index screen" aria-label="Find a mark">{"".join(lines)}</nav>'


def _open(m: Mark) -> str:
    return "" if m.resolved else ' class="open"'


def every_mark(run: Run) -> str:
    """The governing case, the reaction's two parts, the uplift and the anchor of every mark."""
    w, d = ASD_UPLIFT.wind_factor, ASD_UPLIFT.dead_factor
    body = [_mark(run, i, m) for i, m in enumerate(run.schedule.marks)]
    straps: Counter[str] = Counter()
    for m in run.schedule.marks:
        if m.anchor:
            straps[m.anchor.id] += m.count
    counted = ", ".join(f"{n} of {name}" for name, n in sorted(straps.items()))
    return section(
        "marks",
        "Every mark",
        f"<p>W is the governing wind reaction at strength level, D the dead load against uplift; uplift = {w:g} W "
        f"{MINUS} {d:g} D, 0 where nothing lifts. Down is D + L_r for gravity. Ratio: uplift over the allowable, and "
        "each push sideways over its own where the catalogue has one."
        '<span class="screen"> A mark leads to its own arithmetic.</span></p>',
        table(MARKS, body, name="marks"),
        paragraph(f"Anchors in all: {counted or 'none'}."),
    )


def _mark(run: Run, i: int, m: Mark) -> tuple[str, ...]:
    """One row; the first cell is where the index leads."""
    held = m.held_by if m.bearing.by_engineer else "NONE HOLDS"
    if m.anchor:
        held = f"{m.count} \N{MULTIPLICATION SIGN} {m.anchor.id}, {m.allowable_uplift_lb:g}"
    return (
        f'<a id="mark-{esc(m.mark)}" href="#worked-{esc(m.mark)}">{esc(m.mark)}</a>',
        esc(m.bearing.member),
        esc(f"{m.basis}: {m.case}" if m.basis is LoadBasis.MWFRS else m.case),
        num(float(run.reactions.wind_lb[i]), 1),
        num(float(run.reactions.dead_for_uplift_lb[i]), 1),
        num(m.uplift_lb, 1),
        num(m.down_lb, 1),
        f"<strong>{esc(held)}</strong>" if not m.resolved else esc(held),
        num(m.ratio, 3),
        num(m.good_to_mph, 0),
    )


def totals(run: Run) -> str:
    """What each case puts on the roof and what all the bearings together receive: equal."""
    governs = Counter(m.case for m in run.schedule.marks)
    body = [
        (
            str(k),
            esc(c.name),
            esc(c.basis),
            num(c.applied_vertical_lb, 2),
            num(c.reactions_vertical_lb, 2),
            num(c.reactions_vertical_lb - c.applied_vertical_lb, 2),
            str(governs[c.name] or ""),
        )
        for k, c in enumerate(run.reactions.cases, start=1)
    ]
    return section(
        "totals",
        "Applied = reactions, case by case",
        paragraph(
            "Vertical, positive up, unfactored: what the case puts on the whole roof, and what all the bearings "
            "together receive. The last column counts the marks that the case governs."
        ),
        table(CASES, body, name="cases"),
    )


def unconfirmed() -> str:
    """Which coefficients nobody has compared with the printed standard."""
    body = [
        (esc(r["item"]), esc(r["where_used"]), esc(r["mark"]), esc(r["what_to_check"]))
        for r in table_rows("unconfirmed")
    ]
    return section(
        "unconfirmed",
        "Not yet confirmed against the printed standard",
        paragraph(
            "Nobody on the project has read a printed ASCE 7, ACI 318 or TMS 402: every figure was read in public "
            "material and compared across it. 'Solid': several independent copies agree; then good, fair, weak; "
            "inferred: concluded from them; from memory: not seen at all."
        ),
        table(("what", "where it counts", "how sure", "what to compare"), body, name="unconfirmed"),
    )


def limits(run: Run) -> str:
    """What the figures do not cover."""
    sample = ["The catalogue of anchors is invented: no anchor in it can be bought or built with."]
    said = [*LIMITS, *(sample if run.schedule.catalogue.invented else [])]
    return section("limits", "Limits", bullets(said))
