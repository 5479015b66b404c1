"""Good plans damaged at random: built whole or refused in one line, never anything else."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from typer.testing import CliRunner

from export.cli import app
from export.outputs import OUTPUTS
from parts.plans import SMALL, damaged

SAMPLES = Path(__file__).parents[2] / "sample_plans"


def check_damage(tmp_path: Path, data: st.DataObject, good: str) -> None:
    plan, out = tmp_path / "damaged.toml", tmp_path / "damaged-out"
    if out.exists():
        for path in out.iterdir():
            path.unlink()
        out.rmdir()
    plan.write_bytes(damaged(data, good))
    result = CliRunner().invoke(app, ["build", str(plan)])
    assert result.exit_code in {0, 1, 2}, result.stderr
    assert "Traceback" not in result.stderr
    if result.exit_code == 2:
        assert result.stderr.count("\n") == 1
        assert result.stderr.startswith("strapline: ")
        assert not out.exists()
    else:
        assert {path.name for path in out.iterdir()} == set(OUTPUTS)
    assert not list(tmp_path.glob(".*"))


@pytest.mark.slow
@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.data())
def test_a_damaged_plan_is_built_whole_or_refused_in_one_line(tmp_path: Path, data: st.DataObject) -> None:
    check_damage(tmp_path, data, SMALL)


@pytest.mark.full
@pytest.mark.parametrize("name", ["cottage", "hip_house", "garage_wing"])
@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.data())
def test_damaged_sample_plans_are_built_whole_or_refused_in_one_line(
    tmp_path: Path, name: str, data: st.DataObject
) -> None:
    catalogue = f"{name}_anchors.csv"
    (tmp_path / catalogue).write_bytes((SAMPLES / catalogue).read_bytes())
    check_damage(tmp_path, data, (SAMPLES / f"{name}.toml").read_text())
