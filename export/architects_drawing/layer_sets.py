"""Which layers may hold walls: by their names in several languages, and by how their lines lie."""

from __future__ import annotations

import fnmatch
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import numpy as np

from export.architects_drawing.pairs import Flags, Floats, Ints, Pairs, lengths_of

SHORT = 4
SHARE_OF_BEST = 0.72


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LayerSet:
    """Layers that are read together: why, how likely, and which (a flag for each layer)."""

    why: str
    bonus: float
    layers: Flags


@cache
def _known() -> dict[str, tuple[str, ...]]:
    """The words, or their beginnings, that people call layers by; common practice, no source."""
    text = (files("export.architects_drawing") / "layer_words.csv").read_text(encoding="utf-8")
    return {kind: tuple(words.split()) for kind, words in (row.split(",") for row in text.splitlines()[1:])}


def _words(name: str) -> list[str]:
    """The words of a layer's name, without the drawing that it was bound from."""
    own = re.split(r"\$\d+\$|\|", name)[-1]
    return re.findall(r"[^\W\d_]+", re.sub(r"(?<=[a-z])(?=[A-Z])", " ", own).lower())


def _is(name: str, kind: str) -> bool:
    return any(
        word == part or (len(part) >= SHORT and word.startswith(part))
        for word in _words(name)
        for part in _known()[kind]
    )


def is_opening(name: str) -> bool:
    """Whether a layer is called after doors or windows."""
    return _is(name, "opening")


def is_wall(name: str) -> bool:
    """Whether a layer is called after walls, and not also after what hangs on them."""
    return _is(name, "wall") and not _is(name, "other")


def is_other(name: str) -> bool:
    """Whether a layer is called after something that is no wall."""
    return _is(name, "other") and not _is(name, "wall")


def matching(names: Sequence[str], patterns: Sequence[str]) -> Flags:
    """The layers that one of the patterns fits, capitals or not."""
    asked = [p.lower() for p in patterns]
    return np.array([any(fnmatch.fnmatchcase(n.lower(), p) or n.lower() == p for p in asked) for n in names], bool)


def layer_sets(names: Sequence[str], lines: Floats, layer: Ints, pairs: Pairs) -> tuple[LayerSet, ...]:
    """The sets of layers worth a try, the likeliest first.

    Parameters
    ----------
    names : sequence of str
        The drawing's layers.
    lines : (n, 4) float
        What is drawn. [in]
    layer : (n,) int
        On which layer each line is.
    pairs : Pairs
        Which lines may be two faces of a wall.

    Returns
    -------
    tuple of LayerSet
        By name; by how the lines lie; all but what is called after something else; all. None twice.
    """
    n = len(names)
    length = lengths_of(lines)
    paired = np.zeros(len(lines), bool)
    paired[pairs.i[layer[pairs.i] == layer[pairs.j]]] = True
    total = np.bincount(layer, length, n)
    share = np.bincount(layer, length * paired, n) / np.maximum(total, 1e-9)
    long = np.bincount(layer, length * (length > 36.0), n) / np.maximum(total, 1e-9)
    named = np.array([is_wall(x) for x in names], bool)
    other = np.array([is_other(x) for x in names], bool)
    used = total > 120.0
    score = np.where(used, 2.0 * named - 1.5 * other + 1.5 * share + 0.5 * long, -9.0)
    tried = [
        ("called after walls", 0.5, named & used),
        ("lines that lie as walls do", 0.25, used & (score >= SHARE_OF_BEST * score.max(initial=0.1))),
        ("all but what is called otherwise", 0.1, used & ~other),
        ("all layers", 0.0, used),
    ]
    out: list[LayerSet] = []
    for why, bonus, chosen in tried:
        if chosen.any() and not any(np.array_equal(chosen, s.layers) for s in out):
            out.append(LayerSet(why=why, bonus=bonus, layers=chosen))
    return tuple(out)
