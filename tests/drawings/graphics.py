"""Whether pictures can be drawn here: asked as the program asks, once, and a test that cannot run says why."""

from __future__ import annotations

from functools import cache

import pytest

from framing.errors import OutputError
from viewer.graphics import off_screen, require_graphics, start_probe


@cache
def why_not() -> str:
    """Why nothing can be drawn on this machine, '' where it can."""
    try:
        with off_screen():
            require_graphics(start_probe())
    except OutputError as error:
        return str(error)
    return ""


def need_graphics() -> None:
    """Skips a test, with the reason, where nothing can be drawn."""
    if why_not():
        pytest.skip(why_not())
