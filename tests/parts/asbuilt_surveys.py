"""Surveys made up from a plan: a perfect pour, and what each mistake does to it. All invented."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace

from framing.asbuilt.entries import Entry, Survey, Written
from framing.run import Run

NOISE_IN = 0.25


def perfect(run: Run) -> list[Entry]:
    """Every strap of the plan on its mark, in the plan's order and along each tape."""
    return [
        Entry(
            mark=mark.mark,
            strap=n,
            written=Written.SET,
            offset_in=0.0,
            gap_in=None,
            face_in=None,
            side=strap.side,
            anchor=mark.anchor.id if mark.anchor else "",
            note="",
            by="",
            when="",
            where="made up",
        )
        for mark in run.schedule.marks
        for n, strap in enumerate(sorted(mark.straps, key=lambda s: s.tape_ft), start=1)
    ]


def survey(entries: list[Entry]) -> Survey:
    """A list of them."""
    return Survey(entries=tuple(entries), plans=(), names=("made up",))


def tape_of(run: Run, wall: str) -> list[tuple[str, int, float]]:
    """(mark, strap number, planned figure in inches) of a wall's straps in order along its tape."""
    rows = [
        (m.mark, n, 12.0 * s.tape_ft)
        for m in run.schedule.marks
        if m.bearing.wall == wall
        for n, s in enumerate(sorted(m.straps, key=lambda s: s.tape_ft), start=1)
    ]
    return sorted(rows, key=lambda row: row[2])


def with_noise(entries: list[Entry], rng: random.Random) -> list[Entry]:
    """Each strap set and measured within a quarter of an inch."""
    return [replace(e, offset_in=(e.offset_in or 0.0) + rng.uniform(-NOISE_IN, NOISE_IN)) for e in entries]


def changed(entries: list[Entry], keys: set[tuple[str, int]], how: Callable[[Entry], Entry]) -> list[Entry]:
    """Some of them otherwise."""
    return [how(e) if (e.mark, e.strap) in keys else e for e in entries]


def shifted(entries: list[Entry], keys: set[tuple[str, int]], by_in: float) -> list[Entry]:
    """Some of them moved along their tape."""
    return changed(entries, keys, lambda e: replace(e, offset_in=(e.offset_in or 0.0) + by_in))


def missing(entries: list[Entry], keys: set[tuple[str, int]]) -> list[Entry]:
    """Some of them not there."""
    return changed(entries, keys, lambda e: replace(e, written=Written.MISSING, offset_in=None))


def by_sheet(run: Run, entries: list[Entry], wall: str, sheet_in: list[float]) -> list[Entry]:
    """A wall's straps, in order from START, where another sheet has them."""
    places = {(mark, n): at - own for (mark, n, own), at in zip(tape_of(run, wall), sorted(sheet_in), strict=True)}
    return [replace(e, offset_in=places.get((e.mark, e.strap), e.offset_in)) for e in entries]


def mirrored(run: Run, entries: list[Entry], wall: str) -> list[Entry]:
    """A wall laid out from the wrong end."""
    length_in = next(12.0 * w.length_ft for w in run.outline.walls if w.name == wall)
    return by_sheet(run, entries, wall, [length_in - at for _, _, at in tape_of(run, wall)])
