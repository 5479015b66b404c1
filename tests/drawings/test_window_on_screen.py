"""The real window, opened on a virtual display and used through the display's own keys and pointer."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from drawings.virtual_display import need_display, virtual_display

ROOT = Path(__file__).parents[2]
SIZE_PX = (900, 600)


@pytest.fixture(scope="module")
def saw(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    need_display()
    folder = tmp_path_factory.mktemp("window")
    with virtual_display(SIZE_PX) as display:
        environment = {**os.environ, "DISPLAY": display, "PYTHONPATH": f"{ROOT}:{ROOT / 'tests'}"}
        environment.pop("VTK_DEFAULT_OPENGL_WINDOW", None)
        command = [sys.executable, "-m", "drawings.window_visit"]
        done = subprocess.run(
            command, env=environment, cwd=folder, capture_output=True, text=True, timeout=120, check=False
        )
    assert done.returncode == 0, done.stderr
    seen: dict[str, Any] = json.loads(done.stdout.splitlines()[-1])
    return seen | {"folder": folder}


def test_no_key_of_the_graphics_library_is_left(saw: dict[str, Any]) -> None:
    assert saw["left of the library's keys"] == []
    assert saw["line widths kept"]
    assert not saw["stereo"]
    assert not saw["wireframe"]
    assert saw["same style"]


def test_keys_work_after_a_drag(saw: dict[str, Any]) -> None:
    assert saw["drag turned"]
    assert saw["card after a drag"] == "W1-01"


def test_the_wind_is_set_by_key_and_by_a_click_on_its_scale(saw: dict[str, Any]) -> None:
    assert saw["wind"] == 155.0  # the plan's 150 mph and one step
    assert saw["wind by pointer"] == pytest.approx(300.0, abs=5.0)


def test_two_clicks_measure_in_feet_and_inches(saw: dict[str, Any]) -> None:
    assert re.fullmatch(r"\d+'-\d+( \d+/\d+)?\" apart: \d+'-.*\" level, \d+'-.*\" up", saw["measured"])


def test_stages_play_and_stop_when_asked(saw: dict[str, Any]) -> None:
    assert saw["played from"] == 2  # the anchors, by key 3
    assert 2 < saw["played to"] < 5
    assert not saw["still playing"]


def test_s_saves_the_whole_window_as_a_picture(saw: dict[str, Any]) -> None:
    (path,) = saw["saved"]
    assert Path(path).name == "strapline_view_1.png"
    picture = Image.open(path).convert("RGB")
    assert picture.size == SIZE_PX
    pixels = np.asarray(picture)
    assert len(np.unique(pixels[100:450, :600].reshape(-1, 3), axis=0)) > 50  # the model
    assert pixels[:40, :600].min() < 60  # the title's letters
    assert Path(path).parent == saw["folder"]


def test_q_closes_it(saw: dict[str, Any]) -> None:
    assert saw["closed"]
