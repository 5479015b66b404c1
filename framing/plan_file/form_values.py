"""The form's sections -> the plan's own records."""

from __future__ import annotations

import difflib

from framing import plan, plan_masonry, plan_trades
from framing.errors import PlanError
from framing.plan_file.enclosure import with_enclosure
from framing.plan_file.form import PlanForm
from framing.plan_file.topography import check_topography
from framing.units import shown


def roof_of(form: PlanForm) -> plan.RoofSpec:
    """The roof as asked for."""
    return plan.RoofSpec(
        type=form.roof.type,
        rise_per_run=form.roof.pitch,
        overhang_ft=form.roof.overhang,
        rake_overhang_ft=form.roof.rake_overhang,
        rake_frame=form.roof.rake_frame,
        outlooker_backspan_ft=form.roof.outlooker_backspan,
        gable_truss_ft=form.roof.gable_truss,
        gable_wall=form.roof.gable_wall,
        covering=form.roof.covering,
        edges=tuple(plan.RoofEdge(wall=e.wall, type=e.type, from_ft=e.start, to_ft=e.end) for e in form.roof.edge),
    )


def masonry_of(form: PlanForm) -> plan_masonry.Masonry:
    """The walls under the roof."""
    beam, footing = form.tie_beam, form.footing
    return plan_masonry.Masonry(
        tops_held_by=form.walls.tops_held_by,
        line_within_ft=form.walls.line_within,
        shortest_stretch_ft=form.walls.shortest_stretch,
        steel=plan_masonry.TieBeamSteel(
            top_bars=beam.top_bars,
            bottom_bars=beam.bottom_bars,
            stirrups=beam.stirrups,
            f_c_psi=beam.f_c_psi,
            cover_ft=beam.cover,
            cell_bar=beam.cell_bar,
            cell_spacing_ft=beam.cell_spacing,
        ),
        filled_cells=tuple(plan_masonry.FilledCell(wall=c.wall, at_ft=c.at) for c in form.filled_cell),
        openings=tuple(
            plan_masonry.Opening(
                wall=o.wall, from_ft=o.start, to_ft=o.end, sill_ft=o.sill, head_ft=o.head, lintel=o.lintel
            )
            for o in form.opening
        ),
        cross_walls=tuple(plan_masonry.CrossWall(start_ft=c.start, end_ft=c.end) for c in form.cross_wall),
        footing=None
        if footing is None
        else plan_masonry.Footing(width_ft=footing.width, depth_ft=footing.depth, dowelled=footing.dowelled),
    )


def anchors_of(form: PlanForm) -> plan.AnchorSpec:
    """Which anchors may be used. Raises PlanError where the bands of the gap are out of order."""
    a = form.anchors
    if not a.gap_good <= a.gap_filler <= a.gap_ask:
        raise PlanError("anchors gap_filler: write gap_good, gap_filler and gap_ask, none smaller than the one before")
    return plan.AnchorSpec(
        catalogue=a.catalogue,
        minimum=a.minimum,
        side=a.side,
        corner_strap_ft=a.corner_strap,
        gap_good_ft=a.gap_good,
        gap_filler_ft=a.gap_filler,
        gap_ask_ft=a.gap_ask,
        face_band_ft=a.face_band,
        along_band_ft=a.along_band,
    )


def trades_of(form: PlanForm) -> plan_trades.Trades:
    """Package, deck, covering, takeoff and options. Raises PlanError for an item that the takeoff does not have."""
    deck, takeoff = form.deck, form.takeoff
    for where, table in (("prices", takeoff.prices), ("waste_percent", takeoff.waste_percent)):
        for item, _ in table:
            if item not in plan_trades.TAKEOFF_ITEMS:
                nearest = difflib.get_close_matches(item, plan_trades.TAKEOFF_ITEMS, 1, 0.0)[0]
                known = ", ".join(plan_trades.TAKEOFF_ITEMS)
                raise PlanError(
                    f"takeoff {where}: {shown(item)} is no item; the nearest is {shown(nearest)} of {known}"
                )
    return plan_trades.Trades(
        package=plan_trades.PackageSpec(
            file=form.package.file, columns=form.package.columns, layout=form.package.layout
        ),
        deck=plan_trades.DeckSpec(
            panel=deck.panel,
            rating=deck.rating,
            nail=deck.nail,
            chord_species=deck.chord_species,
            edge_in=deck.edge_in,
            field_in=deck.field_in,
            zone_3_in=deck.zone_3_in,
        ),
        approvals=form.covering.approvals,
        takeoff=plan_trades.TakeoffSpec(prices=takeoff.prices, waste_percent=takeoff.waste_percent),
        options=tuple(plan_trades.Option(name=o.name, set=o.set) for o in form.option),
    )


def trusses_of(form: PlanForm) -> plan.TrussSpec:
    """How the trusses are laid out."""
    return plan.TrussSpec(
        spacing_ft=form.trusses.spacing,
        setback_ft=form.trusses.setback,
        heel_ft=form.trusses.heel,
        girder_plies=form.trusses.girder_plies,
        gable_anchor_spacing_ft=form.trusses.gable_anchor_spacing,
        start=form.trusses.start,
        hip_origin=form.trusses.hip_origin,
    )


def wind_of(form: PlanForm) -> plan.WindSpec:
    """The wind. Raises PlanError where a rise of ground counts for nothing, or enclosure and openings contradict."""
    rise = form.wind.topography
    topography = None
    if rise is not None:
        topography = plan.Topography(
            feature=rise.feature,
            height_ft=rise.height,
            half_length_ft=rise.half_length,
            distance_ft=rise.distance,
        )
    wind = plan.WindSpec(
        speed_mph=form.wind.speed,
        exposure=form.wind.exposure,
        enclosure=form.wind.enclosure,
        enclosure_typed="enclosure" in form.wind.model_fields_set,
        openings=form.wind.openings,
        coast_distance_ft=form.wind.coast_distance,
        edition=form.wind.edition,
        basis=form.wind.basis,
        mwfrs_procedure=form.wind.mwfrs_procedure,
        ground_elevation_ft=form.wind.ground_elevation,
        topography=topography,
    )
    check_topography(wind)
    return with_enclosure(wind)
