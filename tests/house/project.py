"""What the house rules look at: the tracked files and the code in them."""

from __future__ import annotations

import ast
import subprocess
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGES = ("framing", "viewer", "export")
Function = ast.FunctionDef | ast.AsyncFunctionDef


@cache
def tracked_files() -> tuple[Path, ...]:
    """Every file that git keeps, and those not yet added, relative to the top."""
    listed = ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z"]
    names = subprocess.run(listed, cwd=ROOT, capture_output=True, check=True, text=True).stdout
    return tuple(sorted(Path(name) for name in names.split("\0") if name and (ROOT / name).exists()))


def python_files(*tops: str) -> list[Path]:
    """The tracked Python files under these folders."""
    return [path for path in tracked_files() if path.suffix == ".py" and path.parts[0] in tops]


@cache
def tree(path: Path) -> ast.Module:
    """The parsed module at a path relative to the top."""
    return ast.parse((ROOT / path).read_text(encoding="utf-8"))


def functions(path: Path) -> Iterator[tuple[str, Function]]:
    """Every function of a module, methods too, with its dotted name; `_` stands before what is inside a function."""

    def walk(node: ast.AST, prefix: str) -> Iterator[tuple[str, Function]]:
        for child in ast.iter_child_nodes(node):
            inner = prefix
            if isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef):
                yield prefix + child.name, child
                inner = f"{prefix}{child.name}._."
            elif isinstance(child, ast.ClassDef):
                inner = f"{prefix}{child.name}."
            yield from walk(child, inner)

    return walk(tree(path), "")


def is_public(dotted: str) -> bool:
    """Whether no part of a dotted name begins with an underscore."""
    return not any(part.startswith("_") for part in dotted.split("."))
