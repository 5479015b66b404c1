"""Run -> the coefficients that stand between the rows of a figure, and those that are a sum of two, taken apart."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from framing.asce7.chapter27 import C_p_leeward_roof, C_p_windward_roof
from framing.asce7.chapter30 import is_flat
from framing.asce7.edition import Edition, edition
from framing.asce7.tables import rows
from framing.explain.component_pressures import roof_forms
from framing.plan import EditionName, MwfrsProcedure
from framing.run import Run
from framing.tolerances import ROUNDING

STEP = 1.001  # how far beside an area a curve is read to find its slope there, as a factor
THETAS_DEG = (10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 45.0, 60.0)
H_OVER_L = (0.25, 0.5, 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Behind:
    """A coefficient of the run and what is behind it: `parts` are (words, value), `how` says how they make it."""

    what: str
    parts: tuple[tuple[str, float], ...]
    how: str
    value_factor: float
    clause: str


def coefficients_behind(run: Run) -> tuple[Behind, ...]:
    """Main frame between the figure's rows, cladding on its curves at the areas that govern a mark, and overhangs.

    Source: ASCE 7-22, figs. 28.3-1, 27.3-1 and 30.3-1 to 30.3-2G, sec. 30.7.
    """
    code = edition(run.plan.wind.edition)
    main = _directional if run.plan.wind.mwfrs_procedure is MwfrsProcedure.DIRECTIONAL else _envelope
    return (*main(run, code), *_cladding(run, code))


def _envelope(run: Run, code: Edition) -> Iterator[Behind]:
    theta = run.plan.roof.theta_deg
    found = [r for r in rows("chapter28_GC_pf") if r["load_case"] == "1"]
    ends = sorted({float(r[end]) for r in found for end in ("theta_from_deg", "theta_to_deg")})
    low, high = max(t for t in ends if t <= theta), min(t for t in ends if t >= theta)
    below, above, here = code.envelope(low), code.envelope(high), code.envelope(theta)
    for zone in ("1", "2", "3", "4", "1E", "2E", "3E", "4E"):
        a, b = below.GC_pf(1, zone), above.GC_pf(1, zone)
        if abs(a - b) > ROUNDING:
            yield Behind(
                what=f"zone {zone}, load case 1, {theta:.2f} degrees",
                parts=((f"{low:g} degrees", a), (f"{high:g} degrees", b)),
                how=f"{a:+.2f} + ({b:+.2f} - ({a:+.2f})) x ({theta:.4f} - {low:g}) / {high - low:g}",
                value_factor=here.GC_pf(1, zone),
                clause="fig. 28.3-1, note on interpolation",
            )


def _directional(run: Run, code: Edition) -> Iterator[Behind]:
    """Windward and leeward slope of each wing: the four rows about its slope and h/L."""
    del code
    theta = run.plan.roof.theta_deg
    if theta < THETAS_DEG[0]:
        return
    about = (max(t for t in THETAS_DEG if t <= theta), min(t for t in THETAS_DEG if t >= theta))
    for ratio in sorted({round(run.loads.widths.h_ft / size, 6) for w in run.roof.wings for size in w.size_ft}):
        held = min(max(ratio, H_OVER_L[0]), H_OVER_L[-1])
        beside = (max(r for r in H_OVER_L if r <= held), min(r for r in H_OVER_L if r >= held))
        for words, of in (
            ("windward slope, suction", lambda t, r: C_p_windward_roof(t, r, 0.0)[0]),
            ("windward slope, other value", lambda t, r: C_p_windward_roof(t, r, 0.0)[1]),
            ("leeward slope", C_p_leeward_roof),
        ):
            corners = dict.fromkeys((t, r) for t in about for r in beside)
            yield Behind(
                what=f"{words}, {theta:.2f} degrees, h/L {ratio:.4f}",
                parts=tuple((f"{t:g} degrees, h/L {r:g}", float(of(t, r))) for t, r in corners),
                how="C_p linear in the slope and in h/L; G is not in it",
                value_factor=float(of(theta, ratio)),
                clause="fig. 27.3-1",
            )


def _cladding(run: Run, code: Edition) -> Iterator[Behind]:
    """Each zone of each form at the effective areas whose case governs a mark."""
    theta, over_B = run.plan.roof.theta_deg, run.loads.widths.h_over_B_ratio
    governing = {run.reactions.cases[int(j)].area_ft2 for j in run.reactions.governing}
    areas = sorted(a for a in governing if a is not None)
    sums = run.plan.wind.edition is EditionName.ASCE_7_22 and not is_flat(theta)
    overhangs = max(run.plan.roof.overhang_ft, run.plan.roof.rake_overhang_ft) > 0.0
    for form in roof_forms(run):
        for area in areas:
            for zone in code.roof_zones(form, theta):
                value, beside = (float(code.roof_GC_p(form, theta, zone, a, over_B)[1]) for a in (area, area * STEP))
                c1 = (beside - value) / math.log10(STEP)
                if abs(c1) > 1.0 / 1000.0:
                    c0 = value - c1 * math.log10(area)
                    yield Behind(
                        what=f"zone {zone}, {form.value} roof, {area:.2f} ft2",
                        parts=(("c0", c0), ("c1", c1)),
                        how=f"{c0:+.4f} {c1:+.4f} x log10({area:.2f})",
                        value_factor=value,
                        clause="figs. 30.3-2",
                    )
                if sums and overhangs:
                    wall = float(code.wall_GC_p("4", area, theta)[0])
                    yield Behind(
                        what=f"overhang in zone {zone}, {form.value} roof, {area:.2f} ft2",
                        parts=(("roof", value), ("wall below, on the soffit", wall)),
                        how=f"({value:+.4f}) - ({wall:+.4f})",
                        value_factor=float(code.overhang_GC_p(form, theta, zone, area, over_B)),
                        clause="sec. 30.7",
                    )
