"""ACI 318: what a rectangular reinforced section carries, a function per clause; TMS 402 for the bar in a filled cell.

Where the editions 318-14 and 318-19 differ the smaller figure holds. All clauses from memory of the codes; their
figures are checked by tests/published/test_tie_beam_capacity.py.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

PHI_FLEXURE, PHI_SHEAR = 0.9, 0.75
STRAIN_OF_CONCRETE = 0.003
GRADE_60_PSI = 60_000.0
MODULUS_OF_STEEL_PSI = 29_000_000.0
SHALLOW_BEAM_IN = 10.0
LARGEST_STIRRUP_SPACING_IN = 24.0

# ASTM A615 areas by bar number. Source: from memory. [in2]
_AREA_IN2 = {3: 0.11, 4: 0.20, 5: 0.31, 6: 0.44, 7: 0.60, 8: 0.79, 9: 1.00, 10: 1.27, 11: 1.56}


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A rectangular section with its tension bars: width, effective depth to the bars and whole depth, all inches."""

    width_in: float
    effective_depth_in: float
    depth_in: float
    steel_in2: float
    f_c_psi: float


def bar_area_in2(number: int) -> float:
    """Area of one bar of that number. [in2]

    Source: from memory (ASTM A615).
    """
    return _AREA_IN2[number]


def bar_diameter_in(number: int) -> float:
    """Diameter of one bar: its number in eighths. [in]

    Source: from memory (ASTM A615).
    """
    return number / 8.0


def stress_block_in(section: Section) -> float:
    """Depth a of the stress block. [in]

    Source: ACI 318-19, sec. 22.2.2.4.1 (from memory).
    """
    return section.steel_in2 * GRADE_60_PSI / (0.85 * section.f_c_psi * section.width_in)


def beta_1_ratio(f_c_psi: float) -> float:
    """Stress block over neutral axis: 0.85 to 4,000 psi, 0.05 less for every 1,000 psi more, never under 0.65.

    Source: ACI 318-19, table 22.2.2.4.3 (from memory).
    """
    return min(0.85, max(0.65, 0.85 - 0.05 * (f_c_psi - 4000.0) / 1000.0))


def tension_strain_ratio(section: Section) -> float:
    """Strain of the bars when the concrete crushes.

    Source: ACI 318-19, sec. 22.2.1.2 and 22.2.2.1 (from memory).
    """
    axis_in = stress_block_in(section) / beta_1_ratio(section.f_c_psi)
    return STRAIN_OF_CONCRETE * (section.effective_depth_in - axis_in) / axis_in


def least_tension_strain_ratio() -> float:
    """The strain that the bars of a beam must reach: yield and 0.003 more (318-14 let 0.004 do at a smaller phi).

    Source: ACI 318-19, sec. 9.3.3.1 (from memory).
    """
    return GRADE_60_PSI / MODULUS_OF_STEEL_PSI + STRAIN_OF_CONCRETE


def design_moment_ft_lb(section: Section) -> float:
    """The design value phi M_n of a section whose bars yield, phi = 0.9. [ft-lb]

    Source: ACI 318-19, sec. 22.3 and table 21.2.2 (from memory).
    """
    arm_in = section.effective_depth_in - stress_block_in(section) / 2.0
    return PHI_FLEXURE * section.steel_in2 * GRADE_60_PSI * arm_in / 12.0


def required_steel_in2(section: Section, moment_ft_lb: float) -> float:
    """The bars that would just carry a moment, whatever the section holds; infinite where none would do. [in2]

    Source: ACI 318-19, sec. 22.3 (from memory), solved for the steel.
    """
    block_psi = 0.85 * section.f_c_psi * section.width_in
    inside = section.effective_depth_in**2 - 24.0 * moment_ft_lb / (PHI_FLEXURE * block_psi)
    return block_psi * (section.effective_depth_in - math.sqrt(inside)) / GRADE_60_PSI if inside >= 0.0 else math.inf


