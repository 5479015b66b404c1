"""One mark worked out: pressures, lines, moments, wind, dead load, combination and anchor, every number shown."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from export.report.combination import combination
from export.report.markup import MINUS, TIMES, coefficient, esc, num, table
from export.report.sideways import pushes_of_mark
from framing.anchors.schedule import Mark
from framing.asce7.chapter30 import LEAST_NET_PRESSURE_PSF
from framing.explain.trace import EndTrace, MarkTrace
from framing.explain.trace_pieces import Lever, Pressure, RoofPart, Under
from framing.explain.wind_cases import hardest_cases
from framing.loads.cases import LoadBasis
from framing.run import Run

LINES = ("what lifts or presses there", "lift, psf#", "area, ft\N{SUPERSCRIPT TWO}#", "arm / span, ft#", "lb#")
HARDEST = {LoadBasis.MWFRS: "main frame", LoadBasis.CLADDING: "components and cladding"}


def worked_mark(run: Run, found: MarkTrace, mark: Mark, *, level: int) -> str:
    """The whole arithmetic of one mark, under a heading of the given level."""
    wind, dead = found.wind, found.dead
    plies = f", {mark.bearing.plies} plies" if mark.bearing.plies > 1 else ""
    return "".join(
        (
            f"<h{level}>{esc(mark.mark)}: {esc(mark.bearing.member)}{plies}</h{level}>",
            f'<p class="lead">Governing case: {esc(found.case.name)} ({HARDEST.get(found.case.basis, "")}).</p>',
            "<h4>Pressures of this case on the roof that reaches the mark</h4>",
            _pressures(wind),
            f"<h4>Wind reaction W at {esc(mark.mark)}</h4>",
            _end(wind[0], wind, "W"),
            _ends_behind(wind),
            f"<h4>Dead load D at {esc(mark.mark)} that resists ({esc(found.dead_case.name)})</h4>",
            _end(dead[0], dead, f"{MINUS}D"),
            _ends_behind(dead),
            pushes_of_mark(run, mark),
            '<div class="keep"><h4>Combination and anchor</h4>',
            combination(run, mark, wind[0].lb, -dead[0].lb),
            f"{_other_bases(run, mark)}</div>",
        )
    )


def _pressures(ends: tuple[EndTrace, ...]) -> str:
    """Each different pressure with its arithmetic."""
    found = dict.fromkeys(line.pressure for end in ends for line in end.roof)
    rows = [(esc(p.zone or "not named"), p.under.value, _arithmetic(p), num(-p.up_psf, 3)) for p in _by_zone(found)]
    head = ("zone", "where", f"q K_d {TIMES} [(outside) {MINUS} (inside or underside)]", "= p, psf#")
    return table(head, rows, name="keep")


def _by_zone(pressures: Iterable[Pressure]) -> list[Pressure]:
    return sorted(pressures, key=lambda p: (p.zone, p.under is Under.OVERHANG, -p.up_psf))


def _arithmetic(p: Pressure) -> str:
    """The pressure in numbers, positive toward the surface as the standard has it."""
    if p.q_K_d_psf is None or p.outside_factor is None:
        return ""
    inner = f"({coefficient(p.outside_factor)})"
    note = ""
    if p.under is Under.INSIDE_WALLS:
        inner += f" {MINUS} ({coefficient(p.inside_factor or 0.0)})"
    elif p.underside_factor:
        inner += f" {MINUS} ({coefficient(p.underside_factor)})"
        note = ", wind on its underside"
    if p.least:
        note += f", raised to the least net pressure of {LEAST_NET_PRESSURE_PSF:.0f} psf"
    return f"{num(p.q_K_d_psf, 3)} {TIMES} [{inner}]{note}"


def _what(part: RoofPart) -> str:
    """A line of roof in words: its zone, and by whom it comes where that is another member."""
    through = f", by the {part.levers[0].on}" if part.levers and part.levers[0].outlookers else ""
    zone = part.pressure.zone
    named = f"zone {zone}" if zone and part.pressure.q_K_d_psf is not None else zone or "roof"
    return esc(f"{named}, {part.pressure.under}{through}")


def _levers(levers: tuple[Lever, ...]) -> str:
    return f" {TIMES} ".join(_lever(lever) for lever in levers) or "on the wall: 1"


def _lever(lever: Lever) -> str:
    arm = _factor(lever.arm_ft, 3)
    if abs(lever.push_ft) >= 0.0005:
        sign = "+" if lever.push_ft > 0 else MINUS
        arm = f"({num(lever.arm_ft, 3)} {sign} {num(abs(lever.push_ft), 3)})"
    on = ", ".join(num(at, 3) for at in lever.bearings_ft)
    return f"{arm} / {num(lever.span_ft, 3)}" + (f" (continuous, bearings at {on} ft)" if on else "")


def _end(end: EndTrace, ends: tuple[EndTrace, ...], symbol: str) -> str:
    """The lines that add up to the reaction at the mark."""
    rows = [
        (_what(p), num(p.pressure.up_psf, 3), num(p.area_ft2, 3), _levers(p.levers), num(p.lb, 2)) for p in end.roof
    ]
    rows += [
        (
            f"{esc(ends[c.end].member)} stands on it: {num(c.force_lb, 2)} lb",
            "",
            "",
            _lever(c.lever),
            num(c.lb, 2),
        )
        for c in end.carried
    ]
    return table(LINES, rows, name="sums", foot=(f"{symbol}, sum of the lines", "", "", "", num(end.lb, 2)))


def _ends_behind(ends: tuple[EndTrace, ...]) -> str:
    """The reactions of the members that stand on the mark's member, and of those behind them, a row each."""
    if len(ends) == 1:
        return ""
    alike: dict[tuple[str, str, str], list[str]] = {}
    for end in ends[1:]:
        alike.setdefault((esc(end.stands_on), _sum(end, ends), num(end.lb, 2)), []).append(end.member)
    rows = [(_names(members), *row) for row, members in alike.items()]
    head = ("end of", "stands on", f"sum of lift {TIMES} area {TIMES} arm / span", "= lb, each#")
    return f"<h4>What those members bring</h4>{table(head, rows, name='behind')}"


