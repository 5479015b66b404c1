"""Whether this machine can draw: asked in a child process, because a missing driver ends a process without a word."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager

from framing.errors import OutputError

WINDOW_VARIABLE = "VTK_DEFAULT_OPENGL_WINDOW"
OFF_SCREEN_WINDOW = "vtkEGLRenderWindow"
PROBE_SECONDS = 60.0
PROBE = """
from vtkmodules.vtkRenderingCore import vtkRenderer, vtkRenderWindow
import vtkmodules.vtkRenderingOpenGL2
window = vtkRenderWindow()
window.SetOffScreenRendering(1)
window.SetSize(8, 8)
window.AddRenderer(vtkRenderer())
window.Render()
"""
NO_GRAPHICS = (
    "the picture cannot be drawn because this machine has no working graphics driver; "
    "install the two Debian packages libegl1 and libgl1-mesa-dri, or run the command on a machine that has one"
)
NO_DISPLAY = (
    "the window cannot open because there is no display; run the command on a desktop, "
    "or write a picture with --picture FILE.png"
)


@contextmanager
def off_screen() -> Iterator[None]:
    """On Linux, drawing without any display while inside, unless the user has chosen a way already."""
    before = os.environ.get(WINDOW_VARIABLE)
    if sys.platform == "linux" and before is None:
        os.environ[WINDOW_VARIABLE] = OFF_SCREEN_WINDOW
    try:
        yield
    finally:
        if before is None:
            os.environ.pop(WINDOW_VARIABLE, None)


def start_probe() -> subprocess.Popen[bytes]:
    """A child process that draws eight by eight pixels; call inside `off_screen`, hand it to `require_graphics`."""
    command = [sys.executable, "-c", PROBE]
    return subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def require_graphics(probe: subprocess.Popen[bytes]) -> None:
    """Waits for the probe.

    Raises
    ------
    OutputError
        If the child could not draw; names what to install.
    """
    try:
        works = probe.wait(PROBE_SECONDS) == 0
    except subprocess.TimeoutExpired:
        probe.kill()
        probe.wait()
        works = False
    if not works:
        raise OutputError(NO_GRAPHICS)


def require_display() -> None:
    """Says whether a window can open at all.

    Raises
    ------
    OutputError
        If there is no display; names the way to a picture.
    """
    if sys.platform == "linux" and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        raise OutputError(NO_DISPLAY)
