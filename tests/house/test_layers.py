"""The order of the flow, as pyproject.toml states it, holds."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from house.project import ROOT


def test_every_import_contract_is_kept() -> None:
    linter = Path(sys.executable).with_name("lint-imports")
    result = subprocess.run([linter, "--no-cache"], cwd=ROOT, capture_output=True, text=True, check=False)
    assert result.returncode == 0, result.stdout + result.stderr
