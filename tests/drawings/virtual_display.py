"""A display that nobody sees, and a hand that presses its keys and buttons as a person's would: through X itself."""

from __future__ import annotations

import ctypes
import ctypes.util
import fcntl
import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest


def need_display() -> None:
    """Skips a test, with the reason, where there is no virtual display or no way to press its keys."""
    if shutil.which("Xvfb") is None or ctypes.util.find_library("Xtst") is None:
        pytest.skip("the window is tested on a virtual display, and there is no Xvfb or no libXtst here")


@contextmanager
def virtual_display(size_px: tuple[int, int]) -> Iterator[str]:
    """The name of a new virtual display of one screen; one at a time, for two servers that start together take one
    name.
    """
    with (Path(tempfile.gettempdir()) / "strapline-virtual-display.lock").open("w") as turn:
        fcntl.flock(turn, fcntl.LOCK_EX)
        yield from _served(size_px)


def _served(size_px: tuple[int, int]) -> Iterator[str]:
    read, write = os.pipe()
    screen = f"{size_px[0]}x{size_px[1]}x24"
    # without -noreset it starts anew when its last client leaves, and the next client may find it doing so
    command = ["Xvfb", "-noreset", "-displayfd", str(write), "-screen", "0", screen]
    server = subprocess.Popen(command, pass_fds=[write], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    os.close(write)
    try:
        with os.fdopen(read) as answer:
            yield f":{answer.readline().strip()}"
    finally:
        server.terminate()
        server.wait(10)


class Hand:
    """Presses keys and buttons of the display named in the environment."""

    def __init__(self) -> None:
        self.x11 = ctypes.CDLL(ctypes.util.find_library("X11"))
        self.xtst = ctypes.CDLL(ctypes.util.find_library("Xtst"))
        self.x11.XOpenDisplay.restype = ctypes.c_void_p
        self.x11.XStringToKeysym.restype = ctypes.c_ulong
        self.x11.XKeysymToKeycode.argtypes = [ctypes.c_void_p, ctypes.c_ulong]
        self.x11.XKeysymToKeycode.restype = ctypes.c_ubyte
        self.x11.XSync.argtypes = [ctypes.c_void_p, ctypes.c_int]
        for send in (self.xtst.XTestFakeKeyEvent, self.xtst.XTestFakeButtonEvent):
            send.argtypes = [ctypes.c_void_p, ctypes.c_uint, ctypes.c_int, ctypes.c_ulong]
        self.xtst.XTestFakeMotionEvent.argtypes = [ctypes.c_void_p, *[ctypes.c_int] * 3, ctypes.c_ulong]
        self.display = self.x11.XOpenDisplay(None)

    def key(self, name: str) -> None:
        """Presses a key by its X name and lets it go."""
        code = self.x11.XKeysymToKeycode(self.display, self.x11.XStringToKeysym(name.encode()))
        for down in (1, 0):
            self.xtst.XTestFakeKeyEvent(self.display, code, down, 0)
        self.x11.XSync(self.display, 0)

    def move(self, x_px: float, y_px: float) -> None:
        """Moves the pointer to a place of the screen."""
        self.xtst.XTestFakeMotionEvent(self.display, -1, round(x_px), round(y_px), 0)
        self.x11.XSync(self.display, 0)

    def button(self, *, down: bool) -> None:
        """Presses the first button, or lets it go."""
        self.xtst.XTestFakeButtonEvent(self.display, 1, int(down), 0)
        self.x11.XSync(self.display, 0)
