"""Sideways: what the wind brings to each line of walls, and for every mark the arithmetic of its pushes."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

import numpy as np

from export.report.markup import MINUS, TIMES, bullets, coefficient, esc, num, paragraph, section, table
from framing.anchors.demands import CaseKind
from framing.anchors.schedule import Mark
from framing.asce7.chapter2 import ASD_UPLIFT
from framing.explain.sideways import AlongPart, Push, line_pushes, mark_pushes
from framing.ground.beam_sideways import bent_sideways
from framing.plan_masonry import TopsHeldBy
from framing.run import Run
from framing.sideways.cladding_walls import CASES, SIGNS
from framing.units import feet_inches

AXES = ("along W1", "square to W1")
LINES = ("line", "runs", "at, ft#", "length that counts, ft#", "largest force, lb#", "plf#", "in the case")
DRAGS = ("where", "inside, ft#", "plf from either side#", "drag, lb#", "in the case", "what runs there")
SUMS: tuple[str, ...] = ("what", "zone", f"ASD factor {TIMES} q K_d {TIMES} [(outside) {MINUS} (inside)]", "= psf#")
SUMS += ("area, ft\N{SUPERSCRIPT TWO}#", "this way#", "share#", "lb#")
HELD = {
    TopsHeldBy.ROOF: (
        "The tops of the walls are held by the roof: the wind on the upper half of every wall goes through that "
        "wall's anchors, square to it, into the deck. The deck carries it, with the roof's own horizontal part and all "
        "that is wall over the beam (heels, gables), to the lines of walls along the wind by the lever rule; their "
        "anchors take it along the wall, evenly by length. Lines less than {within} apart are one; stretches under "
        "{shortest} take nothing.",
        "That the push passes from the deck to the anchors through trusses standing on edge, {heel} high at the heel, "
        "is not designed here: blocking between trusses: engineer.",
    ),
    TopsHeldBy.TIE_BEAM: (
        "The tops of the walls are held by the tie beam, which spans between the walls square to it: the anchors get "
        "the roof's own thrust, held at the bearing, at a gable half the triangle, and along the walls only what the "
        "deck holds.",
    ),
}


def sideways(run: Run) -> str:
    """The lines of the deck with their forces, drags, bracing, the beam's spans, and what adds up to each line."""
    walls = run.plan.masonry
    lengths = {"heel": run.roof.heel_ft, "within": walls.line_within_ft, "shortest": walls.shortest_stretch_ft}
    figures = {name: feet_inches(ft) for name, ft in lengths.items()}
    said = [text.format(**figures) for text in HELD[run.sideways.tops_held_by]]
    said.append(
        "Every case is one of the uplift's, with the same pressures; it runs with the roof's own horizontal part and "
        "without it, and the larger force on a line holds. Forces are ASD (0.6 W). The least horizontal loads are "
        "cases of their own: 0.6 of 16 psf on the wall that faces the wind with 0.6 of 8 psf on the roof's projection, "
        "overhangs included."
    )
    return section(
        "sideways",
        "Sideways, line by line",
        bullets(said),
        table(LINES, (_line(run, k) for k in range(len(run.tops.shears))), name="sideways"),
        _drags(run),
        _others(run),
        _beam(run),
        *(_worst_of_line(run, k) for k in range(len(run.tops.shears))),
    )


def line_anchor(axis: int, line: int, case: int) -> str:
    """The id of a line's arithmetic in a case."""
    return f"line-{axis}-{line}-{case}"


def line_name(run: Run, axis: int, line: int) -> str:
    """The walls and supports of a line."""
    stretches = run.sideways.stretches
    return " and ".join(dict.fromkeys(stretches[s].name for s in run.sideways.deck.lines[axis][line].stretches))


def _line(run: Run, k: int) -> tuple[str, ...]:
    s = run.tops.shears[k]
    return (
        f'<a href="#{line_anchor(s.axis, s.line, _place(run, s.case))}">{esc(" and ".join(s.walls))}</a>',
        AXES[s.axis],
        num(s.at_ft, 2),
        num(s.length_ft, 2),
        num(s.force_lb, 1),
        num(s.plf, 1),
        esc(s.case),
    )


def _drags(run: Run) -> str:
    if not run.tops.drags:
        return ""
    rows = [
        (
            f"inside corner at the end of {esc(d.wall)}, ({num(d.point_ft[0], 2)}, {num(d.point_ft[1], 2)}) ft",
            num(d.inside_ft, 2),
            f"{num(d.low_plf, 1)} and {num(d.high_plf, 1)}",
            num(d.force_lb, 1),
            esc(d.case),
            esc(d.member) or "no member: ask the engineer",
        )
        for d in run.tops.drags
    ]
    said = (
        "Drag at inside corners: what the deck brings from both sides over the depth inside, where no wall stands "
        "under the line, comes together at the wall's end."
    )
    return paragraph(said) + table(DRAGS, rows, name="sideways")


