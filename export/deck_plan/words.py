"""What the deck's sheets say: zones, nails, panels and covering, each in a few words."""

from __future__ import annotations

from collections.abc import Iterator

from framing.deck.covering import NOT_GIVEN, ON_A_TILE
from framing.deck.nailing import Nailing
from framing.deck.water import ways_note
from framing.deck.zones import Part, zone_measures
from framing.run import Run
from framing.units import feet_inches

Cells = tuple[str, ...]
ASK = "not given"
PATTERN = "apart on every truss and along both sides of each joint"
GABLE = "apart along a gable-end truss"


def zone_rows(run: Run) -> list[Cells]:
    """Name, suction, nails on each truss, nails at the gable end, area, for every zone."""
    lines = {id(n.zone): n for n in run.cover.deck.nailings}
    rows: list[Cells] = []
    for zone in run.cover.deck.zones:
        n = lines.get(id(zone))
        truss = ASK if n is None else n.truss.words
        gable = "" if n is None or n.gable is None else n.gable.words
        rows.append((zone.name, f"{zone.suction_psf:.0f}", truss, gable, f"{zone.area_ft2:.0f}"))
    return rows


def line_words(line: Nailing, where: str) -> str:
    """How far apart nails stand, and where; or the question."""
    if line.spacing_in is None:
        return f"{line.words}: {where.removeprefix('apart ')}"
    return f"{line.words} {where}"


def measure_lines(run: Run) -> Iterator[str]:
    """How far each strip reaches, to the nearest sixteenth."""
    for m in zone_measures(run.plan, run.roof, run.loads.widths):
        yield f"{feet_inches(m.length_ft)} {m.words}"


ZONE_NOTE = (
    "Suction square to the slope by components and cladding at 10 sq ft, 0.6 of it (allowable stress). Zone 1 is left "
    "white, zone 2 lined, zone 3 crossed; upright lines besides: open air below, overhangs and porches. Dashed: walls."
)


def nail_notes(run: Run) -> Iterator[str]:
    """What nails and panel were reckoned with."""
    deck = run.cover.deck
    choice = deck.choice
    if choice is None:
        spec = run.plan.trades.deck
        missing = [
            what
            for what, value in (
                ("panel", spec.panel),
                ("nail", spec.nail),
                ("wood of the top chords", spec.chord_species),
            )
            if not value
        ]
        yield (
            f"No nail spacing is given: the plan does not say {' nor '.join(missing)}. Ask the truss plant for "
            "the chords "
            "and the yard for panel and nail, and write them in [deck]."
        )
        return
    yield (
        f"Reckoned with {choice.panel.name} rated {choice.panel.rating}, {choice.nail.name}, chords of "
        f"{choice.wood.name}: one "
        f"nail holds {choice.strength.allowable_lb:.0f} lb, {choice.strength.mode}. Nails never over 6 in. "
        "apart. Check the "
        "stamp on the panel, the box of nails and the chords before nailing."
    )
    most = choice.panel_strength.allowable_psf
    hardest = max(z.suction_psf for z in deck.zones)
    if most is None:
        yield f"Bending of the panel between trusses, up to {hardest:.0f} psf: {NOT_GIVEN}; ask for its strength."
    else:
        yield f"The panel holds {most:.0f} psf between trusses; the wind asks up to {hardest:.0f}."


def panel_words(run: Run) -> Iterator[str]:
    """How many panels, how laid."""
    yield panel_count_words(run)
    for other, lines in run.cover.deck.beside:
        said = ", ".join(f"{n.zone.name} {n.truss.words}" for n in lines if n.zone.part is not Part.PORCH)
        yield f"{other.panel.name}: one nail holds {other.strength.allowable_lb:.0f} lb; {said}."


def panel_count_words(run: Run) -> str:
    """How many panels, counted by courses."""
    count = run.cover.panels
    return (
        f"{count.panels:g} panels 4 x 8 ft by courses from the eaves, long side along the eave, joints staggered and "
        f"on trusses; {count.area_ft2:.0f} sq ft on the slope. The takeoff adds the waste."
    )


def water_words(run: Run) -> Iterator[str]:
    """The ways to keep the water out, and how often the covering's fasteners go through."""
    sources = dict.fromkeys(f"{way.source}; {way.mark}" for way in run.cover.systems)
    yield f"Choose one; your code's own list governs. From {', '.join(sources)}:"
    for k, way in enumerate(run.cover.systems, 1):
        yield f"Way {k} of {len(run.cover.systems)}: {way.words}."
    yield ways_note(run.plan.wind.speed_mph)
    for p in run.cover.penetrations:
        count = f"{p.count:,} fasteners through the barrier" if p.count is not None else "not counted, see report"
        yield f"{p.way[0].upper()}{p.way[1:]}: {count}."


def q_h_words(run: Run) -> str:
    """The velocity pressure that a tile's moment is reckoned with."""
    covering = run.cover.covering
    inside = "K_d in it" if covering.K_d_in_q else "without K_d"
    defined = f"0.6 times the velocity pressure as {run.plan.wind.edition.value} defines it ({inside})"
    return f"q_h = {covering.q_h_psf:.2f} psf, {defined}"


def covering_words(run: Run) -> Iterator[str]:
    """What the covering's demand rests on, and what the method says besides."""
    covering = run.cover.covering
    if any(d.what == ON_A_TILE for d in covering.demands):
        held = [x.holds for x in covering.limits]
        counts = f"{held.count(True)} hold by your file, {held.count(False)} do not, {held.count(None)} are open"
        yield f"Moment on a tile by IBC 2018, eq. 16-34: {q_h_words(run)}."
        yield f"Of that equation's eight conditions {counts}: report.html lists them."
    yield from covering.sentences


def covering_rows(run: Run) -> list[Cells]:
    """Where, what, demand, resistance."""
    rows: list[Cells] = []
    for d in run.cover.covering.demands:
        held = NOT_GIVEN if d.holds is None else f"{d.holds:g} {d.unit}{'' if d.enough else ' TOO SMALL'}"
        rows.append((d.where, d.what, f"{d.value:.1f} {d.unit}", held))
    return rows or [("every zone", run.cover.covering.name, "see report", NOT_GIVEN)]
