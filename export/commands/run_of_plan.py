"""Plan file -> Run, and what is still open in it: how every command that takes a plan begins and ends."""

from __future__ import annotations

from pathlib import Path

import typer

from export.commands.standard_error import say
from export.words.demand import unresolved_words
from framing.anchors.catalogue_file import catalogue_of
from framing.deck.approvals import NONE_GIVEN, read_approvals
from framing.errors import PlanError
from framing.package.rows import Package
from framing.plan import Plan, Point
from framing.plan_file import read_options, read_plan
from framing.plan_trades import PackageLayout
from framing.run import Run, make_run
from framing.variants import make_runs


def load_run(path: Path, table: Path | None = None, *, accept: bool = False) -> Run:
    """The run of a plan file with the catalogue and the truss package that it names.

    Parameters
    ----------
    path : Path
        The plan file.
    table : Path
        A table of reactions in the place of the plan's.
    accept : bool
        Whether its rows govern that were matched otherwise than by mark.

    Returns
    -------
    Run
        Everything there is to know about the plan.

    Raises
    ------
    StraplineError
        If the plan, its catalogue or the house in it is wrong; one sentence.
    """
    plan = read_plan(path, _drawn_outline)
    named = plan.trades.approvals
    approvals = read_approvals(path.parent / named, plan.wind.speed_mph) if named else NONE_GIVEN
    package = _package(plan, path, table, accept=accept)
    if package is not None and plan.trades.package.layout is PackageLayout.PACKAGE:
        from framing.engineers_layout import run_of_layout

        return run_of_layout(plan, catalogue_of(plan, path.parent), package)
    return make_run(plan, catalogue_of(plan, path.parent), approvals, package)


def _package(plan: Plan, path: Path, table: Path | None, *, accept: bool) -> Package | None:
    """The truss engineer's reactions that govern a plan, None where none are named; what reads them is loaded then."""
    spec = plan.trades.package
    if spec.layout is PackageLayout.PACKAGE and (table is not None or not spec.file):
        raise PlanError(
            'package layout: "package" takes the marks from the table that [package] file names; write it there, or '
            'layout = "ours" to have it laid beside ours'
        )
    if table is None and not spec.file:
        return None
    from framing.package.package_file import read_package

    return read_package(path.parent / spec.file if table is None else table, spec, accept_all=accept)


def refuse_layout(run: Run, command: str) -> None:
    """Refuse what needs arithmetic of ours of an engineer's layout.

    Raises
    ------
    PlanError
        If the marks are the engineer's.
    """
    if run.by_engineer:
        raise PlanError(
            f'package layout: with "package" there is no arithmetic of ours for `{command}`; write layout = "ours" for '
            "it"
        )


BY_OURS = ", by our own reactions"  # the package is for the plan's own wind and house
Named = tuple[str, tuple[tuple[str, object], ...]]


def load_variants(path: Path) -> tuple[tuple[Named, ...], tuple[Run, ...]]:
    """The plan's own run first, then one of each of its options, or of the usual ones where it names none; before them
    each one's name and the keys that it sets. Raises as `load_run`.
    """
    from export.options.usual import Variant, usual_variants

    first = load_run(path)
    refuse_layout(first, "options")
    options = first.plan.trades.options
    if options:
        plans = read_options(path, _drawn_outline)
        named: list[Variant] = [(o.name, tuple(o.set), p) for o, p in zip(options, plans, strict=True)]
    else:
        named = list(usual_variants(first))
    variants = [(p, catalogue_of(p, path.parent), first.cover.approvals) for _, _, p in named]
    own = (first.plan, first.schedule.catalogue, first.cover.approvals)
    runs = make_runs([own, *variants], first.reconciled.package if first.reconciled else None)
    own_words = [BY_OURS if first.reconciled and run.reconciled is None else "" for run in runs[1:]]
    told = ((f"{name}{words}", keys) for (name, keys, _), words in zip(named, own_words, strict=True))
    return (("as planned", ()), *told), runs


def _drawn_outline(path: Path, layer: str, unit: str | None) -> tuple[tuple[Point, ...], tuple[str, ...]]:
    """The outline in a drawing; what reads drawings is loaded for the plans that name one."""
    from export.architects_drawing.outline import outline_of_drawing

    return outline_of_drawing(path, layer, unit)


def finish(run: Run, *, quiet: bool, wrote: Path | None = None, first: str | None = None) -> None:
    """Say what was written, the notes and what is unresolved, which file to open first (`first`), and leave with exit
    code 1 where anything is unresolved.

    Raises
    ------
    typer.Exit
        If a mark has no anchor or the run has flags.
    """
    lines = unresolved_lines(run)
    if wrote is not None:
        said = (_count(len(run.schedule.marks), "mark"), _count(len(run.notes), "note"), f"{len(lines)} unresolved")
        say(f"{wrote}: {', '.join(said)}", quiet=quiet)
        for line in run.notes:
            say(f"note: {line}", quiet=quiet)
    for line in lines:
        say(line, quiet=quiet)
    if wrote is not None and first is not None:
        say(f"open first: {wrote / first}; the notes stand on it too, report.html says why", quiet=quiet)
    if lines:
        raise typer.Exit(1)


def _count(n: int, what: str) -> str:
    return f"{n} {what}{'' if n == 1 else 's'}"


def unresolved_lines(run: Run) -> tuple[str, ...]:
    """A sentence for each mark that no anchor holds, then the run's flags."""
    marks = tuple(
        f"{m.mark} ({m.bearing.member}): {unresolved_words(m, run.schedule.catalogue)}" for m in run.schedule.unresolved
    )
    return marks + run.flags