def least_steel_in2(section: Section) -> float:
    """The least tension bars of a beam. [in2]

    Source: ACI 318-19, sec. 9.6.1.2 (from memory).
    """
    psi = max(3.0 * math.sqrt(section.f_c_psi), 200.0)
    return psi / GRADE_60_PSI * section.width_in * section.effective_depth_in


def has_least_steel(section: Section, moment_ft_lb: float) -> bool:
    """Whether the bars are the least of a beam, or a third more than the moment asks for.

    Source: ACI 318-19, sec. 9.6.1.3 (from memory).
    """
    least = least_steel_in2(section)
    return section.steel_in2 >= min(least, 4.0 / 3.0 * required_steel_in2(section, moment_ft_lb))


def concrete_shear_318_14_lb(section: Section) -> float:
    """The design value phi V_c by the older edition, also the newer's with the least stirrups. [lb]

    Source: ACI 318-14, sec. 22.5.5.1 (from memory).
    """
    return PHI_SHEAR * 2.0 * math.sqrt(section.f_c_psi) * section.width_in * section.effective_depth_in


def concrete_shear_318_19_lb(section: Section) -> float:
    """The design value phi V_c without stirrups by the newer edition, with its size factor. [lb]

    Source: ACI 318-19, table 22.5.5.1 and sec. 22.5.5.1.3 (from memory).
    """
    size = min(1.0, math.sqrt(2.0 / (1.0 + section.effective_depth_in / 10.0)))
    steel = section.steel_in2 / (section.width_in * section.effective_depth_in)
    area_in2 = section.width_in * section.effective_depth_in
    return PHI_SHEAR * 8.0 * size * math.cbrt(steel) * math.sqrt(section.f_c_psi) * area_in2


def shear_without_stirrups_lb(section: Section) -> float:
    """The shear from which on a beam needs stirrups: over half of phi V_c (318-14), over phi sqrt(f'c) b d (318-19),
    the same figure, but for a beam up to 10 in. deep; and never more than the concrete carries. [lb]

    Source: ACI 318-19, sec. 9.6.3.1 (from memory).
    """
    carried = min(concrete_shear_318_14_lb(section), concrete_shear_318_19_lb(section))
    exempt = section.depth_in <= SHALLOW_BEAM_IN
    return carried if exempt else min(carried, concrete_shear_318_14_lb(section) / 2.0)


def largest_stirrup_spacing_in(section: Section) -> float:
    """How far apart stirrups may stand: half the effective depth, 24 in. at most. [in]

    Source: ACI 318-19, table 9.7.6.2.2 (from memory).
    """
    return min(section.effective_depth_in / 2.0, LARGEST_STIRRUP_SPACING_IN)


def least_stirrup_in2(section: Section, spacing_in: float) -> float:
    """The least area of both legs of a stirrup. [in2]

    Source: ACI 318-19, table 9.6.3.4 (from memory).
    """
    psi = max(0.75 * math.sqrt(section.f_c_psi), 50.0)
    return psi * section.width_in * spacing_in / GRADE_60_PSI


def shear_with_stirrups_lb(section: Section, legs_in2: float, spacing_in: float) -> float:
    """The design value phi (V_c + V_s), the stirrups' part never over 8 sqrt(f'c) b d. [lb]

    Source: ACI 318-19, sec. 22.5.1.1, 22.5.1.2 and 22.5.8.5.3 (from memory).
    """
    area_in2 = section.width_in * section.effective_depth_in
    stirrups = legs_in2 * GRADE_60_PSI * section.effective_depth_in / spacing_in
    most = 8.0 * math.sqrt(section.f_c_psi) * area_in2
    return concrete_shear_318_14_lb(section) + PHI_SHEAR * min(stirrups, most)


def cell_bar_tension_lb(number: int) -> float:
    """What one Grade 60 bar in a filled cell may be pulled with, allowable-stress level: 32,000 psi. [lb]

    Source: TMS 402-16, sec. 8.3.3.1 (from memory).
    """
    return 32_000.0 * bar_area_in2(number)
