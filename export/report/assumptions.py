"""What the figures rest on: every key of the plan file, and which of them the plan did not say."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest

from export.report.markup import bullets, esc, paragraph, section, table
from framing.plan import AnchorSpec, DeadLoads, Plan, Point
from framing.plan_masonry import Bars, Masonry
from framing.run import Run
from framing.units import feet_inches

Value = tuple[str, str, str]
UNKNOWN = "not said"


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
    p, roof, trusses, wind = run.plan, run.plan.roof, run.plan.trusses, run.plan.wind
    return [
        ("wind.speed", "basic wind speed (ultimate)", f"{wind.speed_mph:g} mph"),
        ("wind.exposure", "exposure", wind.exposure.value),
        ("wind.enclosure", "enclosure", wind.enclosure.value),
        ("wind.openings", "doors and windows against debris", wind.openings or UNKNOWN),
        ("wind.coast_distance", "distance to the coast", _length(wind.coast_distance_ft)),
        ("wind.edition", "edition of the standard", wind.edition.value),
        ("wind.basis", "basis that sizes the anchors", wind.basis.value),
        ("wind.mwfrs_procedure", "procedure for the main frame", wind.mwfrs_procedure.value),
        ("wind.ground_elevation", "ground above the sea", f"{wind.ground_elevation_ft:g} ft"),
        *_topography(p),
        ("walls.straighten", "corners less than this off a straight wall left out", feet_inches(p.straighten_ft)),
        ("walls.height", "floor to top of tie beam", feet_inches(p.wall_height_ft)),
        ("walls.ground_to_floor", "ground to floor", feet_inches(p.ground_to_floor_ft)),
        ("walls.thickness", "wall thickness", feet_inches(p.wall_thickness_ft)),
        ("walls.tie_beam", "tie beam", p.tie_beam.name),
        *_held_sideways(p.masonry),
        *_steel(p),
        ("roof.type", "roof", roof.type.value),
        ("roof.pitch", "pitch", f"{12 * roof.rise_per_run:g}:12"),
        ("roof.overhang", "overhang", feet_inches(roof.overhang_ft)),
        ("roof.rake_overhang", "rake overhang", feet_inches(roof.rake_overhang_ft)),
        ("roof.rake_frame", "rake overhang carried by", roof.rake_frame or "the worse of outlookers and ladder"),
        ("roof.gable_truss", "gable-end truss, in from the block's face", _length(roof.gable_truss_ft)),
        ("roof.gable_wall", "gable closed by", roof.gable_wall.value),
        ("roof.outlooker_backspan", "outlooker backspan", feet_inches(roof.outlooker_backspan_ft)),
        ("roof.covering", "covering", roof.covering),
        ("trusses.spacing", "truss spacing", feet_inches(trusses.spacing_ft)),
        ("trusses.setback", "setback of the hip girder", feet_inches(trusses.setback_ft)),
        ("trusses.heel", "heel height", feet_inches(trusses.heel_ft)),
        ("trusses.start", "wall whose left end the trusses are laid out from", trusses.start),
        ("trusses.hip_origin", "hips are laid out from", trusses.hip_origin.value),
        ("trusses.girder_plies", "plies of a girder", str(trusses.girder_plies)),
        ("trusses.gable_anchor_spacing", "anchors under a gable end", feet_inches(trusses.gable_anchor_spacing_ft)),
        *_dead(p.dead),
        *_anchors(p.anchors, run.schedule.catalogue.name),
        *_trades(p),
    ]


def _held_sideways(walls: Masonry) -> list[Value]:
    """What holds the wind on the walls and along them."""
    return [
        ("walls.tops_held_by", "tops of the walls held sideways by", walls.tops_held_by.value),
        ("walls.line_within", "walls nearer than this to being in line are one", feet_inches(walls.line_within_ft)),
        ("walls.shortest_stretch", "a shorter wall takes no wind along it", feet_inches(walls.shortest_stretch_ft)),
    ]


def _dead(dead: DeadLoads) -> list[Value]:
    """The weights."""
    return [
        ("dead.top_for_uplift", "dead load of the roof against uplift", f"{dead.top_for_uplift_psf:g} psf"),
        ("dead.bottom_for_uplift", "dead load of the ceiling against uplift", f"{dead.bottom_for_uplift_psf:g} psf"),
        ("", "dead load of the roof before its covering", f"{dead.top_before_covering_psf:g} psf"),
        ("dead.without_covering", "storm before the covering counts", "yes" if dead.without_covering else "no"),
        ("dead.top_for_gravity", "dead load of the roof, gravity", f"{dead.top_for_gravity_psf:g} psf"),
        ("dead.bottom_for_gravity", "dead load of the ceiling, gravity", f"{dead.bottom_for_gravity_psf:g} psf"),
        ("dead.roof_live", "roof live load", f"{dead.roof_live_psf:g} psf"),
    ]


def _anchors(anchors: AnchorSpec, catalogue: str) -> list[Value]:
    """Which anchors and where they stand."""
    return [
        ("anchors.side", "face of the truss for the strap", anchors.side.value),
        (
            "anchors.corner_strap",
            "strap at a hip's corner, in along the jack",
            feet_inches(anchors.corner_strap_ft),
        ),
        ("anchors.gap_good", "gap to the truss that is good as set", feet_inches(anchors.gap_good_ft)),
        ("anchors.gap_filler", "gap up to which a filler serves", feet_inches(anchors.gap_filler_ft)),
        ("anchors.gap_ask", "gap over which the engineer is asked", feet_inches(anchors.gap_ask_ft)),
        ("anchors.face_band", "off in from the face that is good as set", feet_inches(anchors.face_band_ft)),
        (
            "anchors.along_band",
            "off along a truss along its wall that is good as set",
            feet_inches(anchors.along_band_ft),
        ),
        ("anchors.minimum", "house minimum", anchors.minimum or "none"),
        ("anchors.catalogue", "catalogue", catalogue),
    ]


def _steel(plan: Plan) -> list[Value]:
    """What is inside the tie beam."""
    steel = plan.masonry.steel
    stirrups = f"#{steel.stirrups.number} at {feet_inches(steel.stirrups.spacing_ft)}" if steel.stirrups else UNKNOWN
    return [
        ("tie_beam.top_bars", "bars at the top of the tie beam", _bars(steel.top_bars)),
        ("tie_beam.bottom_bars", "bars at its bottom", _bars(steel.bottom_bars)),
        ("tie_beam.stirrups", "its stirrups", stirrups),
        ("tie_beam.f_c_psi", "strength of its concrete", f"{steel.f_c_psi:g} psi" if steel.f_c_psi else UNKNOWN),
        ("tie_beam.cover", "concrete over its bars", _length(steel.cover_ft)),
        ("tie_beam.cell_bar", "bar in each filled cell", _bars(steel.cell_bar)),
        ("tie_beam.cell_spacing", "filled cells at most apart", _length(steel.cell_spacing_ft)),
    ]


def _trades(plan: Plan) -> list[Value]:
    """What the plan says for the trades beside the framing."""
    trades = plan.trades
    deck = [
        ("deck.panel", "deck panel", trades.deck.panel),
        ("deck.rating", "its span rating", trades.deck.rating),
        ("deck.nail", "its nails", trades.deck.nail),
        ("deck.chord_species", "wood of the top chords", trades.deck.chord_species),
        *(
            (f"deck.{key}_in", f"nails {words}, by the user's code", f"{inches:g} in." if inches else "")
            for key, words, inches in (
                ("edge", "at panel edges", trades.deck.edge_in),
                ("field", "in the field", trades.deck.field_in),
                ("zone_3", "in zone 3", trades.deck.zone_3_in),
            )
        ),
        ("covering.approvals", "table of the covering's resistances", trades.approvals),
        ("package.file", "table of the truss engineer's reactions", trades.package.file),
    ]
    return [(path, words, value or UNKNOWN) for path, words, value in deck] + [
        ("package.layout", "marks and places by", trades.package.layout.value),
        ("package.columns", "columns of that table", _pairs(trades.package.columns)),
        ("takeoff.prices", "prices of the takeoff", _pairs(trades.takeoff.prices)),
        ("takeoff.waste_percent", "waste of the takeoff, percent", _pairs(trades.takeoff.waste_percent)),
    ]


def _bars(bars: Bars | None) -> str:
    return bars.name if bars else UNKNOWN


def _length(length_ft: float | None) -> str:
    return UNKNOWN if length_ft is None else feet_inches(length_ft)


def _pairs(pairs: tuple[tuple[str, object], ...]) -> str:
    return ", ".join(f"{name} = {value}" for name, value in pairs) or "none"


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
    """The walls, the roof edges set by hand, supports, porches and the masonry, a sentence each."""
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
    yield from _masonry_lines(run.plan)


def _masonry_lines(plan: Plan) -> Iterator[str]:
    masonry = plan.masonry
    for o in masonry.openings:
        place = f"{o.wall} from {feet_inches(o.from_ft)} to {feet_inches(o.to_ft)}"
        heights = f"{feet_inches(o.sill_ft)} to {feet_inches(o.head_ft)} above the floor"
        yield f"Opening: {place}, {heights}; spanned by: {o.lintel or 'not said'}."
    for cell in masonry.filled_cells:
        yield f"Filled cell: {cell.wall} at {feet_inches(cell.at_ft)}."
    for cross in masonry.cross_walls:
        yield f"Cross wall from {_point(cross.start_ft)} to {_point(cross.end_ft)}: holds the tie beam sideways."
    if masonry.footing is not None:
        size = f"{feet_inches(masonry.footing.width_ft)} wide, {feet_inches(masonry.footing.depth_ft)} deep"
        hooked = "hooked" if masonry.footing.dowelled else "not said to be hooked"
        yield f"Footing: {size}; the cells' bars are {hooked} into it."
    for option in plan.trades.options:
        yield f"Option {option.name}: {_pairs(option.set)}."


def _end(at_ft: float | None) -> str:
    return "the wall's end" if at_ft is None else feet_inches(at_ft)


def _point(p: Point) -> str:
    return f"({feet_inches(p[0])}, {feet_inches(p[1])})"