def _names(members: list[str]) -> str:
    """Members of one kind by their numbers: end jack 4, 5, 6."""
    first, *others = members
    kind = first.rpartition(" ")[0]
    short = [m.removeprefix(f"{kind} ") for m in others]
    return esc(", ".join((first, *short)))


def _sum(end: EndTrace, ends: tuple[EndTrace, ...]) -> str:
    terms = [
        f"{_factor(p.pressure.up_psf, 3)} {TIMES} {num(p.area_ft2, 3)} {TIMES} {_levers(p.levers)}" for p in end.roof
    ]
    terms += [f"{_factor(c.force_lb, 2)} ({esc(ends[c.end].member)}) {TIMES} {_lever(c.lever)}" for c in end.carried]
    if not terms:
        return "nothing lifts it"
    signs = ["", *["+ "] * (len(terms) - 1)]
    return " ".join(f'<span class="term">{sign}{term}</span>' for sign, term in zip(signs, terms, strict=True))


def _factor(value: float, places: int) -> str:
    """A number inside a product: in brackets where it is negative."""
    text = num(value, places)
    return f"({text})" if text.startswith(MINUS) else text


def _other_bases(run: Run, mark: Mark) -> str:
    """The hardest wind case of either basis at the mark, so that both are seen."""
    i = next(k for k, b in enumerate(run.framing.bearings) if b.mark == mark.mark)
    said = []
    for basis, words in HARDEST.items():
        j = _hardest(run, basis)[i]
        if j >= 0:
            said.append(f"{words} {num(float(run.reactions.by_case_lb[i, j]), 2)} lb ({run.reactions.cases[j].name})")
    return f"<p>Hardest wind reaction of either basis: {esc('; '.join(said))}.</p>"


@lru_cache(maxsize=2)
def _hardest(run: Run, basis: LoadBasis) -> tuple[int, ...]:
    return tuple(hardest_cases(run, basis).tolist())
