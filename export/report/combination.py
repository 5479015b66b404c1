"""What a mark's anchor is asked and what it may carry, in numbers: uplift by both bases, ratios, the row's rule."""

from __future__ import annotations

from export.report.markup import MINUS, TIMES, esc, num
from export.words.demand import unresolved_words
from framing.anchors.catalogue import Anchor
from framing.anchors.interaction import MOST_EACH_RATIO, Interaction
from framing.anchors.schedule import BY_ENGINEER, Full, Mark, Use
from framing.asce7.chapter2 import ASD_UPLIFT
from framing.loads.cases import LoadBasis
from framing.run import Run

ROOT = "\N{SQUARE ROOT}"


def combination(run: Run, mark: Mark, wind_lb: float, dead_lb: float) -> str:
    """ASD uplift by both bases, the anchor's ratios in its hardest case, and the speed it is good to."""
    w, d = ASD_UPLIFT.wind_factor, ASD_UPLIFT.dead_factor
    net_lb = ASD_UPLIFT.net_uplift(wind_lb, dead_lb)
    product = f"{w:g} {TIMES} {num(wind_lb, 2)} {MINUS} {d:g} {TIMES} {num(dead_lb, 2)}"
    net = f"{w:g} W {MINUS} {d:g} D = {product} = {num(net_lb, 2)} lb"
    lines = [net + ("" if net_lb > 0 else ": nothing lifts here, so the uplift is 0"), _storms(run, mark), _bases(mark)]
    lines += _by_package(mark)
    anchor, use = mark.anchor, mark.use
    if mark.bearing.by_engineer:
        lines.append(f"{BY_ENGINEER}; it must take {num(mark.uplift_lb, 2)} lb up.")
    elif anchor is None or use is None:
        lines.append(f"UNRESOLVED: {unresolved_words(mark, run.schedule.catalogue)}. Ask the engineer before the pour.")
    else:
        lines += [_held(mark, anchor), _ratio(mark, anchor, use)]
        if use.parallel_ratio is not None or use.perpendicular_ratio is not None:
            lines.append(
                f"cladding uplift with the main frame's pushes: ratio {num(use.cladding_with_sideways_ratio, 4)}; told "
                "for comparison, it does not govern"
            )
        if use.full is not None:
            lines.append(_good_to(run, use.full, anchor))
    gravity, live = _down(run, mark)
    lines.append(
        f"down, for comparison: D + L_r = {num(gravity, 2)} + {num(live, 2)} = {num(gravity + live, 2)} lb (largest "
        "gravity reaction)"
    )
    return "<ul>" + "".join(f"<li>{esc(line)}</li>" for line in lines) + "</ul>"


def _storms(run: Run, mark: Mark) -> str:
    """The uplift of the finished roof and before the covering."""
    i = next(k for k, b in enumerate(run.framing.bearings) if b.mark == mark.mark)
    r = run.reactions
    finished, before = num(float(r.finished_uplift_lb[i]), 2), num(float(r.bare_uplift_lb[i]), 2)
    return f"both storms: finished {finished} lb, before the covering {before} lb; governs: {mark.storm}"


def _bases(mark: Mark) -> str:
    """The uplift by either basis, the governing one named."""
    main, cladding = num(mark.uplift_mwfrs_lb, 2), num(mark.uplift_cladding_lb, 2)
    words = {LoadBasis.MWFRS: "main frame", LoadBasis.CLADDING: "components and cladding"}
    governs = words.get(mark.basis, "neither, the truss package does")
    return f"both bases: main frame {main} lb, components and cladding {cladding} lb up; governs: {governs}"


def _by_package(mark: Mark) -> list[str]:
    """What the truss package has here beside ours."""
    s = mark.stated
    if s is None or s.theirs_lb is None:
        return []
    theirs = f"{s.source} has {num(s.theirs_lb, 2)} lb up here ({s.mark}), ours above is {num(s.ours_lb, 2)} lb"
    if not s.by_package:
        return [f"{theirs}: it is for another wind and the larger stands, ours"]
    same = "it governs" if s.replaces else "the same to the pound, so that ours stands unrounded"
    return [f"{theirs}: {same}"]


