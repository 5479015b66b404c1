"""The one reader of the tables beside the chapters."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Number = TypeVar("Number", float, NDArray[np.float64])
Row = Mapping[str, str]


@cache
def rows(table: str) -> tuple[Row, ...]:
    """The rows of a table of `data/` by its name without ending; lines that begin with # are remarks.

    Source: own derivation: tests/parts/test_asce7_tables.py.
    """
    text = (files("framing.asce7.data") / f"{table}.csv").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    return tuple(MappingProxyType(row) for row in csv.DictReader(lines))


@cache
def constants(table: str) -> Mapping[str, float]:
    """The single figures of a chapter by name; units, clause, source and mark stand in the file.

    Source: own derivation: tests/parts/test_asce7_tables.py.
    """
    return MappingProxyType({row["name"]: float(row["value"]) for row in rows(table)})


def by_key(table: str, key: str, value: str) -> Row:
    """The one row of a table whose column `key` holds `value`.

    Source: own derivation: tests/parts/test_asce7_tables.py.
    """
    return next(row for row in rows(table) if row[key] == value)
