"""Hand checks of a page-by-page audit.

Source: public audit of an ASCE 7-16 calculator against the printed ASCE 7-16: p. 268 (table 26.10-1), hand checks of
q_h with K_d 0.85 inside: K_z(20 ft, C) = 0.90 at 115 mph: 25.90 psf; K_z(18 ft, B) = 0.605 at 130 mph: 22.27 psf;
and the base shear of a building of h = 18 ft in Exposure B at 130 mph by the envelope procedure: 13,894 lb with
K_z = 0.605, 16,063 lb with the 0.70 that the table's footnote asks for in chapter 28.
"""

from __future__ import annotations

import pytest

from framing.asce7.edition_2016 import K_z, K_z_envelope, q_z_psf
from framing.plan import Exposure


def test_W10_velocity_pressure_at_20_ft_in_exposure_C() -> None:
    assert K_z(20.0, Exposure.C) == pytest.approx(0.90, abs=5e-3)
    assert q_z_psf(0.90, 1.0, 1.0, 115.0) == pytest.approx(25.90, abs=5e-3)


def test_W10_velocity_pressure_at_18_ft_in_exposure_B() -> None:
    assert K_z(18.0, Exposure.B) == pytest.approx(0.605, abs=5e-4)
    assert q_z_psf(K_z(18.0, Exposure.B), 1.0, 1.0, 130.0) == pytest.approx(22.27, abs=1e-2)


def test_p_268_the_floor_of_the_envelope_procedure_raises_the_base_shear_as_printed() -> None:
    printed = 16063.0 / 13894.0
    assert K_z_envelope(18.0, Exposure.B) / K_z(18.0, Exposure.B) == pytest.approx(printed, rel=1e-3)
