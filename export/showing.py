"""What `view` is told on the command line, checked before anything is drawn."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from framing.errors import StraplineError
from framing.units import shown
from viewer.camera import View
from viewer.colours import ColourKey
from viewer.stages import Stage


def wanted_view(picture: Path | None, *, colour: str, stage: str, view: str) -> dict[str, str]:
    """The words for the viewer.

    Parameters
    ----------
    picture : Path or None
        Where a picture goes, if one is asked for.
    colour, stage, view : str
        As typed.

    Returns
    -------
    dict
        `colour`, `stage` and `view`, each a word that the viewer knows.

    Raises
    ------
    StraplineError
        If a word is not known, or the picture's name does not end in .png.
    """
    if picture is not None and picture.suffix.lower() != ".png":
        raise StraplineError(f"--picture: {picture} is no PNG file; write a name that ends in .png")
    return {
        "colour": _known("colour", colour, ColourKey),
        "stage": _known("stage", stage, (step.key for step in Stage)),
        "view": _known("view", view, View),
    }


def _known(option: str, word: str, words: Iterable[str]) -> str:
    *first, last = (str(known) for known in words)
    if word not in (*first, last):
        raise StraplineError(f"--{option}: {shown(word)} is not known; write {', '.join(first)} or {last}")
    return word
