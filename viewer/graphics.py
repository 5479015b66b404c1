"""Whether this machine can draw: asked in a child process, because a missing driver ends a process without a word."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager

from framing.errors import OutputError, StraplineError

WINDOW_VARIABLE = "VTK_DEFAULT_OPENGL_WINDOW"
OFF_SCREEN_WINDOW = "vtkEGLRenderWindow"
PROBE_SECONDS = 60.0
PROBE = """
import sys
from vtkmodules.vtkRenderingCore import vtkRenderer, vtkRenderWindow
import vtkmodules.vtkRenderingOpenGL2
window = vtkRenderWindow()
on_screen = sys.argv[1] == "on screen"
if on_screen and window.GetClassName() in ("vtkEGLRenderWindow", "vtkOSOpenGLRenderWindow"):
    sys.exit(%d)
window.SetOffScreenRendering(not on_screen)
window.SetShowWindow(False)
window.SetSize(8, 8)
window.AddRenderer(vtkRenderer())
window.Render()
"""
NO_DISPLAY_CODE = 7
"""What the probe answers where a window was asked for and the library could only draw without one."""
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


def start_probe(*, on_screen: bool = False) -> subprocess.Popen[bytes]:
    """A child process that draws eight by eight pixels; hand it to `require_graphics`."""
    command = [sys.executable, "-c", PROBE % NO_DISPLAY_CODE, "on screen" if on_screen else "off screen"]
    return subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def require_graphics(probe: subprocess.Popen[bytes]) -> None:
    """Waits for the probe, so that what would end this process without a word ends only the child.

    Raises
    ------
    OutputError
        If the child could not draw; names what to install.
    StraplineError
        If it found no display; names the way to a picture.
    """
    try:
        answer = probe.wait(PROBE_SECONDS)
    except subprocess.TimeoutExpired:
        probe.kill()
        answer = probe.wait()
    if answer == NO_DISPLAY_CODE:
        raise StraplineError(NO_DISPLAY)
    if answer != 0:
        raise OutputError(NO_GRAPHICS)
