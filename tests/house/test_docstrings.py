"""Every public function says what it answers, and every clause of a standard says where it stands."""

from __future__ import annotations

import ast
import re

from house.project import PACKAGES, ROOT, functions, is_public, python_files, tracked_files, tree

# ASCE 7-22, sec. 26.10.2, eq. 26.10-1 | a paper's authors, journal and volume (year), page
# | framing/plan_file/coverings.csv, where each row says its own | common practice, no source
# | own derivation: tests/... | from memory
SOURCE = re.compile(
    r"Source: (?:"
    r"[A-Z][\w .&'-]* [\w-]*\d[\w.-]*, (?:secs?|eqs?|tables?|figs?|figures?|notes?|ch|chapters?|app|form)\b"
    r"|[A-Z][^:;]* \(\d{4}\), \d+"
    r"|US National CAD Standard"
    r"|common practice[^.;,]*, no source"
    r"|own derivation: (?P<proof>tests/[\w/.]+)"
    r"|(?P<table>framing/[\w/]+\.csv)"
    r"|from memory"
    r")"
)


def test_every_public_module_class_and_function_has_a_docstring() -> None:
    bare = []
    for path in python_files(*PACKAGES):
        module = tree(path)
        bare += [path.as_posix()] * (ast.get_docstring(module) is None)
        for node in ast.walk(module):
            if isinstance(node, ast.ClassDef) and is_public(node.name) and ast.get_docstring(node) is None:
                bare.append(f"{path.as_posix()}:{node.name}")
        for name, function in functions(path):
            if is_public(name) and ast.get_docstring(function) is None:
                bare.append(f"{path.as_posix()}:{name}")
    assert bare == []


def test_every_clause_function_names_its_source_in_the_one_form() -> None:
    wrong = []
    for path in python_files("framing"):
        if path.parts[1] != "asce7":
            continue
        for name, function in functions(path):
            if is_public(name) and not SOURCE.search(" ".join((ast.get_docstring(function) or "").split())):
                wrong.append(f"{path.as_posix()}:{name}")
    assert wrong == []


def test_every_source_line_has_the_one_form() -> None:
    wrong = []
    for path in python_files(*PACKAGES):
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef):
                doc = " ".join((ast.get_docstring(node) or "").split())
                wrong += [
                    f"{path.as_posix()}: {doc[at.start() : at.start() + 70]}"
                    for at in re.finditer("Source:", doc)
                    if not SOURCE.match(doc, at.start())
                ]
    assert wrong == []


def test_every_table_and_test_named_as_a_source_exists() -> None:
    places = {place.as_posix() for path in tracked_files() for place in (path, *path.parents)}
    pointed = {
        (found["proof"] or found["table"]).rstrip("./")
        for path in python_files(*PACKAGES)
        for found in SOURCE.finditer((ROOT / path).read_text(encoding="utf-8"))
        if found["proof"] or found["table"]
    }
    assert pointed <= places, pointed - places
