"""What people name - a plan, a run.json, a folder that `build` wrote - as one house's marks, told alike."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from framing.errors import PlanError
from framing.text_file import decoded, read_bytes

RUN_FILE = "run.json"
LARGEST_BYTES = 200_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkThen:
    """One mark as a run told it. `anchor` is '' and `count` 0 where there was none."""

    mark: str
    wall: str
    member: str
    kind: str
    plies: int
    side: str
    tape_ft: float
    strap_ft: tuple[float, float]
    anchor: str
    count: int
    uplift_lb: float
    ratio: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseThen:
    """One house as a run told it: what it is called, its outline and its marks."""

    name: str
    revision: str
    date: str
    fingerprint: str
    outline_ft: tuple[tuple[float, float], ...]
    marks: tuple[MarkThen, ...]


def house_of(path: Path, run_json_of: Callable[[Path], bytes]) -> HouseThen:
    """The house that a path names; a plan is run first.

    Raises
    ------
    PlanError
        If it is none of the three, or its run.json is not one that `build` wrote.
    """
    if path.is_dir():
        path = path / RUN_FILE
        if not path.is_file():
            raise PlanError(f"{path.parent}: there is no {RUN_FILE} in it; name a folder that `build` wrote, or a plan")
    if path.suffix == ".json":
        data_bytes = read_bytes(path, "run", PlanError, LARGEST_BYTES)
        text = decoded(data_bytes, path, "run", PlanError)
    else:
        text = run_json_of(path).decode()
    try:
        data = json.loads(text)
        return _house(data, path)
    except (ValueError, KeyError, TypeError, AttributeError):
        right = "build the plan again, or name the plan"
        raise PlanError(f"{path}: this is no {RUN_FILE} of this program; {right}") from None


def _house(data: Mapping[str, Any], path: Path) -> HouseThen:
    project = data["plan"]["project"]
    return HouseThen(
        name=str(project["name"] or path.stem),
        revision=str(project["revision"]),
        date=str(project["date"] or ""),
        fingerprint=str(data["fingerprint"]),
        outline_ft=tuple((float(x), float(y)) for x, y in data["plan"]["outline_ft"]),
        marks=tuple(_mark(b) for b in data["bearings"]),
    )


def _mark(b: Mapping[str, Any]) -> MarkThen:
    return MarkThen(
        mark=str(b["mark"]),
        wall=str(b["wall"]),
        member=str(b["member"]),
        kind=str(b["kind"]),
        plies=int(b["plies"]),
        side=str(b["side"]),
        tape_ft=float(b["strap_station_ft"]),
        strap_ft=(float(b["strap_x_ft"]), float(b["strap_y_ft"])),
        anchor=str(b["anchor"] or ""),
        count=int(b["count"]),
        uplift_lb=float(b["uplift_lb"]),
        ratio=None if b["ratio"] is None else float(b["ratio"]),
    )