def _held(mark: Mark, anchor: Anchor) -> str:
    pair = f"{mark.count} {TIMES} " if mark.count > 1 else ""
    plies = "plies" if anchor.plies > 1 else "ply"
    sideways = ((anchor.allowable_parallel_lb, "parallel"), (anchor.allowable_perpendicular_lb, "perpendicular"))
    said = [f"{num(lb, 2)} lb {way}" if lb is not None else f"{way} not stated" for lb, way in sideways]
    return (
        f"anchor {pair}{anchor.id} at {anchor.plies} {plies} may carry {num(anchor.allowable_uplift_lb, 2)} lb up, "
        f"{', '.join(said)}; its rule: {anchor.interaction.words}"
    )


def _ratio(mark: Mark, anchor: Anchor, use: Use) -> str:
    """The three ratios of the hardest case, and the one that the rule makes of them."""
    parts = [("uplift", use.uplift_lb, anchor.allowable_uplift_lb, use.uplift_ratio)]
    for way, lb, most, ratio in (
        ("parallel", use.parallel_lb, anchor.allowable_parallel_lb, use.parallel_ratio),
        ("perpendicular", use.perpendicular_lb, anchor.allowable_perpendicular_lb, use.perpendicular_ratio),
    ):
        if most is not None and ratio is not None:
            parts.append((way, lb, most, ratio))
    terms = ", ".join(f"{way} {num(lb, 2)} / {num(most, 2)} = {num(ratio, 4)}" for way, lb, most, ratio in parts)
    if use.rule is Interaction.SUM:
        whole = " + ".join(num(ratio, 4) for *_, ratio in parts)
    else:
        whole = f"{num(max(ratio for *_, ratio in parts), 4)} / {MOST_EACH_RATIO:g}"
    return f"hardest case: {use.case} ({use.kind}){_lift(use)}: {terms}; ratio = {whole} = {num(mark.ratio, 4)}"


def _lift(use: Use) -> str:
    """The uplift of the hardest case from its wind and dead load."""
    w, d = ASD_UPLIFT.wind_factor, ASD_UPLIFT.dead_factor
    if use.uplift_lb <= 0.0:
        return ""
    product = f"{w:g} {TIMES} {num(use.wind_lb, 2)} {MINUS} {d:g} {TIMES} {num(use.dead_lb, 2)}"
    return f", lifts {product} = {num(use.uplift_lb, 2)} lb"


def _good_to(run: Run, full: Full, anchor: Anchor) -> str:
    """The speed at which the anchor is full, in numbers."""
    w, d = ASD_UPLIFT.wind_factor, ASD_UPLIFT.dead_factor
    speed, said = num(run.plan.wind.speed_mph, 1), f"good to {num(full.mph, 1)} mph, first full in: {full.case}"
    most = num(anchor.allowable_uplift_lb, 2)
    sides = [
        f"{num(lb, 2)} / {num(allowed, 2)}"
        for lb, allowed in (
            (full.parallel_lb, anchor.allowable_parallel_lb),
            (full.perpendicular_lb, anchor.allowable_perpendicular_lb),
        )
        if allowed is not None and lb > 0.0
    ]
    square = (full.mph / run.plan.wind.speed_mph) ** 2
    lifts = full.wind_lb > 0.0 and w * full.wind_lb * square >= d * full.dead_lb
    if anchor.interaction is not Interaction.SUM or not full.grows or not (lifts or sides):
        return said
    if lifts:
        grows = " + ".join([f"{w:g} {TIMES} {num(full.wind_lb, 2)} / {most}", *sides])
        root = f"(1 + {d:g} {TIMES} {num(full.dead_lb, 2)} / {most}) / ({grows})"
    else:
        root = f"1 / ({' + '.join(sides)})"
    return f"{said}: {speed} {TIMES} {ROOT}[{root}]"


def _down(run: Run, mark: Mark) -> tuple[float, float]:
    """Dead load for gravity and roof live load at a mark, positive down. [lb]"""
    i = next(k for k, b in enumerate(run.framing.bearings) if b.mark == mark.mark)
    dead, live = run.reactions.down_parts_lb[i]
    return float(dead), float(live)
