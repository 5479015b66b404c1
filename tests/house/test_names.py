"""Names: no catch-all modules, and every length, weight, angle and pressure says its unit."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from house.project import PACKAGES, functions, is_public, python_files, tracked_files, tree

CATCH_ALLS = {"utils", "util", "helpers", "helper", "common", "core", "manager", "managers", "misc", "base", "lib"}
UNITS = ("_ft", "_in", "_in2", "_psi", "_lb", "_plf", "_psf", "_pcf", "_mph", "_deg", "_ft2", "_ft3", "_ft_lb")
UNITS += ("_ratio", "_factor")

# Inside one clause the standard's own symbols may stand: K_z, GC_pi, z_g.
SYMBOL = re.compile(r"[A-Z]+[a-z]?(?:_[a-z]+)?")

# Floats without a unit, or whose unit another field states.
PLAIN = {
    "minutes": "of work, the unit itself",
    "rise_per_run": "a ratio; the trade's own word",
    "ratio": "demand over allowable",
    "cos": "of the frame's turn",
    "sin": "of the frame's turn",
    "holds": "what a covering's part holds, in the unit beside it",
    "panels": "deck panels, halves and quarters too",
    "GC_p": "an external coefficient, as the standard writes it",
    "price": "in the catalogue's own currency",
    "value": "its unit is the field beside it",
    "low": "the least that a field of the plan may be, in the field's own unit",
    "high": "the most",
    "share": "what part of a force goes one way",
    "inward": "unit vectors",
    "outward": "unit vectors",
    "unit": "a direction of size 1",
    "measure": "the direction along which a place is measured",
    "gradient": "rise per run along x and along y",
    "plane": "a, b and c of a height a x + b y + c",
}


def floats(path: Path) -> Iterator[tuple[str, str]]:
    """Where and what: the fields and the parameters of public functions that are annotated as numbers."""
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.ClassDef):
            for item in node.body:
                if isinstance(item, ast.AnnAssign) and isinstance(item.target, ast.Name) and is_float(item.annotation):
                    yield f"{path.as_posix()}:{node.name}", item.target.id
    for name, function in functions(path):
        if is_public(name):
            for argument in (*function.args.args, *function.args.kwonlyargs):
                if argument.annotation is not None and is_float(argument.annotation):
                    yield f"{path.as_posix()}:{name}", argument.arg


def is_float(annotation: ast.expr) -> bool:
    return ast.unparse(annotation).replace(" ", "").replace("|None", "") in {"float", "Floats", "NDArray[np.float64]"}


def test_no_module_or_folder_is_a_catch_all() -> None:
    parts = {part.removesuffix(".py") for path in tracked_files() for part in path.parts}
    assert parts & CATCH_ALLS == set()


def test_every_number_in_framing_ends_in_its_unit() -> None:
    bare = [
        f"{where} {name}"
        for path in python_files("framing")
        for where, name in floats(path)
        if not f"_{name}".endswith(UNITS) and not name.startswith("n_") and name not in PLAIN
        if not ("/asce7/" in where and SYMBOL.fullmatch(name))
    ]
    assert bare == []


def test_the_list_of_plain_numbers_holds_nothing_that_is_gone() -> None:
    used = {name for path in python_files(*PACKAGES) for _, name in floats(path)}
    assert set(PLAIN) <= used


def test_every_tolerance_of_framing_stands_in_one_module_with_its_reason() -> None:
    tiny = re.compile(r"\b\d+(\.\d+)?e-\d+\b")
    loose = [p.as_posix() for p in python_files("framing") if tiny.search(p.read_text(encoding="utf-8"))]
    assert loose == ["framing/tolerances.py"]
