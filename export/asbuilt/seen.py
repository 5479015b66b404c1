"""Straps as set -> what a client is told of them: a sentence for the house, and one for each mark with its date."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from types import MappingProxyType

from export.asbuilt.words import Findings
from framing.asbuilt.entries import Written
from framing.asbuilt.judge import AsBuilt

_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")


def seen_on_site(found: Findings) -> Mapping[str, str]:
    """By mark, what was seen of its straps and when."""
    of_mark: dict[str, list[AsBuilt]] = {}
    for strap in found.straps:
        of_mark.setdefault(strap.mark.mark, []).append(strap)
    return MappingProxyType({mark: _of_mark(straps) for mark, straps in of_mark.items()})


def seen_in_all(found: Findings) -> str:
    """How many straps of the house were seen in place, and who decides about the others."""
    n, good = len(found.straps), sum(s.as_planned for s in found.straps)
    if good == n:
        return f"All {n} straps were seen in place, as planned."
    return f"{good} of {n} straps were seen in place, as planned; the builder and the engineer decide about the others."


def _of_mark(straps: list[AsBuilt]) -> str:
    said = [_said(strap) for strap in straps]
    if len(said) == 1:
        return f"The strap was {said[0]}."
    if len(set(said)) == 1:
        return f"The {len(said)} straps were {said[0]}."
    return " ".join(f"Strap {k} was {words}." for k, words in enumerate(said, start=1))


def _said(strap: AsBuilt) -> str:
    entry = strap.entry
    if entry is None or not entry.touched:
        return "not yet seen"
    if entry.written is Written.MISSING:
        return f"found missing{_when(entry.when)}: the engineer decides"
    if strap.as_planned:
        return f"seen in place{_when(entry.when)}"
    return f"seen{_when(entry.when)}, but not as planned: the engineer decides"


def _when(text: str) -> str:
    """` on 3 December 2026`; nothing where the list gives no day."""
    found = _DAY.match(text)
    if found is None:
        return ""
    try:
        day = date.fromisoformat(found.group())
    except ValueError:
        return ""
    return f" on {day.day} {day:%B} {day.year}"
