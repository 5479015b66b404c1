"""Mistakes that explain more than one fault: random surveys of invented houses, each with one mistake and noise."""

from __future__ import annotations

import random
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from export.commands.run_of_plan import load_run
from framing.asbuilt.judge import State, judged
from framing.asbuilt.patterns import Mistake, patterns
from framing.asbuilt.runs import shifted_stretches
from framing.members import Crossing
from framing.plan import Side
from framing.run import Run
from invariants.houses import SAMPLES
from parts.asbuilt_surveys import by_sheet, changed, mirrored, missing, perfect, shifted, survey, tape_of, with_noise

HOUSES = ("garage_wing", "mixed_gable_hip", "hip_house")
KINDS = ("none", "shift", "mirror", "other sheet", "missed", "wrong side")
RUNS = (Mistake.SHIFTED, Mistake.WRONG_SIDE)
OTHER = {Side.START: Side.FAR, Side.FAR: Side.START}
Told = set[tuple[Mistake, str, tuple[str, ...]]]


@cache
def house(name: str) -> Run:
    return load_run(SAMPLES[name])


def symmetric(run: Run, wall: str) -> bool:
    """Whether mirroring a wall moves its straps alike, or not at all."""
    length_in = next(12.0 * w.length_ft for w in run.outline.walls if w.name == wall)
    own = np.array([at for _, _, at in tape_of(run, wall)])
    off = np.sort(length_in - own) - own
    return bool(np.ptp(off) < 1.0 or (np.abs(off - np.median(off)) < 1.0).sum() >= len(off) - 1)


def twins(run: Run, wall: str) -> list[str]:
    """Walls with as many straps, at other places and not all of them off alike."""
    own = np.array([at for _, _, at in tape_of(run, wall)])
    out = []
    for other in dict.fromkeys(m.bearing.wall for m in run.schedule.marks):
        sheet = np.array([at for _, _, at in tape_of(run, other)])
        if other != wall and len(sheet) == len(own):
            off = sheet - own
            if (np.abs(off - np.median(off)) > 1.0).sum() > 1:
                out.append(other)
    return out


def _crosses(run: Run, mark: str) -> bool:
    return next(m for m in run.schedule.marks if m.mark == mark).bearing.crossing is not Crossing.ALONG


def one(seed: int) -> tuple[bool, bool]:
    """Whether a random survey is explained by what made it, and whether a missing strap was called good."""
    rng = random.Random(seed)
    run = house(rng.choice(HOUSES))
    walls = [w for w in dict.fromkeys(m.bearing.wall for m in run.schedule.marks) if len(tape_of(run, w)) >= 8]
    wall, kind = rng.choice(walls), KINDS[seed % len(KINDS)]
    tape, entries = tape_of(run, wall), perfect(run)
    names = {
        (m.mark, n): m.mark if len(m.straps) == 1 else f"{m.mark} strap {n}" for m in run.schedule.marks for n in (1, 2)
    }
    lost = set(rng.sample([(m, n) for m, n, _ in tape], rng.choice((0, 0, 1, 2))))
    told: Told = set()
    if kind == "shift":
        first = rng.randrange(len(tape) - 4)
        keys = [(m, n) for m, n, _ in tape[first : first + rng.randint(5, 12)]]
        entries = shifted(entries, set(keys), rng.choice((-1, 1)) * rng.uniform(0.75, 6.0))
        lost -= set(keys[:1] + keys[-1:])
        told = {(Mistake.SHIFTED, wall, tuple(names[k] for k in keys if k not in lost))}
    elif kind == "mirror" and not symmetric(run, wall):
        entries = mirrored(run, entries, wall)
        told = {(Mistake.MIRRORED, wall, ())}
    elif kind == "other sheet" and (others := twins(run, wall)):
        entries = by_sheet(run, entries, wall, [at for _, _, at in tape_of(run, others[0])])
        told = {(Mistake.OTHER_WALL, wall, ())}
    elif kind == "wrong side":
        crossing = [(m, n) for m, n, _ in tape if _crosses(run, m)]
        first = rng.randrange(max(1, len(crossing) - 3))
        keys, lost = crossing[first : first + rng.randint(3, 8)], set()
        if len(keys) >= 3:
            entries = changed(entries, set(keys), lambda e: replace(e, side=OTHER[e.side or Side.START]))
            told = {(Mistake.WRONG_SIDE, wall, tuple(names[k] for k in keys))}
    elif kind == "missed":
        lost = set(rng.sample([(m, n) for m, n, _ in tape], 3))
    entries = with_noise(entries, rng)
    entries = missing(entries, lost)
    straps = judged(run, survey(entries))
    found = {(p.mistake, p.wall, p.straps if p.mistake in RUNS else ()) for p in patterns(run, straps)}
    gone = {(s.mark.mark, s.number) for s in straps if s.state is State.MISSING}
    return found == told and gone == lost, not lost <= gone


def share_explained(seeds: range) -> float:
    results = [one(seed) for seed in seeds]
    assert not any(called_good for _, called_good in results)
    return sum(explained for explained, _ in results) / len(results)


def test_random_surveys_are_explained_by_the_mistake_that_made_them() -> None:
    assert share_explained(range(60)) >= 0.95


@pytest.mark.full
def test_a_thousand_random_surveys_are_explained_by_the_mistake_that_made_them() -> None:
    assert share_explained(range(1000)) >= 0.95


def test_one_strap_far_off_among_neighbours_on_their_marks_is_no_run() -> None:
    off = np.array([0.1, -0.2, 0.0, 3.0, 0.2, 0.1, -0.1])
    assert shifted_stretches(off).stretches == ()


def test_two_runs_of_one_wall_are_told_apart() -> None:
    off = np.array([0.0, 2.0, 2.1, 1.9, 2.0, 0.1, 0.0, -3.0, -3.1, -2.9, -3.0])
    found = shifted_stretches(off).stretches
    assert [(s.first, s.last, round(s.shift_in, 1)) for s in found] == [(1, 4, 2.0), (7, 10, -3.0)]


def test_a_mirrored_wall_that_is_its_own_mirror_is_told_as_the_shift_that_it_cannot_be_told_from() -> None:
    run = load_run(SAMPLES["cottage"])
    assert symmetric(run, "W1")
    straps = judged(run, survey(mirrored(run, perfect(run), "W1")))
    told = patterns(run, straps)
    assert [(p.mistake, p.wall, len(p.straps)) for p in told] == [(Mistake.SHIFTED, "W1", len(tape_of(run, "W1")))]
    assert "the tape was hooked wrong" in told[0].words


def test_a_girder_and_its_neighbour_with_each_other_s_anchor_are_told_as_swapped() -> None:
    run = house("garage_wing")
    a = next(m for m in run.schedule.marks if m.anchor and m.anchor.id == "great" and m.count == 1)
    b = next(m for m in run.schedule.marks if m.bearing.wall == a.bearing.wall and m.anchor and m.anchor.id != "great")
    entries = changed(perfect(run), {(a.mark, 1)}, lambda e: replace(e, anchor=b.anchor.id if b.anchor else ""))
    entries = changed(entries, {(b.mark, 1)}, lambda e: replace(e, anchor="great"))
    told = patterns(run, judged(run, survey(entries)))
    assert [(p.mistake, set(p.straps)) for p in told] == [(Mistake.SWAPPED, {a.mark, b.mark})]
