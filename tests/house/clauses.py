"""The table 'clause - where it stands - what tests it'. Print it with: python tests/house/clauses.py."""

from __future__ import annotations

import ast
import re
import sys
from dataclasses import dataclass
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))

from house.project import functions, is_public, python_files, tree

STANDARD = re.compile(r"Source: (ASCE 7-.*)", re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Clause:
    """One function of `framing/asce7` that answers for a clause of the standard."""

    source: str
    module: Path
    function: str
    tests: tuple[Path, ...]

    @property
    def row(self) -> str:
        tests = ", ".join(path.name for path in self.tests) or "nothing"
        return f"| {self.source} | `{self.module.as_posix()}`: `{self.function}` | {tests} |"


def names_used(path: Path) -> frozenset[str]:
    """Every name, attribute and imported name that a module mentions."""
    used: set[str] = set()
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Name):
            used.add(node.id)
        elif isinstance(node, ast.Attribute):
            used.add(node.attr)
        elif isinstance(node, ast.ImportFrom):
            used |= {part for alias in node.names for part in (alias.name, *(node.module or "").split("."))}
    return frozenset(used)


def clauses() -> list[Clause]:
    """Every clause in the order of the files; tested where a test file mentions both module and function.

    The editions hand out their clauses by the same names, so a test by way of `edition` counts for both.
    """
    tests = {path: names_used(path) for path in python_files("tests") if path.name.startswith("test_")}
    found = []
    for path in python_files("framing"):
        if path.parts[1] != "asce7":
            continue
        for name, function in functions(path):
            source = STANDARD.search(ast.get_docstring(function) or "")
            if source and is_public(name):
                short = name.split(".")[-1]
                by = tuple(p for p, used in tests.items() if short in used and used & {path.stem, "edition"})
                text = " ".join(source[1].split()).rstrip(".")
                found.append(Clause(source=text, module=path, function=name, tests=by))
    return found


def table() -> str:
    """The Markdown table."""
    head = ["| clause, as each function cites it | where it stands | what tests it |", "|---|---|---|"]
    return "\n".join([*head, *(clause.row for clause in clauses())])


if __name__ == "__main__":
    sys.stdout.write(table() + "\n")
