"""Run -> the part of run.json on where the pull stops: beams, openings, cells and weights, pounds and feet."""

from __future__ import annotations

from dataclasses import asdict

from framing.ground.over_openings import OpeningBeam
from framing.ground.tie_beam import BeamDemand
from framing.ground.weights import Ladder
from framing.run import Run


def ground_plain(run: Run) -> dict[str, object]:
    """Demand first (ASD); strengths and ratios are null where the plan does not say enough."""
    ground, marks = run.ground, run.schedule.marks
    strength = ground.strength
    return {
        "beam_plf": ground.beam_plf,
        "strength": {
            "top_ft_lb": strength.top_ft_lb,
            "bottom_ft_lb": strength.bottom_ft_lb,
            "shear_lb": strength.shear_lb,
            "missing": list(strength.missing),
        },
        "beams": [_beam(run, k, beam) for k, beam in enumerate(ground.beams)],
        "openings": [_opening(run, o) for o in ground.openings],
        "cells": [asdict(c) for c in ground.cells],
        "weights": [_weight(run, ladder) for ladder in ground.ladders],
        "girders": [
            {"mark": marks[g.row].mark, "cell_ft": g.cell_at_ft, "away_ft": g.away_ft, "within_24_in": g.near}
            for g in ground.girders
        ],
    }


def _opening(run: Run, o: OpeningBeam) -> dict[str, object]:
    return {
        "opening": o.index + 1,
        "wall": o.opening.wall,
        "span_ft": o.span_ft,
        "asd": asdict(o.asd),
        "strength_demand": asdict(o.strength),
        "ratio": o.ratio,
        "jambs_ft": list(o.jambs_ft),
        "jamb_lb": list(o.jamb_lb),
        "marks": [run.schedule.marks[i].mark for i in o.marks],
        "girders": list(o.girders),
        "not_said": list(o.unsaid),
    }


def _weight(run: Run, ladder: Ladder) -> dict[str, object]:
    return {
        "mark": run.schedule.marks[ladder.row].mark,
        "strip_ft": ladder.strip_ft,
        "pull_lb": ladder.pull_lb,
        "beam_lb": ladder.beam_lb,
        "wall_lb": ladder.wall_lb,
        "footing_lb": ladder.footing_lb,
        "missing_lb": ladder.missing_lb,
    }


def _beam(run: Run, k: int, beam: BeamDemand) -> dict[str, object]:
    stretch = beam.cells.stretch
    return {
        "wall": stretch.name,
        "from_ft": stretch.from_ft,
        "to_ft": stretch.to_ft,
        "pull_lb": beam.pull_lb,
        "net_plf": beam.net_plf,
        "cells_ft": list(beam.cells.at_ft),
        "cell_lb": list(beam.cell_lb),
        "spacing_needed_ft": run.ground.needed[k].spacing_ft,
        "spacing_needed_with_bars_taken": run.ground.needed[k].taken,
        "spans": [
            {
                "from_ft": s.from_ft,
                "to_ft": s.to_ft,
                "over_opening": s.opening is not None,
                "asd": asdict(s.asd),
                "strength_demand": asdict(s.strength),
                "ratio": s.ratio,
            }
            for s in beam.spans
        ],
    }
