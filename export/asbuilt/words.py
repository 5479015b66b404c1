"""Straps as set, in sentences: a line for the house, one a mistake, one a wall, and each fault as a letter needs it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from export.wall_marks.tape_marks import FACE_WORDS
from export.words.demand import demand_words, source_words
from framing.asbuilt.entries import Survey
from framing.asbuilt.faults import NEEDS_ANCHOR, Fault, faults
from framing.asbuilt.judge import AS_PLANNED, AsBuilt, State, judged
from framing.asbuilt.patterns import Pattern, patterns
from framing.run import Run
from framing.units import feet_inches, inches

PRACTICE = "(common practice, no source)"


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """One run, the lists of its straps as set, and all that was found."""

    run: Run
    survey: Survey
    straps: tuple[AsBuilt, ...]
    patterns: tuple[Pattern, ...]
    faults: tuple[Fault, ...]

    @property
    def as_planned(self) -> bool:
        """Whether nothing is found."""
        return not self.faults


def findings(run: Run, survey: Survey) -> Findings:
    """All that is found of the straps of one run."""
    straps = judged(run, survey)
    return Findings(
        run=run,
        survey=survey,
        straps=straps,
        patterns=patterns(run, straps),
        faults=faults(straps, run.schedule.catalogue),
    )


def verdict(found: Findings) -> tuple[str, ...]:
    """The house in a line, each mistake in one, then each wall that has findings."""
    n, good = len(found.straps), sum(s.as_planned for s in found.straps)
    unmeasured = sum(s.state is State.NOT_MEASURED for s in found.straps)
    more = f" ({unmeasured} of them ticked as set, their place not measured)" if unmeasured else ""
    if found.as_planned:
        return (f"All {n} straps are as planned{more}.", *_other_plan(found))
    walls: dict[str, Counter[State]] = {}
    for s in found.straps:
        walls.setdefault(s.mark.bearing.wall, Counter())[s.state] += 1
    lines = [f"{n - good} of {n} straps are not as planned; {good} are{more}."]
    lines += [f"{p.words}." for p in found.patterns]
    for wall, states in walls.items():
        bad = [f"{k} {state}" for state, k in states.items() if state not in AS_PLANNED]
        if bad:
            lines.append(f"{wall}: {', '.join(bad)}, of {sum(states.values())}.")
    sound = [wall for wall, states in walls.items() if set(states) <= AS_PLANNED]
    lines += [f"{', '.join(sound)}: as planned."] if sound else []
    return (*lines, *_other_plan(found))


def package_line(run: Run) -> tuple[str, ...]:
    """That the demands are the truss engineer's, where a package governs."""
    return (f"Demands by the truss package {run.reconciled.words}.",) if run.reconciled else ()


def _other_plan(found: Findings) -> tuple[str, ...]:
    """That a list was made from another plan than this: its marks may be other ones."""
    others = [p for p in found.survey.plans if p != found.run.fingerprint]
    if not others:
        return ()
    named = ", ".join(others)
    return (f"The list is of plan {named}, this is plan {found.run.fingerprint}: read `compare` of the two first.",)


def mistake_lines(found: Findings) -> tuple[str, ...]:
    """Each mistake with its one question: to be asked before those of its straps."""
    return tuple(f"{p.words}. Question: {p.question}" for p in found.patterns)


def fault_title(fault: Fault) -> str:
    """Which strap, of which truss, and what it is."""
    s = fault.strap
    return f"{s.name} ({s.mark.bearing.member}): {s.state.upper()}"


def fault_lines(fault: Fault) -> Iterator[str]:
    """What the engineer's letter needs of one fault, a sentence a line."""
    s = fault.strap
    off = f"; along the tape {along_words(s)}" if s.along_in is not None else ""
    planned_at = f"{feet_inches(s.strap.tape_ft)} from START, on the {FACE_WORDS[s.strap.side]}"
    yield f"Found: {s.words}{off}. Planned: {planned_at}."
    if s.entry is not None and s.entry.note:
        yield f"Written down: {s.entry.note}"
    planned = f"{s.mark.count} x {s.mark.anchor.id}" if s.mark.anchor else "no anchor of the plan"
    yield f"Demand of the mark: {demand_words(s.mark)}{source_words(s.mark)} ({planned}, {s.mark.bearing.plies} ply)."
    yield f"Neighbours' spare in uplift, no design: {spare_words(fault)}."
    if fault.strap.state in NEEDS_ANCHOR:
        yield f"Retrofit rows of the catalogue that carry it: {retrofit_words(fault)}."
    yield f"To be settled {fault.before}."
    yield f"Question: {fault.question}"


def along_words(s: AsBuilt) -> str:
    """How far along the tape it stands off its mark."""
    off = s.along_in or 0.0
    if abs(off) < 1.0 / 32.0:
        return "on its mark"
    return f"{inches(abs(off) / 12.0).removeprefix('0 ')} off toward {'the far end' if off > 0 else 'START'}"


def spare_words(fault: Fault) -> str:
    """What each neighbour's anchor has over."""
    said = [
        f"{x.mark} has a finding itself" if x.spare_lb is None else f"{x.mark} {x.spare_lb:,.0f} lb"
        for x in fault.spares
    ]
    return ", ".join(said) or "no neighbour on this wall"


def retrofit_words(fault: Fault) -> str:
    """The user's own rows that the demand would need; which one is the engineer's."""
    if not fault.retrofit:
        return "none of your catalogue's (rows of kind retrofit, at its plies); the engineer names one"
    rows = [f"{'2 x ' if a.count > 1 else ''}{a.id} ({a.allowable_uplift_lb:,.0f} lb up)" for a in fault.retrofit[:3]]
    return f"{', '.join(rows)}; the engineer chooses, not this list"


def band_words(run: Run) -> str:
    """The plan's own bands."""
    a = run.plan.anchors
    bands = (a.gap_good_ft, a.gap_filler_ft, a.gap_ask_ft, a.face_band_ft, a.along_band_ft)
    good, filler, ask, face, along = (inches(v).removeprefix("0 ") for v in bands)
    return (
        f"Away from its truss: a gap up to {good} is good, up to {filler} takes a filler, over it the engineer is "
        f"asked, over {ask} it is out of reach. Into its truss: the truss would have to shift by as much, at most half "
        f"its thickness; a whole thickness is the other face. In from the face: within {face}; along a truss that runs "
        f"along its wall: within {along}. These bands are the "
        f"plan's own {PRACTICE}. A strap that no list has counts as missing."
    )
