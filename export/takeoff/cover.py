"""Run -> the roof's lines and areas, deck panels and nails, underlayment and what goes through it."""

from __future__ import annotations

from collections.abc import Iterator

from export.takeoff.rows import NO_SOURCE, Row, up, waste
from framing.deck.deck import ZoneNailing
from framing.deck.panel_count import PANEL_FT, PANEL_FT2
from framing.roof.lines import LineKind
from framing.run import Run

NAIL_WASTE_PERCENT = 10.0


def cover_rows(run: Run) -> Iterator[Row]:
    """Areas and lines of the roof first, then deck, nails and underlayment."""
    lengths = {k: sum(line.length_ft for line in run.roof.lines if line.kind is k) for k in LineKind}
    cover = run.cover
    area = sum(z.area_ft2 for z in cover.deck.zones)
    yield Row(
        item="roof area on the slope",
        quantity=round(area, 1),
        unit="sq ft",
        note="Every visible face, overhangs included; no waste added.",
    )
    yield _panels(run, area, lengths)
    yield from _nails(run)
    for kind, length_ft in lengths.items():
        if length_ft > 0 or kind is not LineKind.STEP:
            note = "True length on the slope; no waste added."
            yield Row(item=kind.value, quantity=round(length_ft, 1), unit="ft", note=note)
    yield from _underlayment(run)


def _panels(run: Run, area_ft2: float, lengths_ft: dict[LineKind, float]) -> Row:
    """By courses, and never fewer than the area with its waste."""
    usual, shape = usual_deck_waste(lengths_ft)
    factor, words = waste(run.plan.trades.takeoff, "deck panel", usual)
    courses = run.cover.panels.panels
    n = max(up(courses), up(area_ft2 * factor / PANEL_FT2))
    note = (
        f"4 x 8 ft panels: {courses:g} by courses from the eaves, {up(area_ft2 * factor / PANEL_FT2)} by the area on "
        f"the slope with {words} for {shape}; the larger."
    )
    return Row(item="deck panel 4 x 8 ft", quantity=n, unit="each", note=note, key="deck panel")


def usual_deck_waste(lengths_ft: dict[LineKind, float]) -> tuple[float, str]:
    """The upper end of the usual range for the roof's shape, in percent.

    Source: common practice, no source (5 to 8 % gable, 10 to 15 % hip, 15 to 20 % cut-up).
    """
    if lengths_ft[LineKind.VALLEY] > 0:
        return 20.0, "a cut-up roof"
    return (15.0, "a hip roof") if lengths_ft[LineKind.HIP] > 0 else (8.0, "a gable roof")


def _nails(run: Run) -> Iterator[Row]:
    """Along every truss, and twice where panels meet on one; none without panel, nail and wood."""
    choice = run.cover.deck.choice
    if choice is None:
        return
    spacing_ft = run.plan.trusses.spacing_ft
    n = sum(_zone_nails(line, spacing_ft) for line in run.cover.deck.nailings)
    factor, words = waste(run.plan.trades.takeoff, "deck nail", NAIL_WASTE_PERCENT)
    note = f"{choice.nail.name}: by zone as on the deck sheet, along every truss and twice where panels end, {words}."
    yield Row(item=f"deck nail {choice.nail.name}", quantity=up(n * factor), unit="each", note=note, key="deck nail")


def _zone_nails(line: ZoneNailing, spacing_ft: float) -> float:
    inches = line.truss.spacing_in or 3.0
    lines_ft = line.zone.area_ft2 / spacing_ft + line.zone.area_ft2 / PANEL_FT[0]
    return lines_ft * 12.0 / inches


def _underlayment(run: Run) -> Iterator[Row]:
    """Each way that public text allows, one to be chosen."""
    for k, system in enumerate(run.cover.systems, 1):
        note = f"One of {len(run.cover.systems)} ways: {system.words} ({system.source}; {system.mark}); laps in it."
        if system.rolls is not None:
            row = Row(item=f"underlayment, way {k}", quantity=system.rolls, unit="roll", note=note, key="underlayment")
        else:
            note += " Rolls: the file of approvals says no underlayment_roll_ft2."
            row = Row(
                item=f"underlayment, way {k}",
                quantity=up(system.material_ft2),
                unit="sq ft",
                note=note,
                key="underlayment",
            )
        yield row
        if system.joint_strips_ft:
            why = "Over the joints between panels, with that way."
            yield Row(
                item=f"strips over joints, way {k}",
                quantity=up(system.joint_strips_ft),
                unit="ft",
                note=why,
                key="strip",
            )
        if system.cap_nails:
            why = f"12 in. apart over the roof and 6 in. along laps, caps at least 1 in. ({NO_SOURCE} for the count)."
            yield Row(item=f"cap nails, way {k}", quantity=system.cap_nails, unit="each", note=why, key="cap nail")
