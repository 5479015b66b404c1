"""Sideways -> the tie beam bent between the walls that hold it, beside the plan's own bars; and what is to be asked.

Without the bars the span is a question, never a pass. The bars at one face are half of those at top and bottom.
"""

from __future__ import annotations

from dataclasses import dataclass

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.ground import reinforced_concrete as concrete
from framing.ground.beam_strength import BLOCK_JOINT_IN, USUAL_TIE
from framing.ground.reinforced_concrete import Section
from framing.plan import Plan
from framing.sideways.at_the_tops import AtTheTops, BeamSpan
from framing.sideways.pushes import Sideways
from framing.units import feet_inches


@dataclass(frozen=True, slots=True, kw_only=True)
class BentSideways:
    """A span of the tie beam bent square to its wall: what it asks at strength level and what its bars carry, None
    where the plan does not say them.
    """

    span: BeamSpan
    moment_ft_lb: float
    carries_ft_lb: float | None

    @property
    def ratio(self) -> float | None:
        """Demand over strength."""
        return None if not self.carries_ft_lb else self.moment_ft_lb / self.carries_ft_lb


def bent_sideways(plan: Plan, tops: AtTheTops) -> tuple[BentSideways, ...]:
    """Every span of the beam that holds the tops of the walls.

    Source: ACI 318-19, sec. 22.2 (from memory); own derivation: tests/statics/test_sideways.py.
    """
    carries = _carries_ft_lb(plan)
    return tuple(
        BentSideways(span=s, moment_ft_lb=s.moment_ft_lb / ASD_UPLIFT.wind_factor, carries_ft_lb=carries)
        for s in tops.spans
    )


def _carries_ft_lb(plan: Plan) -> float | None:
    """The design moment square to the wall; 0 where no bar stands at either face, None where bars are not said."""
    steel = plan.masonry.steel
    if steel.top_bars is None or steel.bottom_bars is None or steel.f_c_psi is None or steel.cover_ft is None:
        return None
    bars = (steel.top_bars, steel.bottom_bars)
    area = sum(b.count // 2 * concrete.bar_area_in2(b.number) for b in bars)
    if not area:
        return 0.0
    tie = concrete.bar_diameter_in(steel.stirrups.number if steel.stirrups else USUAL_TIE)
    thickest = max(concrete.bar_diameter_in(b.number) for b in bars)
    wide = plan.tie_beam.nominal_width_in - BLOCK_JOINT_IN
    section = Section(
        width_in=plan.tie_beam.nominal_depth_in - BLOCK_JOINT_IN,
        effective_depth_in=wide - 12.0 * steel.cover_ft - tie - thickest / 2.0,
        depth_in=wide,
        steel_in2=area,
        f_c_psi=steel.f_c_psi,
    )
    return concrete.design_moment_ft_lb(section)


def beam_flags(plan: Plan, tops: AtTheTops) -> tuple[str, ...]:
    """Spans that the plan's own bars do not carry sideways; these make the exit code 1."""
    return tuple(
        f"the tie beam of {b.span.wall} between {feet_inches(b.span.from_ft)} and {feet_inches(b.span.to_ft)} bends "
        f"sideways with {b.moment_ft_lb:,.0f} ft-lb at strength level, its bars carry {b.carries_ft_lb:,.0f}: add "
        "bars, a cross wall, or let the roof hold the tops of the walls"
        for b in bent_sideways(plan, tops)
        if b.carries_ft_lb is not None and b.moment_ft_lb > b.carries_ft_lb
    )


def tops_notes(plan: Plan, found: Sideways, tops: AtTheTops) -> tuple[str, ...]:
    """What is to be asked of the engineer about the tops of the walls, and no more than that."""
    out = [
        f"At the inside corner where {d.wall} ends the deck drags {d.force_lb:,.0f} lb (ASD) along its line over "
        f"{feet_inches(d.inside_ft)} inside, and no member runs there: ask the engineer for the collector."
        for d in tops.drags
        if not d.member
    ]
    for axis, words in ((0, "along W1"), (1, "square to W1")):
        n = len(found.deck.lines[axis])
        if n < 2:
            held = "one line of walls holds" if n else "no line of walls holds"
            out.append(f"{held.capitalize()} the roof {words}, so it turns about it: ask the engineer.")
    bent = bent_sideways(plan, tops)
    if bent and any(b.carries_ft_lb is None for b in bent):
        worst = max(bent, key=lambda b: b.moment_ft_lb)
        out.append(
            f"The tie beam holds the tops of the walls and bends sideways between the walls square to it, hardest at "
            f"{worst.span.wall} over {feet_inches(worst.span.length_ft)}: {worst.moment_ft_lb:,.0f} ft-lb at strength "
            "level. Say its bars, concrete and cover under [tie_beam], or ask the engineer."
        )
    return tuple(out)
