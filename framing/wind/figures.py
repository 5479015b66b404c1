"""Plan + roof -> the governing wind figures, each with its clause."""

from __future__ import annotations

from dataclasses import dataclass

from framing.asce7.chapter26 import K_e, K_zt_at
from framing.asce7.chapter27 import G
from framing.asce7.edition import Procedure, edition
from framing.plan import MwfrsProcedure, Plan
from framing.roof.surface import Roof
from framing.wind.edge_widths import EdgeWidths

EQUATIONS = {Procedure.ENVELOPE: "28.3-1", Procedure.DIRECTIONAL: "27.3-1", Procedure.CLADDING: "30.3-1"}


@dataclass(frozen=True, slots=True, kw_only=True)
class WindFigure:
    """One line of the wind arithmetic: symbol, value, unit and the clause it comes from."""

    symbol: str
    meaning: str
    value: float
    unit: str
    source: str


def wind_figures(plan: Plan, roof: Roof, widths: EdgeWidths) -> tuple[WindFigure, ...]:
    """The governing wind figures of a house, in the order of the arithmetic."""
    wind, h = plan.wind, widths.h_ft
    ed = wind.edition.value
    elevation = float(K_e(wind.ground_elevation_ft))
    plus, minus = edition(wind.edition).GC_pi(wind.enclosure)

    def figure(symbol: str, meaning: str, value: float, unit: str, source: str) -> WindFigure:
        return WindFigure(symbol=symbol, meaning=meaning, value=value, unit=unit, source=f"{ed}, {source}")

    gust = [figure("G", "gust-effect factor of a rigid building", G, "", "sec. 26.11.1")]
    return (
        figure("V", "basic wind speed, ultimate 3-second gust", wind.speed_mph, "mph", "sec. 26.5 (input)"),
        figure("theta", "roof slope", plan.roof.theta_deg, "deg", "fig. 28.3-1 notation"),
        figure("eave height", "ground to the roof plane over the wall face", roof.eave_height_ft, "ft", "sec. 26.2"),
        figure("h", "mean roof height (eave height up to 10 degrees)", h, "ft", "sec. 26.2"),
        figure("a", "edge width of the pressure zones", widths.a_ft, "ft", "fig. 28.3-1 and 30.3-2 notation"),
        figure("K_zt", "topographic factor at h, every direction", K_zt_at(wind, h), "", "sec. 26.8.2, eq. 26.8-1"),
        figure("K_e", "ground elevation factor", elevation, "", "sec. 26.9, table 26.9-1 note"),
        *_velocity_pressures(plan, h),
        *(gust if wind.mwfrs_procedure is MwfrsProcedure.DIRECTIONAL else []),
        figure("GC_pi +", "internal pressure coefficient, outward", plus, "", "table 26.13-1"),
        figure("GC_pi -", "internal pressure coefficient, inward", minus, "", "table 26.13-1"),
    )


def _velocity_pressures(plan: Plan, h_ft: float) -> list[WindFigure]:
    """K_z and q K_d of the main frame's procedure and of the cladding."""
    wind, out = plan.wind, []
    code = edition(wind.edition)
    for procedure, what in ((Procedure(wind.mwfrs_procedure), "main frame"), (Procedure.CLADDING, "cladding")):
        note = " with the footnote for chapter 28" if procedure is Procedure.ENVELOPE else ""
        out += [
            WindFigure(
                symbol=f"K_z {procedure}",
                meaning=f"exposure coefficient at h, {what}",
                value=code.K_z_of(h_ft, wind.exposure, procedure),
                unit="",
                source=f"{wind.edition.value}, table 26.10-1{note}",
            ),
            WindFigure(
                symbol=f"q K_d {procedure}",
                meaning=f"velocity pressure times K_d 0.85, {what}",
                value=code.q_K_d_psf(wind, h_ft, procedure),
                unit="psf",
                source=f"{wind.edition.value}, eq. 26.10-1 and {EQUATIONS[procedure]}",
            ),
        ]
    return out
