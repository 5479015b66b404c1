"""Reads the published figures: one file per table in data/, its source in the lines that begin with #."""

from __future__ import annotations

import csv
from pathlib import Path

PSF_PER_KPA = 1000.0 / 47.88026
FT_PER_M = 1.0 / 0.3048
MPH_PER_M_S = 3600.0 / 1609.344


def figures(name: str) -> list[dict[str, str]]:
    text = (Path(__file__).parent / "data" / f"{name}.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))
