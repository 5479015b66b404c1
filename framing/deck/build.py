"""Plan + roof + wind + approvals -> RoofCover: deck, covering and water barrier together."""

from __future__ import annotations

from dataclasses import dataclass

from framing.asce7.edition import Edition
from framing.deck.approvals import Approvals
from framing.deck.covering import Covering, build_covering, kind_of
from framing.deck.deck import Deck, build_deck
from framing.deck.panel_count import PanelCount, count_panels
from framing.deck.water import Penetrations, System, penetrations, systems
from framing.plan import Plan
from framing.roof.lines import LineKind
from framing.roof.surface import Roof
from framing.wind.edge_widths import EdgeWidths
from framing.wind.patches import Patches


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofCover:
    """What lies on the trusses: the deck, the covering, the water barrier between them, and what the user's approvals
    say of them. `flags` make the exit code 1.
    """

    deck: Deck
    panels: PanelCount
    covering: Covering
    systems: tuple[System, ...]
    penetrations: tuple[Penetrations, ...]
    approvals: Approvals

    @property
    def flags(self) -> tuple[str, ...]:
        """What is given and does not hold."""
        return self.deck.flags + self.covering.flags


def build_roof_cover(
    plan: Plan, edition: Edition, roof: Roof, patches: Patches, widths: EdgeWidths, approvals: Approvals
) -> RoofCover:
    """Everything about what lies on the trusses.

    Raises
    ------
    PlanError
        If the plan names a panel, a nail or a wood that is not known here.
    """
    deck = build_deck(plan, edition, roof, patches, widths)
    panels = count_panels(roof, plan.trusses.spacing_ft)
    kind = kind_of(plan.roof.covering)
    lengths = {k: sum(line.length_ft for line in roof.lines if line.kind is k) for k in LineKind}
    caps_ft = lengths[LineKind.RIDGE] + lengths[LineKind.HIP]
    return RoofCover(
        deck=deck,
        panels=panels,
        covering=build_covering(plan, edition, widths, deck.zones, approvals),
        systems=systems(kind, panels.area_ft2, panels.joints_ft, approvals),
        penetrations=penetrations(kind, panels.area_ft2, lengths[LineKind.EAVE], caps_ft, approvals),
        approvals=approvals,
    )
