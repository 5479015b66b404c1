"""The directional procedure's coefficients, every entry.

Source: American Society of Civil Engineers, ASCE/SEI 7-22, figure 27.3-1 (ASCE/SEI 7-16, p. 275 and 276, the same), as
read in a machine-read copy of the figure, a page-by-page audit against the printed 7-16 and four other public texts
that agree; no printed page was read. Figures in data/asce_fig_27_3_1_windward_roof.csv and ..._rows.csv.
"""

from __future__ import annotations

import pytest

from framing.asce7 import chapter27
from published.figures import figures

WINDWARD = [
    pytest.param(float(row["h_over_L"]), float(key[:-1]), key[-1], row[key], id=f"h/L {row['h_over_L']}, {key}")
    for row in figures("asce_fig_27_3_1_windward_roof")
    for key in row
    if key != "h_over_L"
]
ROWS = [
    pytest.param(r["what"], float(r["at"]), r["h_over_L"], float(r["value"]), id=" ".join(list(r.values())[:3]))
    for r in figures("asce_fig_27_3_1_rows")
]


@pytest.mark.parametrize(("h_over_L", "theta_deg", "value", "printed"), WINDWARD)
def test_the_windward_roof_s_entry_is_given_at_its_own_slope_and_height(
    h_over_L: float, theta_deg: float, value: str, printed: str
) -> None:
    """A blank has no value: 0.0 stands there, as the figure has it for interpolation elsewhere."""
    ours = chapter27.C_p_windward_roof(theta_deg, h_over_L, 0.0)["ab".index(value)]
    assert ours == pytest.approx(float(printed.rstrip("*") or 0.0), abs=1e-12)


@pytest.mark.parametrize(("what", "at", "h_over_L", "printed"), ROWS)
def test_the_other_rows_entry_is_given_at_its_own_place(what: str, at: float, h_over_L: str, printed: float) -> None:
    ratio = float(h_over_L or 0.0)
    ours = {
        "leeward wall L/B": lambda: chapter27.C_p_leeward_wall(at),
        "leeward roof theta": lambda: chapter27.C_p_leeward_roof(at, ratio),
        "along distance/h": lambda: float(chapter27.C_p_parallel_roof(10.0 * at, 10.0, ratio, 0.0)[0]),
        "area factor": lambda: chapter27.area_reduction(at),
    }[what]()
    assert ours == pytest.approx(printed, abs=1e-12)


def test_walls_over_60_degrees_and_the_other_value_along_the_wind() -> None:
    assert (chapter27.C_P_WINDWARD_WALL, chapter27.C_P_SIDE_WALL) == (0.8, -0.7)
    assert chapter27.C_p_parallel_roof(5.0, 10.0, 0.5, 0.0)[1] == -0.18
    over_60 = [chapter27.C_p_windward_roof(theta, 0.5, 0.0)[1] for theta in (60.0, 70.0, 80.0, 85.0)]
    assert over_60 == pytest.approx([0.6, 0.7, 0.8, 0.8])
