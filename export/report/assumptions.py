"""What the figures rest on: every key of the plan file, and which of them the plan did not say."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest

from export.report.markup import bullets, esc, paragraph, section, table
from framing.plan import Plan, Point
from framing.run import Run
from framing.units import feet_inches

Value = tuple[str, str, str]


def assumptions(run: Run) -> str:
    """Every value that the figures rest on, and which of them the plan did not say."""
    assumed = tuple(line.partition(" = ")[0] for line in run.plan.assumed)
    cells = [(esc(words), esc(value), "assumed" if path in assumed else "") for path, words, value in plan_values(run)]
    half = (len(cells) + 1) // 2
    rows = [(*left, *right) for left, right in zip_longest(cells[:half], cells[half:], fillvalue=("", "", ""))]
    listed = bullets(run.plan.assumed) if run.plan.assumed else paragraph("Nothing: the plan says every value.")
    return section(
        "assumed",
        "What the figures rest on",
        table(("what", "value", "", "what", "value", ""), rows, name="values"),
        bullets(plan_lines(run)),
        "<h3>Assumed, because the plan does not say</h3>",
        f'<div class="columns">{listed}</div>',
    )


def plan_values(run: Run) -> list[Value]:
    """(key in the plan file, '' for what follows from another, words, value) of each value that the figures rest on."""
    p, roof, trusses, dead, wind = run.plan, run.plan.roof, run.plan.trusses, run.plan.dead, run.plan.wind
    return [
        ("wind.speed", "basic wind speed (ultimate)", f"{wind.speed_mph:g} mph"),
        ("wind.exposure", "exposure", wind.exposure.value),
        ("wind.enclosure", "enclosure", wind.enclosure.value),
        ("wind.edition", "edition of the standard", wind.edition.value),
        ("wind.basis", "basis that sizes the anchors", wind.basis.value),
        ("wind.mwfrs_procedure", "procedure for the main frame", wind.mwfrs_procedure.value),
        ("wind.ground_elevation", "ground above the sea", f"{wind.ground_elevation_ft:g} ft"),
        *_topography(p),
        ("walls.height", "floor to top of tie beam", feet_inches(p.wall_height_ft)),
        ("walls.ground_to_floor", "ground to floor", feet_inches(p.ground_to_floor_ft)),
        ("walls.thickness", "wall thickness", feet_inches(p.wall_thickness_ft)),
        ("walls.tie_beam", "tie beam", p.tie_beam.name),
        ("roof.type", "roof", roof.type.value),
        ("roof.pitch", "pitch", f"{12 * roof.rise_per_run:g}:12"),
        ("roof.overhang", "overhang", feet_inches(roof.overhang_ft)),
        ("roof.rake_overhang", "rake overhang", feet_inches(roof.rake_overhang_ft)),
        ("roof.outlooker_backspan", "outlooker backspan", feet_inches(roof.outlooker_backspan_ft)),
        ("roof.covering", "covering", roof.covering),
        ("trusses.spacing", "truss spacing", feet_inches(trusses.spacing_ft)),
        ("trusses.setback", "setback of the hip girder", feet_inches(trusses.setback_ft)),
        ("trusses.heel", "heel height", feet_inches(trusses.heel_ft)),
        ("trusses.start", "wall whose left end the trusses are laid out from", trusses.start),
        ("trusses.hip_origin", "hips are laid out from", trusses.hip_origin.value),
        ("trusses.girder_plies", "plies of a girder", str(trusses.girder_plies)),
        ("trusses.gable_anchor_spacing", "anchors under a gable end", feet_inches(trusses.gable_anchor_spacing_ft)),
        ("dead.top_for_uplift", "dead load of the roof against uplift", f"{dead.top_for_uplift_psf:g} psf"),
        ("dead.bottom_for_uplift", "dead load of the ceiling against uplift", f"{dead.bottom_for_uplift_psf:g} psf"),
        ("", "dead load of the roof before its covering", f"{dead.top_before_covering_psf:g} psf"),
        ("dead.without_covering", "storm before the covering counts", "yes" if dead.without_covering else "no"),
        ("dead.top_for_gravity", "dead load of the roof, gravity", f"{dead.top_for_gravity_psf:g} psf"),
        ("dead.bottom_for_gravity", "dead load of the ceiling, gravity", f"{dead.bottom_for_gravity_psf:g} psf"),
        ("dead.roof_live", "roof live load", f"{dead.roof_live_psf:g} psf"),
        ("anchors.side", "face of the truss for the strap", p.anchors.side.value),
        ("anchors.minimum", "house minimum", p.anchors.minimum or "none"),
        ("anchors.catalogue", "catalogue", run.schedule.catalogue.name),
    ]


def _topography(plan: Plan) -> list[Value]:
    """The rise of ground, for every wind direction; one row on level ground."""
    rise = plan.wind.topography
    if rise is None:
        return [("wind.topography", "isolated rise of ground", "none: level ground")]
    return [
        ("wind.topography.feature", "isolated rise of ground", rise.feature.value),
        ("wind.topography.height", "its height", feet_inches(rise.height_ft)),
        ("wind.topography.half_length", "upwind from its crest to half its height", feet_inches(rise.half_length_ft)),
        ("wind.topography.distance", "from its crest to the house, downwind positive", feet_inches(rise.distance_ft)),
    ]


def plan_lines(run: Run) -> Iterator[str]:
    """The walls, the roof edges set by hand, the supports and the porches, a sentence each."""
    walls = ", ".join(f"{w.name} {feet_inches(w.length_ft)}" for w in run.outline.walls)
    yield f"Outside faces of the walls, counter-clockwise: {walls}."
    for edge in run.plan.roof.edges:
        part = f" from {_end(edge.from_ft)} to {_end(edge.to_ft)}" if (edge.from_ft, edge.to_ft) != (None, None) else ""
        yield f"Roof edge set by hand: {edge.type.value} on {edge.wall}{part}."
    for k, support in enumerate(run.plan.supports, start=1):
        ends = f"from {_point(support.start_ft)} to {_point(support.end_ft)}"
        yield f"Support S{k}: {support.kind.value} {ends}, {'holds' if support.holds_down else 'does not hold'} down."
    for porch in run.framing.porches:
        corners = ", ".join(_point(p) for p in run.plan.porches[porch.porch].corners_ft)
        walls = " and ".join(run.outline.walls[w].name for w in porch.open_walls)
        yield f"Open floor: {porch.name}, corners {corners}, open to {walls}."


def _end(at_ft: float | None) -> str:
    return "the wall's end" if at_ft is None else feet_inches(at_ft)


def _point(p: Point) -> str:
    return f"({feet_inches(p[0])}, {feet_inches(p[1])})"
