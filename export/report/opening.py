"""What the report begins with: the result in short, and the wind in numbers."""

from __future__ import annotations

from collections import Counter

from export.report.markup import MINUS, TIMES, bullets, esc, num, paragraph, section, table
from export.words.sizing import basis_words, storm_words
from framing.asce7.edition import Procedure
from framing.explain.wind_cases import velocity_pressures
from framing.loads.cases import LoadBasis
from framing.members import MemberKind
from framing.run import Run

BASES = {LoadBasis.MWFRS: "main frame (MWFRS)", LoadBasis.CLADDING: "components and cladding"}
PROCEDURES = {
    Procedure.ENVELOPE: "main frame",
    Procedure.DIRECTIONAL: "main frame",
    Procedure.CLADDING: "components and cladding",
}


def in_short(run: Run) -> str:
    """Counts, the hardest pull, what is unresolved, flagged and noted."""
    marks = run.schedule.marks
    hardest = max(marks, key=lambda m: m.uplift_lb)
    n_lifted = sum(m.uplift_lb > 0 for m in marks)
    said = [
        f"{len(marks)} marks, {n_lifted} of them lift; {len(run.framing.members)} members.",
        f"The hardest pull is {num(hardest.uplift_lb, 1)} lb at {hardest.mark} ({hardest.bearing.member}).",
        f"Roof area in plan, overhangs included: {num(run.roof.plan_area_ft2, 2)} sq ft.",
    ]
    if n_open := len(run.schedule.unresolved):
        said.append(f"UNRESOLVED, no anchor of the catalogue holds: {n_open}. They are flagged in every table.")
    else:
        said.append("No mark is unresolved: the catalogue holds every one.")
    said += [storm_words(run), basis_words(run)]
    flags = [f"To look at: {flag}" for flag in run.flags]
    notes = dict.fromkeys((*run.outline.notes, *run.roof.notes, *run.framing.notes, *run.notes))
    return section("short", "In short", bullets([*said, *flags, *notes]), _governs(run))


def _governs(run: Run) -> str:
    """How many marks of each kind each basis governs, and the hardest pull among them."""
    counts = Counter((m.bearing.kind, m.basis) for m in run.schedule.marks)
    rows = []
    bases = {**BASES, LoadBasis.PACKAGE: "the truss package"} if run.reconciled else BASES
    for kind in MemberKind:
        mine = [m for m in run.schedule.marks if m.bearing.kind is kind]
        if mine:
            most = max(mine, key=lambda m: m.uplift_lb)
            by_basis = [str(counts[kind, basis]) for basis in bases]
            largest = f'<a href="#worked-{esc(most.mark)}">{esc(most.mark)}</a>'
            rows.append((esc(kind.value), str(len(mine)), *by_basis, num(most.uplift_lb, 1), largest))
    totals = [str(sum(counts[kind, basis] for kind in MemberKind)) for basis in bases]
    head = ("kind of member", "marks#", *(f"governed by {b}#" for b in bases.values()), "largest uplift, lb#", "at")
    foot = ("all", str(len(run.schedule.marks)), *totals, "", "")
    return "<h3>What governs where</h3>" + table(head, rows, foot=foot, name="governs")


def wind_figures(run: Run) -> str:
    """The wind figures with clause and value, and the velocity pressures in numbers."""
    rows = [
        (esc(f.symbol), esc(f.meaning), f"{f.value:.6g} {esc(f.unit)}".replace("-", MINUS), esc(f.source))
        for f in run.wind
    ]
    velocity, level = [], True
    for v in velocity_pressures(run):
        numbers = (
            v.constant_factor,
            v.exposure_factor,
            v.topographic_factor,
            v.elevation_factor,
            v.directionality_factor,
        )
        level = level and v.topographic_factor == v.elevation_factor == 1.0
        product = f" {TIMES} ".join(f"{n:.5g}" for n in numbers)
        velocity.append(
            f"{PROCEDURES[v.procedure]}: q K_d = 0.00256 K_z K_zt K_e K_d V\N{SUPERSCRIPT TWO} = {product} {TIMES} "
            f"{v.speed_mph:g}\N{SUPERSCRIPT TWO} = {num(v.q_K_d_psf, 3)} psf"
        )
    return section(
        "wind",
        "Wind, clause by clause",
        table(("symbol", "what", "value#", "clause"), rows, name="wind"),
        "<h3>Velocity pressure in numbers</h3>",
        bullets(velocity),
        paragraph("K_zt and K_e are 1.0: level ground, and the value permitted at every elevation.") if level else "",
    )
