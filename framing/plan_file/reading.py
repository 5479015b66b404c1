"""Plan file -> Plan: the only reader of plans."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from framing import plan, plan_trades
from framing.errors import PlanError
from framing.plan_file import outline_rules
from framing.plan_file.coverings import before_covering_psf, dead_loads_of
from framing.plan_file.form import FORMAT, Dead, PlanForm
from framing.plan_file.form_keys import Section
from framing.plan_file.form_values import anchors_of, masonry_of, roof_of, trades_of, trusses_of, wind_of
from framing.plan_file.masonry_rules import check_masonry
from framing.plan_file.sentences import first_sentence
from framing.plan_file.slips import slip_in
from framing.text_file import read_text
from framing.units import shown

_WEIGHTS = tuple(key for key in Dead.model_fields if key != "without_covering")
OutlineReader = Callable[[Path, str, str | None], tuple[tuple[plan.Point, ...], tuple[str, ...]]]
"""Drawing, layer, unit (None: the drawing's own) -> corners in feet, and what was assumed about them."""


def read_plan(path: Path, read_outline: OutlineReader | None = None) -> plan.Plan:
    """The plan in a file, every assumption filled in.

    Parameters
    ----------
    path : Path
        A plan file (TOML). A plan without a project name takes the file's.
    read_outline : OutlineReader, optional
        What reads the drawing of a plan whose outline is in one; such a plan is refused without it.

    Returns
    -------
    Plan
        Valid as far as one file can tell; whether it can be framed is the layout's to say.

    Raises
    ------
    PlanError
        If the file cannot be read or anything in it is wrong: one sentence, the first mistake in the file.
    """
    return plan_from_text(read_text(path, "plan", PlanError), path.name, path.parent, read_outline)


def plan_from_text(text: str, name: str, folder: Path = Path(), read_outline: OutlineReader | None = None) -> plan.Plan:
    """The plan in a text; `name` is the file name, for messages and the project's name.

    Paths in the plan are relative to `folder`.

    Raises
    ------
    PlanError
        As `read_plan`.
    """
    return _read(_toml(text, name), name, folder, read_outline)


def read_options(path: Path, read_outline: OutlineReader | None = None) -> tuple[plan.Plan, ...]:
    """The plan of every `[[option]]` of a plan file, in its order: the plan itself with the option's keys set.

    Raises
    ------
    PlanError
        As `read_plan`; what is wrong with an option's keys names the option.
    """
    text = read_text(path, "plan", PlanError)
    base = plan_from_text(text, path.name, path.parent, read_outline)
    out = []
    for i, option in enumerate(base.trades.options, 1):
        data = _toml(text, path.name)
        try:
            for key, value in option.set:
                _set(data, key, value)
            out.append(_read(data, path.name, path.parent, read_outline))
        except PlanError as problem:
            raise PlanError(f"option {i}: {problem}") from None
    return tuple(out)


def _set(data: dict[str, Any], key: str, value: plan_trades.PlanValue) -> None:
    """Set a dotted key in the file's content."""
    *sections, last = key.split(".")
    for section in sections:
        data = data.setdefault(section, {})
        if not isinstance(data, dict):
            raise PlanError(f"set: {shown(key)} is no key of one value; write such as wind.speed")
    data[last] = value


def _read(data: dict[str, Any], name: str, folder: Path, read_outline: OutlineReader | None) -> plan.Plan:
    """The file's content as a plan."""
    data, said = _current(data)
    _stand_in(data)
    try:
        form = PlanForm.model_validate(data)
    except ValidationError as problem:
        raise PlanError(first_sentence(problem, data)) from None
    outline_ft, drawn = _outline(form, folder, read_outline)
    return _plan(form, outline_ft, name.removesuffix(".toml"), said + drawn)


def _toml(text: str, name: str) -> dict[str, Any]:
    if re.match(r"(\s*999\r?\n.*\n)*\s*0\r?\n\s*SECTION\b", text):
        raise PlanError(f"{name}: this is a drawing and no plan; strapline outline lists the outlines in it")
    try:
        return tomllib.loads(text if "\n" in text else text.replace("\r", "\n"))
    except RecursionError:
        raise PlanError(f"{name}: brackets are nested too deep; close each list where it ends") from None
    except ValueError as problem:
        raise PlanError(_broken_toml(str(problem), text, name)) from None


def _broken_toml(problem: str, text: str, name: str) -> str:
    """Where the file stops being TOML, and the usual slip if it is one."""
    what, _, rest = problem.partition(" (at ")
    what = "".join(c for c in what if c.isprintable())
    at = re.match(r"line (\d+), column", rest)
    place = f"{name} line {at[1]}" if at else f"{name}, at its end" if rest else name
    line = text.splitlines()[int(at[1]) - 1] if at and int(at[1]) <= len(text.splitlines()) else ""
    slip = slip_in(line, what)
    if slip:
        return f"{place}: {slip}"
    return f"{place}: this is not TOML ({what[0].lower()}{what[1:]}); write each line as [section] or key = value"


def _current(data: dict[str, Any]) -> tuple[dict[str, Any], tuple[str, ...]]:
    """The file's content in today's format, and what to say where it was written in an older one."""
    number = data.get("format", FORMAT)
    if isinstance(number, bool) or not isinstance(number, int) or not 0 <= number != FORMAT:
        return data, ()
    if number > FORMAT:
        raise PlanError(
            f"format: {shown(number)} is newer than this program reads; "
            f"write format = {FORMAT}, or take a newer program"
        )
    return data | {"format": FORMAT}, (f"format = {FORMAT} (the file says {number}, which is older)",)


def _stand_in(data: dict[str, Any]) -> None:
    """Let the form pass a plan whose corners are in a drawing; they are read once the rest is known to be right."""
    walls = data.get("walls")
    if isinstance(walls, dict) and "outline_dxf" in walls:
        if "outline" in walls:
            raise PlanError("walls outline_dxf: outline gives the corners too; keep one of the two")
        walls["outline"] = []


def _outline(
    form: PlanForm, folder: Path, read_outline: OutlineReader | None
) -> tuple[tuple[plan.Point, ...], tuple[str, ...]]:
    """The corners, from the plan or from the drawing that it names, and what was assumed about them."""
    drawing = form.walls.outline_dxf
    if drawing is None:
        return tuple(form.walls.outline), ()
    if read_outline is None:
        raise PlanError("walls outline_dxf: drawings are not read here; write the corners as outline = [...]")
    try:
        return read_outline(folder / drawing.file, drawing.layer, drawing.unit)
    except PlanError as problem:
        raise PlanError(f"walls outline_dxf: {problem}") from None


def _plan(form: PlanForm, outline_ft: tuple[plan.Point, ...], stem: str, said: tuple[str, ...]) -> plan.Plan:
    """The form's values as the program's own, checked against each other."""
    outline_rules.check_outline(outline_ft, form.walls.straighten)
    supports = tuple(
        plan.Support(kind=s.kind, start_ft=s.start, end_ft=s.end, holds_down=s.holds_down) for s in form.support
    )
    outline_rules.check_supports(supports, outline_ft)
    porches = tuple(plan.Porch(corners_ft=tuple(p.corners)) for p in form.porch)
    outline_rules.check_porches(porches, outline_ft)
    dead, wind = _dead(form), wind_of(form)
    made = plan.Plan(
        project=plan.Project(
            name=stem if form.project.name is None else form.project.name,
            revision=form.project.revision,
            date=form.project.date,
            north_deg=form.project.north,
            truss_package=form.project.truss_package,
        ),
        outline_ft=outline_ft,
        wall_height_ft=form.walls.height,
        ground_to_floor_ft=form.walls.ground_to_floor,
        wall_thickness_ft=form.walls.thickness,
        straighten_ft=form.walls.straighten,
        tie_beam=form.walls.tie_beam,
        masonry=masonry_of(form),
        supports=supports,
        porches=porches,
        roof=roof_of(form),
        trusses=trusses_of(form),
        dead=dead,
        wind=wind,
        anchors=anchors_of(form),
        trades=trades_of(form),
        assumed=said + _assumed(form, dead, wind, stem),
    )
    outline_rules.check_walls(made)
    check_masonry(made)
    return made


def _dead(form: PlanForm) -> plan.DeadLoads:
    """The covering's weights, each replaced by the plan's own where it gives one."""
    usual = dead_loads_of(form.roof.covering, form.roof.pitch)
    given = {f"{key}_psf": getattr(form.dead, key) for key in _WEIGHTS}
    dead = replace(
        usual,
        **{key: psf for key, psf in given.items() if psf is not None},
        without_covering=form.dead.without_covering,
    )
    bare_psf = min(dead.top_for_uplift_psf, before_covering_psf(form.roof.covering, form.roof.pitch))
    dead = replace(dead, top_before_covering_psf=bare_psf)
    for chord in ("top", "bottom"):
        least, most = (getattr(dead, f"{chord}_for_{use}_psf") for use in ("uplift", "gravity"))
        if least > most:
            raise PlanError(
                f"dead {chord}_for_uplift: {least:g} psf is more than {chord}_for_gravity, {most:g}; "
                "write what holds down no larger than what presses down"
            )
    return dead


def _assumed(form: PlanForm, dead: plan.DeadLoads, wind: plan.WindSpec, stem: str) -> tuple[str, ...]:
    """Every key that the file leaves out and the program fills in, as `section.key = value`."""
    worked_out = {f"dead.{key}": f"{getattr(dead, f'{key}_psf'):g}" for key in _WEIGHTS}
    worked_out |= {
        "project.name": stem,
        "wind.enclosure": wind.enclosure.value,
        "anchors.catalogue": "the invented sample that comes with the program",
    }
    lines = []
    for path, default in _left_out(form):
        value = worked_out.get(path, default)
        if value is not None:
            lines.append(f"{path} = {_written(value)}")
    return tuple(lines)


def _left_out(section: Section, before: str = "") -> list[tuple[str, object]]:
    """The keys that were not typed, with their defaults as the form writes them."""
    found: list[tuple[str, object]] = []
    for name, field in type(section).model_fields.items():
        value, path = getattr(section, name), f"{before}{field.alias or name}"
        if isinstance(value, Section):
            found += _left_out(value, f"{path}.")
        elif isinstance(value, list) and value and isinstance(value[0], Section):
            for i, item in enumerate(value, 1):
                found += _left_out(item, f"{path}[{i}].")
        elif (
            name not in section.model_fields_set
            and not isinstance(value, list | tuple)
            and _counts(path, field.default)
        ):
            found.append((path, field.default))
    return found


def _counts(path: str, default: object) -> bool:
    """Whether leaving a key out assumes anything: "" is what the plan does not say, but for the oldest keys."""
    return default != "" or path in ("project.truss_package", "anchors.minimum", "anchors.catalogue")


def _written(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return "none" if value == "" else str(value)
