"""The deck, the covering and the water barrier, zone by zone from the wind of this report."""

from __future__ import annotations

from collections.abc import Iterator

from export.deck_plan.words import q_h_words
from export.report.markup import bullets, coefficient, esc, num, paragraph, section, table
from framing.deck.covering import NOT_GIVEN, Demand
from framing.deck.deck import Deck, DeckChoice, ZoneNailing
from framing.deck.nailing import Nailing
from framing.deck.water import ways_note
from framing.run import Run

ASK = "not said: ask the truss plant and write it in [deck]"


def roof_cover(run: Run) -> str:
    """Demand first; what holds it where the plan or the approvals say it, else the question."""
    return section("cover", "Deck, covering and water barrier", *_parts(run))


def _parts(run: Run) -> Iterator[str]:
    deck, covering = run.cover.deck, run.cover.covering
    yield paragraph(
        "Suction square to the slope by components and cladding at 10 sq ft, allowable-stress level: 0.6 x q "
        "K_d x (GC_p "
        f"- GC_pi), q K_d = {deck.q_K_d_psf:.2f} psf; over open air GC_p holds roof and soffit together and nothing "
        "pushes from inside (ASCE 7-22, eq. 30.3-1; figures marked as in the list of what is not yet confirmed)."
    )
    yield _zones(deck)
    yield "<h3>Nails of the deck</h3>"
    yield from _nails(run, deck)
    yield f"<h3>Covering: {esc(covering.name)}</h3>"
    yield _demands(run)
    if covering.limits:
        rows = [
            (esc(x.words), esc(x.said), {True: "holds", False: "does not hold", None: "open"}[x.holds])
            for x in covering.limits
        ]
        yield paragraph("What the equation asks of a tile before it may be used (IBC 2018, sec. 1609.5.3):")
        yield table(("condition", "your file says", ""), rows)
    yield bullets(covering.sentences)
    yield "<h3>Water barrier under it</h3>"
    yield _water(run)


def _zones(deck: Deck) -> str:
    rows = [
        (
            esc(z.name),
            esc(z.zone.partition(", ")[2]),
            coefficient(z.outside_factor),
            coefficient(-z.inside_factor) if z.inside_factor else "0",
            num(z.suction_psf, 1),
            num(z.area_ft2, 0),
        )
        for z in deck.zones
    ]
    return table(("zone", "read for", "GC_p#", "- GC_pi#", "suction, psf#", "sq ft on the slope#"), rows, name="zones")


def _nails(run: Run, deck: Deck) -> Iterator[str]:
    spec = run.plan.trades.deck
    yield bullets(
        f"{words}: {value or ASK}"
        for words, value in (("panel", spec.panel), ("nail", spec.nail), ("wood of the top chords", spec.chord_species))
    )
    for choice, lines in ((deck.choice, deck.nailings), *deck.beside):
        if choice is not None and (choice is deck.choice or deck.choice is None or choice.panel != deck.choice.panel):
            yield paragraph(_choice_words(choice, "As planned" if choice is deck.choice else "Beside it"))
            yield table(
                ("zone", "on each truss, plf#", "nails at most, in.#", "of 12, 8, 6, 4, 3#", "nailed#", "gable end#"),
                [_line(n) for n in lines],
            )
    own = [("edges", spec.edge_in), ("field", spec.field_in), ("zone 3", spec.zone_3_in)]
    yield paragraph(
        "Your code's own schedule, to be read by you: "
        + ", ".join(f"{where} {f'{inches:g} in.' if inches else '______ in.'}" for where, inches in own)
        + " The closer of it and of the demand is nailed. Nails lose most of their hold in withdrawal where "
        "wet wood dries."
    )


def _choice_words(choice: DeckChoice, begins: str) -> str:
    s, p = choice.strength, choice.panel_strength
    bends = (
        f"The panel holds {p.bending_psf:.1f} psf in bending and {p.shear_psf:.1f} in shear between trusses, "
        "and sags by a "
        f"240th at {p.stiffness_psf:.1f} psf."
        if p.bending_psf is not None and p.shear_psf is not None and p.stiffness_psf is not None
        else f"Strengths of the panel rated {choice.panel.rating}: {NOT_GIVEN}; read its stamp."
    )
    return (
        f"{begins}: {choice.panel.name}, {choice.nail.name}, {choice.wood.name}. One nail holds "
        f"{s.withdrawal_lb:.1f} lb "
        f"({s.penetration_in:.2f} in. deep, pulled out of the chord) or {s.head_lb:.1f} lb (pulled through the panel); "
        f"{s.allowable_lb:.1f} lb governs: {s.mode} (NDS 2018, sec. 12.2; constants marked as not yet "
        f"confirmed). {bends}"
    )


def _line(n: ZoneNailing) -> tuple[str, ...]:
    gable = "" if n.gable is None else f"{_nailed(n.gable)}, {n.gable_plf:.0f} plf"
    exact = num(n.truss.exact_in, 1)
    in_table = "closer than 3" if n.truss.table_in is None else num(n.truss.table_in, 0)
    return (esc(n.zone.name), num(n.truss_plf, 0), exact, in_table, _nailed(n.truss), gable)


def _nailed(line: Nailing) -> str:
    if line.spacing_in is None:
        return "ask the engineer"
    return f"{line.spacing_in:g} in.{' (your code)' if line.by_user else ''}"


def _demands(run: Run) -> str:
    covering = run.cover.covering
    said = f"{q_h_words(run)}. Resistances are those of your approvals file, nothing of ours."
    if not covering.demands:
        return paragraph(said)
    rows = [(esc(d.where), esc(d.what), f"{d.value:.1f} {esc(d.unit)}", _held(d)) for d in covering.demands]
    return paragraph(said) + table(("where", "what", "demand#", "resistance"), rows)


def _held(d: Demand) -> str:
    if d.holds is None:
        return NOT_GIVEN
    return f"{d.holds:g} {esc(d.unit)} ({esc(d.approval) or 'your file'}){'' if d.enough else ': TOO SMALL'}"


def _water(run: Run) -> str:
    ways = [
        f"Way {k}: {s.words}. {s.material_ft2:,.0f} sq ft of sheet with its laps"
        + (f", {s.cap_nails:,} cap nails" if s.cap_nails else ", no cap nails")
        + f" ({s.source}; {s.mark})."
        for k, s in enumerate(run.cover.systems, 1)
    ]
    holes = [
        f"{p.way}: {f'{p.count:,} fasteners through it' if p.count is not None else f'no count without {p.why}'}."
        for p in run.cover.penetrations
    ]
    return (
        paragraph("Ways that public text allows; your code's own list governs. One is chosen.")
        + bullets([*ways, ways_note(run.plan.wind.speed_mph)])
        + paragraph("How often the covering's fasteners go through it: a count, not a claim.")
        + bullets(holes)
    )
