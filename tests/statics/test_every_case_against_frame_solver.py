"""Every sample plan, case by case, against the general-purpose frame solver: the same reactions to 1e-6.

The run's own forces on its own pieces, dead load, wind by both bases and both variants; planes, heights and statics
are those of the model (see roof_model.py and frame_model.py). A new sample plan is taken in by itself.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from drawings.marked_run import SAMPLES, sample
from framing.loads.rake_frames import framed_by
from framing.plan import RakeFrame
from framing.run import Run
from statics.roof_model import of_cases_lb, pieces_of_run


def off_by_case(run: Run, chosen: list[int]) -> dict[str, float]:
    """The largest difference of every chosen case, as a part of its largest reaction, where it is over 1e-6."""
    force_of = {case.name: case.force_lb for case in run.loads.cases}
    off = {}
    for stand in sorted({(run.reactions.cases[k].rake or "", run.reactions.cases[k].lifted) for k in chosen}):
        rake, lifted = stand
        alike = [k for k in chosen if (run.reactions.cases[k].rake or "", run.reactions.cases[k].lifted) == stand]
        cases = [run.reactions.cases[k] for k in alike]
        framing = framed_by(run.framing, RakeFrame(rake) if rake else None)
        house, pieces = pieces_of_run(replace(run, framing=framing))
        loads = [(force_of[c.load], c.variant == "heel") for c in cases]
        theirs_lb = of_cases_lb(house, pieces, loads, lifted=lifted)
        ours_lb = np.vstack([run.reactions.by_case_lb, run.reactions.rests_by_case_lb])[:, alike]
        part = np.abs(ours_lb - theirs_lb).max(axis=0) / np.abs(theirs_lb).max(axis=0)
        off |= {c.name: float(o) for c, o in zip(cases, part, strict=True) if not o <= 1e-6}
    return off


@pytest.mark.parametrize("name", SAMPLES)
def test_the_leading_cases_of_either_basis_both_variants_and_a_dead_load_give_what_the_frame_solver_finds(
    name: str,
) -> None:
    run = sample(name)
    found = {}
    for k, case in enumerate(run.reactions.cases):
        found.setdefault((case.basis, case.variant, case.rake), k)
    assert {basis for basis, *_ in found} == {"dead", "live", "mwfrs", "cladding"}
    assert off_by_case(run, sorted(found.values())) == {}


@pytest.mark.full
@pytest.mark.parametrize("name", SAMPLES)
def test_every_case_gives_what_the_frame_solver_finds(name: str) -> None:
    run = sample(name)
    assert off_by_case(run, list(range(len(run.reactions.cases)))) == {}
