"""The system's Firefox, driven over Marionette, the remote protocol that it carries itself: no driver to fetch.

Messages are a length, a colon and JSON: [0, number, command, parameters] there, [1, number, error, result] back.
"""

from __future__ import annotations

import base64
import contextlib
import json
import os
import shutil
import socket
import subprocess
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

STARTS_S, ANSWERS_S = 60.0, 60.0


@dataclass
class Firefox:
    """One window of a running Firefox."""

    line: socket.socket
    number: int = 0

    def ask(self, command: str, **parameters: object) -> Any:
        self.number += 1
        words = json.dumps([0, self.number, command, parameters])
        self.line.sendall(f"{len(words.encode())}:{words}".encode())
        _, _, error, result = self._answer()
        assert error is None, error
        return result.get("value", result) if isinstance(result, dict) else result

    def run(self, script: str, *arguments: object) -> Any:
        """What a function body returns in the page, its arguments as `arguments`."""
        return self.ask("WebDriver:ExecuteScript", script=script, args=list(arguments))

    def keep_picture(self, path: Path) -> None:
        path.write_bytes(base64.b64decode(self.ask("WebDriver:TakeScreenshot", full=False)))

    def printed(self) -> bytes:
        """The page as the PDF that its print dialogue would make."""
        return base64.b64decode(self.ask("WebDriver:Print"))

    def wait_for(self, script: str) -> None:
        ends = time.monotonic() + 10.0
        while not self.run(script):
            assert time.monotonic() < ends, script
            time.sleep(0.05)

    def _answer(self) -> Any:
        head = b""
        while not head.endswith(b":"):
            head += self._bytes(1)
        return json.loads(self._bytes(int(head[:-1])))

    def _bytes(self, n: int) -> bytes:
        data = b""
        while len(data) < n:
            part = self.line.recv(n - len(data))
            assert part, "Firefox has closed the line"
            data += part
        return data


@contextlib.contextmanager
def firefox(folder: Path, width: int, height: int, display: str = "") -> Iterator[Firefox]:
    """A Firefox of that window size with a profile of its own in a folder; its downloads go there too.

    Without a display it has no window and shows no 3D.
    """
    found = shutil.which("firefox-esr") or shutil.which("firefox")
    if found is None:
        pytest.skip("the page is tested in two real browsers, and there is no firefox here")
    profile = folder / "profile"
    profile.mkdir()
    port = _free_port()
    settings = {
        "marionette.port": port,
        "browser.download.folderList": 2,
        "browser.download.dir": str(folder),
        "browser.shell.checkDefaultBrowser": False,
        "datareporting.policy.dataSubmissionEnabled": False,
        "app.update.enabled": False,
        "webgl.force-enabled": True,
        "network.proxy.type": 1,
        "network.proxy.http": "127.0.0.1",
        "network.proxy.http_port": 9,
        "network.proxy.ssl": "127.0.0.1",
        "network.proxy.ssl_port": 9,
    }
    lines = [f"user_pref({json.dumps(name)}, {json.dumps(value)});" for name, value in settings.items()]
    (profile / "user.js").write_text("\n".join(lines), encoding="utf-8")
    words = [found, *([] if display else ["--headless"]), "--marionette", "--no-remote", "--profile", str(profile)]
    size = [f"--width={width}", f"--height={height}"]
    where = {**os.environ, **({"DISPLAY": display, "LIBGL_ALWAYS_SOFTWARE": "1"} if display else {})}
    running = subprocess.Popen([*words, *size], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=where)
    try:
        with _line_to(port, running) as line:
            window = Firefox(line=line)
            window._answer()
            window.ask("WebDriver:NewSession", capabilities={"alwaysMatch": {"acceptInsecureCerts": False}})
            window.ask("WebDriver:SetWindowRect", width=width, height=height)
            yield window
    finally:
        running.terminate()
        running.wait(30)


def _free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1])


def _line_to(port: int, running: subprocess.Popen[bytes]) -> socket.socket:
    ends = time.monotonic() + STARTS_S
    while True:
        try:
            return socket.create_connection(("127.0.0.1", port), timeout=ANSWERS_S)
        except OSError:
            assert running.poll() is None, "Firefox did not start"
            assert time.monotonic() < ends, "Firefox does not listen"
            time.sleep(0.2)