def _others(run: Run) -> str:
    """Gables' bracing, and the moment of the deck's forces about the bearings."""
    lines = [
        f"The bracing of the bottom chord at the gable of {b.wall} must carry up to {num(b.most_plf, 1)} lb on a foot, "
        f"{num(b.force_lb, 0)} lb in all in the case {b.case}: not designed here."
        for b in run.tops.bracing
    ]
    lines += [
        f"The horizontal forces on the deck {AXES[m.axis]} turn {num(m.moment_ft_lb, 0)} ft-lb about the plane of the "
        f"bearings at most, in the case {m.case}."
        for m in run.tops.moments
    ]
    return bullets(lines)


def _beam(run: Run) -> str:
    """The tie beam between the walls square to it."""
    bent = bent_sideways(run.plan, run.tops)
    if not bent:
        return ""
    head = ("tie beam of", "from", "to", "load, lb#", "in the case", "moment, ft-lb, strength#", "its bars carry#")
    rows = [
        (
            esc(b.span.wall),
            esc(feet_inches(b.span.from_ft)),
            esc(feet_inches(b.span.to_ft)),
            num(b.span.load_lb, 1),
            esc(b.span.case),
            num(b.moment_ft_lb, 0),
            num(b.carries_ft_lb, 0) if b.carries_ft_lb is not None else "bars not said",
        )
        for b in bent
    ]
    said = "The tie beam bent square to its wall, each span on its own, W L / 8; a cross wall halves it."
    return paragraph(said) + table(head, rows, name="sideways")


def _worst_of_line(run: Run, k: int) -> str:
    s = run.tops.shears[k]
    return line_sum(run, s.axis, s.line, _place(run, s.case))


def _place(run: Run, name: str) -> int:
    return next(k for k, c in enumerate(run.sideways.cases) if c.name == name)


def line_sum(run: Run, axis: int, line: int, case: int) -> str:
    """What adds up to a line's force in a case."""
    found = line_pushes(run, axis, line, case)
    name, words = line_name(run, axis, line), run.sideways.cases[case].name
    foot = (f"force on the line of {esc(name)}", *[""] * 6, num(found.lb, 2))
    rows = [_sum_row(p) for p in found.pushes]
    if abs(found.turning_lb) > 0.005:
        rows.append(("what turns about the single line of the other way", *[""] * 6, num(found.turning_lb, 2)))
    roof = "" if found.with_roof else "; without the roof's own part, which would make it less"
    return (
        f'<div id="{line_anchor(axis, line, case)}"><h4>Line of {esc(name)}, {esc(words)}{esc(roof)}</h4>'
        f"{table(SUMS, rows, name='sums', foot=foot)}</div>"
    )


def _sum_row(p: Push) -> tuple[str, ...]:
    return (
        esc(p.what),
        esc(p.zone),
        _made(p),
        num(p.psf, 3),
        num(p.area_ft2, 3),
        num(p.slope_ratio, 4),
        num(p.share_ratio, 4),
        num(p.lb, 2),
    )


def _made(p: Push) -> str:
    """The pressure in numbers."""
    w = ASD_UPLIFT.wind_factor
    if p.q_K_d_psf is None or p.outside_factor is None or p.inside_factor is None:
        return f"{w:g} {TIMES} {num(p.psf / w, 0)}"
    inner = f"({coefficient(p.outside_factor)}) {MINUS} ({coefficient(p.inside_factor)})"
    return f"{w:g} {TIMES} {num(p.q_K_d_psf, 3)} {TIMES} [{inner}]"


def pushes_of_mark(run: Run, mark: Mark) -> str:
    """The arithmetic of a mark's pushes: in its anchor's hardest case, and where each is the largest."""
    i = next(k for k, b in enumerate(run.framing.bearings) if b.mark == mark.mark)
    if not run.demands.pushed[i]:
        return ""
    lines: list[str] = []
    told: set[int] = set()
    use = mark.use
    if use is not None and use.push_case is not None:
        lines += [f"<li>{esc(use.case)}: {_in_case(run, i, use.push_case)}</li>"]
        told.add(use.push_case)
    for words, pushes, shown in (
        ("largest along the wall", run.demands.along_wall_lb[i], mark.parallel_lb),
        ("largest square to it", run.demands.square_lb[i], mark.perpendicular_lb),
    ):
        j = int(np.where(run.demands.counts, pushes, -1.0).argmax())
        case = run.demands.cases[j]
        lb = num(shown, 2)
        if case.kind is CaseKind.CLADDING_WALL:
            lines.append(f"<li>{words}, {lb} lb: {esc(case.name(i))}: {_component(run, i, case.name(i))}</li>")
        elif case.push_case is not None:
            same = case.push_case in told
            sums = "as above" if same else _in_case(run, i, case.push_case)
            told.add(case.push_case)
            lines.append(f"<li>{words}, {lb} lb: {esc(case.name(i))}: {sums}</li>")
    return f"<h4>Pushed sideways at {esc(mark.mark)} (ASD)</h4><ul>{''.join(lines)}</ul>"


