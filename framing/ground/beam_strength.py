"""Plan -> what the tie beam carries with the plan's own bars, and what the plan does not say for it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from framing.errors import PlanError
from framing.ground import reinforced_concrete as concrete
from framing.ground.reinforced_concrete import Section
from framing.plan import Plan
from framing.plan_masonry import Bars, Stirrups
from framing.tolerances import ROUNDING
from framing.units import feet_inches, inches

CONCRETE_PCF = 150.0
BLOCK_JOINT_IN = 0.375
LEAST_DEPTH_IN = 1.0
USUAL_TIE = 3  # where no stirrups are named the bars still lie behind a tie of this number
TAKEN_BARS = Bars(count=1, number=5)
TAKEN_F_C_PSI = 2500.0
TAKEN_COVER_FT = 1.5 / 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamStrength:
    """What the beam carries at strength level; None where the plan does not say enough.

    `top` and `bottom` are the sections in tension there with their design moments, `shear_lb` phi V_n. `faults` say
    what is wrong with the bars whatever pulls, `stirrups_count` whether the plan's stirrups do.
    """

    top: Section | None
    bottom: Section | None
    top_ft_lb: float | None
    bottom_ft_lb: float | None
    shear_lb: float | None
    stirrups_count: bool
    faults: tuple[str, ...]
    missing: tuple[str, ...]

    def ratio(self, top_ft_lb: float, bottom_ft_lb: float, shear_lb: float) -> float | None:
        """The largest of demand over strength, strength level; None where one of the three is not known."""
        if self.top_ft_lb is None or self.bottom_ft_lb is None or self.shear_lb is None:
            return None
        return max(top_ft_lb / self.top_ft_lb, bottom_ft_lb / self.bottom_ft_lb, shear_lb / self.shear_lb)

    def lacks_least_steel(self, top_ft_lb: float, bottom_ft_lb: float) -> tuple[str, ...]:
        """At which faces the bars are under the least of a beam for these moments."""
        found = ((self.top, top_ft_lb, "top"), (self.bottom, bottom_ft_lb, "bottom"))
        return tuple(
            f"its {face} bars are under the least steel of a beam ({concrete.least_steel_in2(section):.2f} sq in.) and "
            "under a third more than the pull asks for"
            for section, moment, face in found
            if section is not None and not concrete.has_least_steel(section, moment)
        )


def beam_weight_plf(plan: Plan) -> float:
    """The tie beam's own weight. [plf]

    By 150 pcf and the block module. Source: common practice, no source.
    """
    beam = plan.tie_beam
    return (beam.nominal_width_in - BLOCK_JOINT_IN) * (beam.nominal_depth_in - BLOCK_JOINT_IN) / 144.0 * CONCRETE_PCF


def beam_strength(plan: Plan) -> BeamStrength:
    """The strength with what the plan gives.

    Raises
    ------
    PlanError
        If the cover leaves the bars no depth.
    """
    steel = plan.masonry.steel
    named = {
        "tie_beam.top_bars": steel.top_bars,
        "tie_beam.bottom_bars": steel.bottom_bars,
        "tie_beam.f_c_psi": steel.f_c_psi,
        "tie_beam.cover": steel.cover_ft,
    }
    missing = tuple(key for key, value in named.items() if value is None)
    top = _section(plan, steel.top_bars, steel.stirrups, steel.f_c_psi, steel.cover_ft)
    bottom = _section(plan, steel.bottom_bars, steel.stirrups, steel.f_c_psi, steel.cover_ft)
    faults = [*_too_much_steel(plan, top, "top"), *_too_much_steel(plan, bottom, "bottom")]
    shear, counts = None, False
    if top is not None and bottom is not None:
        weaker = min(top, bottom, key=concrete.concrete_shear_318_19_lb)
        shear, counts, wrong = _shear(weaker, steel.stirrups)
        faults += wrong
    return BeamStrength(
        top=top,
        bottom=bottom,
        top_ft_lb=concrete.design_moment_ft_lb(top) if top else None,
        bottom_ft_lb=concrete.design_moment_ft_lb(bottom) if bottom else None,
        shear_lb=shear,
        stirrups_count=counts,
        faults=tuple(faults),
        missing=missing,
    )


def taken_strength(plan: Plan) -> BeamStrength:
    """The strength with one #5 at top and bottom, 2,500 psi and 1 1/2 in. of cover wherever the plan does not say: for
    the spacing of cells that would be needed, never for a pass.

    Source: common practice, no source.
    """
    steel = plan.masonry.steel
    filled = replace(
        steel,
        top_bars=steel.top_bars or TAKEN_BARS,
        bottom_bars=steel.bottom_bars or TAKEN_BARS,
        f_c_psi=steel.f_c_psi or TAKEN_F_C_PSI,
        cover_ft=TAKEN_COVER_FT if steel.cover_ft is None else steel.cover_ft,
    )
    return beam_strength(replace(plan, masonry=replace(plan.masonry, steel=filled)))


def effective_depth_ft(plan: Plan) -> float | None:
    """To the top bars from the beam's underside; None where bars or cover are not said. [ft]"""
    steel = plan.masonry.steel
    section = _section(plan, steel.top_bars, steel.stirrups, steel.f_c_psi or TAKEN_F_C_PSI, steel.cover_ft)
    return section.effective_depth_in / 12.0 if section else None


