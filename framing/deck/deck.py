"""Plan + roof + wind -> Deck: what lifts each zone, what nails and panel hold, and how far apart the nails stand."""

from __future__ import annotations

from dataclasses import dataclass

from framing.asce7.edition import Edition
from framing.deck.nailing import Nailing, nailing
from framing.deck.nails import NailStrength, nail_strength
from framing.deck.panels import PanelStrength, panel_strength
from framing.deck.tables import Nail, Panel, Wood, nail_of, panel_of, wood_of
from framing.deck.zones import DeckZone, Part, deck_zones
from framing.plan import Plan
from framing.roof.surface import Roof
from framing.wind.edge_widths import EdgeWidths
from framing.wind.patches import Patches

USUAL_PANELS = ("15/32 plywood", "19/32 plywood")


@dataclass(frozen=True, slots=True, kw_only=True)
class DeckChoice:
    """One panel, nail and wood together and what they hold."""

    panel: Panel
    nail: Nail
    wood: Wood
    strength: NailStrength
    panel_strength: PanelStrength


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneNailing:
    """The nails of one zone: over every truss, and over a gable-end truss, where the rake's overhang hangs on the same
    line of nails (None where no gable stands in the zone). The line's load in pounds per foot.
    """

    zone: DeckZone
    truss_plf: float
    truss: Nailing
    gable_plf: float | None
    gable: Nailing | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Deck:
    """Everything about the deck. `choice` and `nailings` are None and empty where the plan does not say panel, nail and
    chords; `beside` are the plan's nail and wood with the two usual panels.
    """

    zones: tuple[DeckZone, ...]
    q_K_d_psf: float
    choice: DeckChoice | None
    nailings: tuple[ZoneNailing, ...]
    beside: tuple[tuple[DeckChoice, tuple[ZoneNailing, ...]], ...]
    flags: tuple[str, ...]

    @property
    def hardest(self) -> DeckZone:
        """The zone with the largest suction over rooms."""
        return max((z for z in self.zones if z.part is Part.ROOMS), key=lambda z: z.suction_psf)


def build_deck(plan: Plan, edition: Edition, roof: Roof, patches: Patches, widths: EdgeWidths) -> Deck:
    """The deck of a plan.

    Raises
    ------
    PlanError
        If the plan names a panel, a nail or a wood that is not known here; names those that are.
    """
    zones, q_psf = deck_zones(plan, edition, roof, patches, widths)
    spec = plan.trades.deck
    panel = panel_of(spec.panel, spec.rating) if spec.panel else None
    nail = nail_of(spec.nail) if spec.nail else None
    wood = wood_of(spec.chord_species) if spec.chord_species else None
    choice = _choice(plan, panel, nail, wood) if panel and nail and wood else None
    nailings = _nailings(plan, zones, choice) if choice else ()
    beside = []
    if nail and wood:
        for words in USUAL_PANELS:
            other = _choice(plan, panel_of(words, ""), nail, wood)
            beside.append((other, _nailings(plan, zones, other)))
    return Deck(
        zones=zones,
        q_K_d_psf=q_psf,
        choice=choice,
        nailings=nailings,
        beside=tuple(beside),
        flags=_flags(zones, choice, nailings),
    )


def _choice(plan: Plan, panel: Panel, nail: Nail, wood: Wood) -> DeckChoice:
    return DeckChoice(
        panel=panel,
        nail=nail,
        wood=wood,
        strength=nail_strength(nail, panel, wood),
        panel_strength=panel_strength(panel, 12.0 * plan.trusses.spacing_ft),
    )


def _nailings(plan: Plan, zones: tuple[DeckZone, ...], choice: DeckChoice) -> tuple[ZoneNailing, ...]:
    """A truss takes the deck half a bay to either side; a gable-end truss half a bay and the rake's overhang with the
    pressure of that zone's overhang.

    Source: own derivation: tests/statics/test_deck.py.
    """
    spacing_ft, rake_ft = plan.trusses.spacing_ft, plan.roof.rake_overhang_ft
    holds_lb = choice.strength.allowable_lb
    over = {z.zone: z.suction_psf for z in zones if z.part is Part.OVERHANG}
    out = []
    for zone in zones:
        truss_plf = zone.suction_psf * spacing_ft
        gable_plf = None
        if zone.part is Part.ROOMS and zone.zone in over and "gable" in zone.zone:
            gable_plf = zone.suction_psf * spacing_ft / 2.0 + over[zone.zone] * rake_ft
        user_in = _user_in(plan, zone)
        out.append(
            ZoneNailing(
                zone=zone,
                truss_plf=truss_plf,
                truss=nailing(truss_plf, holds_lb, user_in),
                gable_plf=gable_plf,
                gable=None if gable_plf is None else nailing(gable_plf, holds_lb, user_in),
            )
        )
    return tuple(out)


def _user_in(plan: Plan, zone: DeckZone) -> float | None:
    """The user's own schedule for a zone: the closest of what it gives for edges, field and zone 3."""
    spec = plan.trades.deck
    given = [spec.edge_in, spec.field_in, spec.zone_3_in if zone.number == "3" else None]
    known = [inches for inches in given if inches is not None]
    return min(known) if known else None


def _flags(
    zones: tuple[DeckZone, ...], choice: DeckChoice | None, nailings: tuple[ZoneNailing, ...]
) -> tuple[str, ...]:
    """Where given nails or a given panel do not hold; one sentence each."""
    flags = [
        f"Deck, {n.zone.name}: {line.exact_in:.1f} in. between nails would be needed {where}, closer than 3 in.; "
        "choose a thicker panel, another nail or denser chords, or ask the engineer."
        for n in nailings
        for line, where in ((n.truss, "over each truss"), (n.gable, "over the gable-end truss"))
        if line is not None and line.spacing_in is None
    ]
    most_psf = choice.panel_strength.allowable_psf if choice else None
    if choice and most_psf is not None:
        flags += [
            f"Deck, {z.name}: {z.suction_psf:.1f} psf is more than the {most_psf:.1f} psf that the {choice.panel.name} "
            "panel holds between trusses; choose a thicker panel or closer trusses, or ask the engineer."
            for z in zones
            if z.suction_psf > most_psf
        ]
    return tuple(flags)