def _in_case(run: Run, bearing: int, case: int) -> str:
    """Square to the wall and along it, in one case."""
    found = mark_pushes(run, bearing, case)
    said = [_terms(found.square, "square"), *(_along(run, a, case) for a in found.along)]
    return "; ".join(s for s in said if s) or "none"


def _terms(pushes: Iterable[Push], way: str) -> str:
    terms = [f"{_what(p)} {_made(p)} {TIMES} {num(p.area_ft2, 3)} ft\N{SUPERSCRIPT TWO}{_slope(p)}" for p in pushes]
    total = sum(p.lb for p in pushes)
    return f"{way} {' + '.join(terms)} = {num(total, 2)} lb" if terms else ""


def _what(p: Push) -> str:
    return esc(f"[{p.what}, zone {p.zone}]")


def _slope(p: Push) -> str:
    return "" if abs(p.slope_ratio - 1.0) < 1e-9 else f" {TIMES} {num(p.slope_ratio, 4)}"


def _along(run: Run, a: AlongPart, case: int) -> str:
    """A bearing's part of a line's force; the line's own arithmetic is a link away."""
    where = line_anchor(a.axis, a.line, case)
    name = f'<a href="#{where}">line of {esc(line_name(run, a.axis, a.line))}</a>'
    return (
        f"along {esc(a.wall)} by the {name}: {num(a.line_lb, 2)} {TIMES} {num(a.stretch_ft, 3)} / {num(a.line_ft, 3)} "
        f"{TIMES} {num(a.own_ft, 3)} / {num(a.whole_ft, 3)} = {num(a.lb, 2)} lb"
    )


def _component(run: Run, bearing: int, name: str) -> str:
    """The wall as a component: each strip's zones 4 and 5."""
    signs = SIGNS[CASES.index(name)] if name in CASES else None
    w, said = ASD_UPLIFT.wind_factor, []
    for strip in run.sideways.cladding.strips[bearing]:
        if signs is None:
            said.append(f"{w:g} {TIMES} 16 psf {TIMES} {num(strip.pushing_ft2, 3)} ft\N{SUPERSCRIPT TWO}")
            continue
        held = run.sideways.held[strip.held]
        own = held.wall is None or run.outline.walls[held.wall].name == run.framing.bearings[bearing].wall
        zone_4, zone_5 = strip.away_psf if signs[not own] > 0 else strip.toward_psf
        said.append(
            f"{w:g} {TIMES} [{num(zone_4, 3)} psf (zone 4) {TIMES} {num(1.0 - strip.end_ratio, 4)} + {num(zone_5, 3)} "
            f"psf (zone 5) {TIMES} {num(strip.end_ratio, 4)}] {TIMES} {num(strip.pushing_ft2, 3)} ft"
            f"\N{SUPERSCRIPT TWO}, effective area {num(strip.area_ft2, 2)} ft\N{SUPERSCRIPT TWO} [fig. 30.3-1]"
        )
    return " and ".join(said)


@lru_cache(maxsize=2)
def lines_told(run: Run) -> tuple[tuple[int, int, int], ...]:
    """The lines and cases that marks lead to, besides each line's largest: (axis, line, case)."""
    first = {(s.axis, s.line, _place(run, s.case)) for s in run.tops.shears}
    out: dict[tuple[int, int, int], None] = {}
    lines_of: dict[int, list[tuple[int, int]]] = {}
    for h in run.sideways.held:
        for axis in (0, 1):
            for i, line in enumerate(run.sideways.deck.lines[axis]):
                if h.stretch in line.stretches:
                    lines_of.setdefault(h.bearing, []).append((axis, i))
    for i, mark in enumerate(run.schedule.marks):
        if not run.demands.pushed[i]:
            continue
        wanted = [mark.use.push_case if mark.use else None]
        for pushes in (run.demands.along_wall_lb[i], run.demands.square_lb[i]):
            wanted.append(run.demands.cases[int(np.where(run.demands.counts, pushes, -1.0).argmax())].push_case)
        for case in wanted:
            for axis, place in lines_of.get(i, []) if case is not None else []:
                if case is not None and (axis, place, case) not in first:
                    out[axis, place, case] = None
    return tuple(sorted(out))