def _section(
    plan: Plan, bars: Bars | None, stirrups: Stirrups | None, f_c_psi: float | None, cover_ft: float | None
) -> Section | None:
    if bars is None or f_c_psi is None or cover_ft is None:
        return None
    depth_in = plan.tie_beam.nominal_depth_in - BLOCK_JOINT_IN
    tie_in = concrete.bar_diameter_in(stirrups.number if stirrups else USUAL_TIE)
    effective_in = depth_in - 12.0 * cover_ft - tie_in - concrete.bar_diameter_in(bars.number) / 2.0
    if effective_in < LEAST_DEPTH_IN:
        raise PlanError(
            f"tie_beam cover: {inches(cover_ft)} leaves the bars no depth in an {plan.tie_beam.name} tie beam; write "
            "less cover or a deeper beam"
        )
    return Section(
        width_in=plan.tie_beam.nominal_width_in - BLOCK_JOINT_IN,
        effective_depth_in=effective_in,
        depth_in=depth_in,
        steel_in2=bars.count * concrete.bar_area_in2(bars.number),
        f_c_psi=f_c_psi,
    )


def _too_much_steel(plan: Plan, section: Section | None, face: str) -> tuple[str, ...]:
    if section is None or concrete.tension_strain_ratio(section) >= concrete.least_tension_strain_ratio():
        return ()
    return (
        f"the {face} bars are too many for an {plan.tie_beam.name}: the concrete would crush before they yield; "
        "take fewer bars or a deeper beam",
    )


def _shear(section: Section, stirrups: Stirrups | None) -> tuple[float, bool, tuple[str, ...]]:
    """The design shear phi V_n, whether the stirrups count in it, and what is wrong with them."""
    alone = concrete.shear_without_stirrups_lb(section)
    if stirrups is None:
        return alone, False, ()
    legs_in2, spacing_in = 2.0 * concrete.bar_area_in2(stirrups.number), 12.0 * stirrups.spacing_ft
    most = concrete.largest_stirrup_spacing_in(section)
    if spacing_in > most + ROUNDING:
        far = f"the stirrups at {feet_inches(stirrups.spacing_ft)} stand farther apart than half the depth to the bars"
        return alone, False, (f"{far} ({most:.1f} in.) and count for nothing",)
    if legs_in2 < concrete.least_stirrup_in2(section, spacing_in):
        return alone, False, ("the stirrups are under the least area of a beam and count for nothing",)
    return concrete.shear_with_stirrups_lb(section, legs_in2, spacing_in), True, ()
