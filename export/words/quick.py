"""What `quick` is told on the command line, and its answer as text and as JSON."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict
from itertools import groupby
from typing import Any

from framing import units
from framing.errors import LoadError, StraplineError
from framing.quick import QuickInputs, QuickResult, QuickUplift
from framing.run import CAUTION
from framing.units import feet_inches

OPTIONS = {
    "span_ft": "--span",
    "spacing_ft": "--spacing",
    "rise_per_run": "--pitch",
    "speed_mph": "--wind",
    "mean_roof_height_ft": "--mean-roof-height",
    "overhang_ft": "--overhang",
    "overhang_underside_ratio": "--overhang-underside",
    "dead_psf": "--dead",
}


def quick_inputs(*, lengths: Mapping[str, str], pitch: str, **others: Any) -> QuickInputs:
    """The inputs as typed.

    Parameters
    ----------
    lengths : mapping
        Lengths in feet and inches by option, without its dashes.
    pitch : str
        A pitch.
    **others
        The other fields of `QuickInputs`.

    Returns
    -------
    QuickInputs
        Within their ranges.

    Raises
    ------
    StraplineError
        If an option is wrong; names it.
    """
    given: dict[str, Any] = {
        f"{name}_ft": _read(OPTIONS[f"{name}_ft"], text, units.length_ft) for name, text in lengths.items()
    }
    given["rise_per_run"] = _read("--pitch", pitch, units.rise_per_run)
    try:
        return QuickInputs(**given, **others)
    except LoadError as problem:
        field, _, rest = str(problem).partition(" ")
        raise LoadError(f"{OPTIONS.get(field, field)} {rest}") from None


def _read(option: str, text: str, reader: Any) -> float:
    try:
        return float(reader(text))
    except ValueError as problem:
        raise StraplineError(f"{option}: {problem}") from None


def quick_json(result: QuickResult) -> str:
    """The answer for machines: `mwfrs.<place>`, `cladding.<zone>`, `inputs`, `steps`."""
    answer = {
        "mwfrs": {place: asdict(uplift) for place, uplift in result.mwfrs.items()},
        "cladding": {zone: asdict(uplift) for zone, uplift in result.cladding.items()},
        "inputs": asdict(result.inputs),
        "steps": [asdict(step) for step in result.steps],
        "caution": CAUTION,
    }
    return json.dumps(answer, indent=1, allow_nan=False) + "\n"


def quick_text(result: QuickResult) -> str:
    """The answer for people: the uplifts, then every step of the arithmetic, then the caution."""
    i = result.inputs
    lines = [
        f"One common truss of a gable roof: {feet_inches(i.span_ft)} between bearings, {feet_inches(i.spacing_ft)} on "
        f"centre, {12 * i.rise_per_run:g}:12, {i.speed_mph:g} mph, exposure {i.exposure}, {i.enclosure}, {i.edition}",
        "",
        f"{'ASD net uplift at the worse bearing':<36}{'uplift lb':>10}{'by deck':>10}{'wind lb':>10}{'dead lb':>10}",
    ]
    answers = {f"main frame, {place.replace('_', ' ')}": uplift for place, uplift in result.mwfrs.items()}
    answers |= {f"cladding, zone {zone}": uplift for zone, uplift in result.cladding.items()}
    lines += [_answer(name, uplift) for name, uplift in answers.items()]
    lines += [
        "",
        "by deck: horizontal parts held by the roof deck, not at the bearings; build takes the larger of the two.",
    ]
    for part, steps in groupby(result.steps, key=lambda step: step.part):
        lines += ["", part]
        lines += [f"  {step.text} = {step.value:.6g} {step.unit}".rstrip() + f"   [{step.source}]" for step in steps]
    return "\n".join([*lines, "", CAUTION, ""])


def _answer(name: str, uplift: QuickUplift) -> str:
    figures = (uplift.uplift_lb, uplift.held_by_deck_uplift_lb, uplift.wind_lb, uplift.dead_lb)
    return f"{name:<36}{''.join(f'{lb:>10.0f}' for lb in figures)}   {uplift.case}"
