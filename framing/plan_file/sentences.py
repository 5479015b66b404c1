"""The first mistake in a plan, as one sentence: where, what is wrong, what would be right."""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence
from typing import Any, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from framing.plan_file.form import PlanForm
from framing.units import shown

Path = tuple[str | int, ...]
ALIKE = 0.7
MEANT = {  # what people type for a key of ours
    "slope": "roof.pitch",
    "eave": "roof.overhang",
    "eaves": "roof.overhang",
    "rake": "roof.rake_overhang",
    "tile": "roof.covering",
    "mph": "wind.speed",
    "velocity": "wind.speed",
    "v": "wind.speed",
    "code": "wind.edition",
    "oc": "trusses.spacing",
    "on_center": "trusses.spacing",
    "plies": "trusses.girder_plies",
    "beam": "walls.tie_beam",
    "corners": "walls.outline",
    "points": "walls.outline",
    "strap": "anchors.minimum",
    "straps": "anchors.catalogue",
    "door": "[[opening]]",
    "doors": "[[opening]]",
    "window": "[[opening]]",
    "windows": "[[opening]]",
}


def first_sentence(problem: ValidationError, data: Mapping[str, Any]) -> str:
    """The sentence for the mistake that stands first in the file; what is missing comes last."""
    first = min(problem.errors(include_url=False), key=lambda e: _place(e["loc"], data))
    path = first["loc"]
    what = _what(first)
    return f"{where(path)}: {what}"


def where(path: Path) -> str:
    """A path in the trade's words: `roof pitch`, `walls outline corner 3`, `support 1 from`."""
    words = []
    for before, step in zip((None, *path), path, strict=False):
        if isinstance(step, str):
            words.append(_clean(step))
        else:
            words.append(f"corner {step + 1}" if before == "outline" else str(step + 1))
    return " ".join(words)


def _what(error: ErrorDetails) -> str:
    kind, path = error["type"], error["loc"]
    if kind == "value_error":
        return str(error["ctx"]["error"])
    if kind == "extra_forbidden":
        return _unknown(path)
    if kind == "missing":
        return _missing(path)
    if kind in {"model_type", "model_attributes_type"}:
        name = ".".join(str(step) for step in path if isinstance(step, str))
        inside = isinstance(path[-1], int)
        return f"{shown(error['input'])} is not a section; write {f'[[{name}]]' if inside else f'[{name}]'}"
    if kind == "list_type":
        return _not_a_list(path, error["input"])
    raise KeyError(kind)


def _not_a_list(path: Path, value: object) -> str:
    if path[-1] in {"outline", "corners"}:
        return f"{shown(value)} is not a list of corners; write {_field(path).examples[0]}"
    name = ".".join(str(step) for step in path)
    return f"this is one value where several may stand; write [[{name}]] in double brackets"


def _missing(path: Path) -> str:
    example = _field(path).examples[0]
    inside = ".".join(str(step) for step in path[:-1] if isinstance(step, str))
    if not inside:
        section = _section_class(_field(path).annotation)
        needed = [f.alias or n for n, f in section.model_fields.items() if f.is_required()] if section else []
        return f"the section is missing; write {example} with {' and '.join(needed)}"
    return f"missing; write {example}"


def _unknown(path: Path) -> str:
    """What an unknown key may have meant: the nearest one here, one that belongs elsewhere, or a trade word's."""
    *parents, key = (step for step in path if isinstance(step, str))
    here = tuple(parents)
    if parents and key in _keys(()):
        return "unknown key; it belongs at the top level of the file"
    nearest, alike = _nearest(key, _keys(here))
    if alike >= ALIKE and not _keys((*here, nearest)):
        return f"unknown key; the nearest known key is {'.'.join((*here, nearest))}"
    return _elsewhere(here, key) or (
        f"unknown section; the nearest known is [{nearest}]"
        if not parents and _keys((nearest,))
        else f"unknown key; the nearest known key is {'.'.join((*here, nearest))}"
    )


def _elsewhere(here: tuple[str, ...], key: str) -> str:
    """The section that a key belongs in, or the key of another section that it may have meant; '' if none."""
    homes = [section for section in _keys(()) if section not in here and key in _keys((section,))]
    if homes and here and _is_list(here[-1]):
        return f"unknown key; [[{'.'.join(here)}]] knows {', '.join(_keys(here))}; {key} is a key of [{homes[0]}]"
    if homes:
        return f"unknown key; it belongs in {' or '.join(f'[{home}]' for home in homes)}"
    if key.lower() in MEANT:
        return f"unknown key; what it means is written {MEANT[key.lower()]}"
    dotted, alike = _nearest(key, tuple(f"{s}.{k}" for s in _keys(()) for k in _keys((s,))))
    return f"unknown key; the nearest known key is {dotted}" if here and alike >= ALIKE else ""


def _nearest(key: str, known: Sequence[str]) -> tuple[str, float]:
    """The known key that is most like a typed one, and how much, 0 to 1."""
    alike = [difflib.SequenceMatcher(None, key.lower(), name.rpartition(".")[2]).ratio() for name in known]
    best = max(range(len(known)), key=alike.__getitem__)
    return known[best], alike[best]


def _is_list(section: str) -> bool:
    """Whether a section of the file may stand several times."""
    return section == "edge" or get_origin(_field((section,)).annotation) is list


def _keys(section: Sequence[str]) -> tuple[str, ...]:
    """The keys that a section knows, in the form's order; none if it is no section."""
    model = _model((*section, ""))
    return tuple(field.alias or name for name, field in model.model_fields.items()) if model else ()


def _field(path: Path) -> Any:
    model = _model(path)
    return next(f for name, f in model.model_fields.items() if path[-1] in (name, f.alias))


def _model(path: Path) -> Any:
    """The form's class that holds the last step of the path; None if there is none."""
    model: Any = PlanForm
    steps = [step for step in path if isinstance(step, str)]
    for step in steps[:-1]:
        field = next((f for name, f in model.model_fields.items() if step in (name, f.alias)), None)
        inner = None if field is None else _section_class(field.annotation)
        if inner is None:
            return None
        model = inner
    return model


def _section_class(annotation: object) -> type[BaseModel] | None:
    for candidate in (annotation, *get_args(annotation)):
        if isinstance(candidate, type) and issubclass(candidate, BaseModel):
            return candidate
    return None


def _place(path: Path, data: object) -> tuple[float, ...]:
    """Where a path stands in the file, as positions level by level; a missing key stands last."""
    place: list[float] = []
    for step in path:
        if isinstance(data, Mapping) and step in data:
            place.append(list(data).index(str(step)))
            data = data[step]
        elif isinstance(data, list) and isinstance(step, int) and step < len(data):
            place.append(step)
            data = data[step]
        else:
            place.append(float("inf"))
            break
    return tuple(place)


def _clean(key: str) -> str:
    return key if key.isprintable() and key and len(key) <= 40 else shown(key)
