"""Run -> picture, off screen: always the same size and content for the same run, colouring, view and stage."""

from __future__ import annotations

import importlib
import io
import os
import tempfile
from collections.abc import Callable
from pathlib import Path

from PIL import Image

from framing.errors import OutputError
from framing.run import Run
from viewer.camera import standard_camera
from viewer.graphics import off_screen, require_graphics, start_probe
from viewer.look import STATES_LOOK, Look, look_from
from viewer.overlay import frame_for, frame_sheet, letter_model
from viewer.scene import Scene, build_scene
from viewer.states import States, with_states

WIDTH_PX, HEIGHT_PX = 1600, 1000


def picture(
    run: Run,
    path: Path,
    *,
    colour: str = "uplift",
    view: str = "corner",
    stage: str = "covering",
    labels: bool = True,
) -> None:
    """Writes the PNG picture of a run, whole or not at all.

    Parameters
    ----------
    run : Run
        What is drawn.
    path : Path
        Where the picture goes; an earlier one is replaced.
    colour, view, stage : str
        Words of `ColourKey` and `View`, and the last build stage that is drawn.
    labels : bool
        Whether walls and marks are named where there is room.

    Raises
    ------
    StraplineError
        If a word is none that can be chosen.
    OutputError
        If this machine cannot draw, or the file cannot be written.
    """
    _write(path, picture_png(run, colour=colour, view=view, stage=stage, labels=labels))


def _write(path: Path, data: bytes) -> None:
    target = Path(path)
    try:
        handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.", suffix=".part")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(data)
            Path(name).chmod(0o644)
            Path(name).replace(target)
        except OSError:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise OutputError(f"{target}: the picture cannot be written: {error.strerror}") from error


def picture_png(
    run: Run,
    *,
    colour: str = "uplift",
    view: str = "corner",
    stage: str = "covering",
    labels: bool = True,
) -> bytes:
    """The picture as the bytes of a PNG file, 1600 x 1000; arguments and errors as for `picture`."""
    look = look_from(colour=colour, view=view, stage=stage)
    return _scene_png(lambda: build_scene(run), look, labels)


def states_picture(run: Run, states: States, path: Path) -> None:
    """Writes the PNG picture of what became of each strap, whole or not at all; errors as for `picture`."""
    _write(path, _scene_png(lambda: with_states(build_scene(run), states), STATES_LOOK, True))


def _scene_png(made: Callable[[], Scene], look: Look, labels: bool) -> bytes:
    """The picture of a scene, which is made while it is found out whether this machine can draw."""
    with off_screen():
        probe = start_probe()
        scene = made()
        importlib.import_module("pyvista.plotting")  # while the probe runs; loading it needs no driver
        require_graphics(probe)
        return _drawn(scene, look, labels)


def _drawn(scene: Scene, look: Look, labels: bool) -> bytes:
    """The picture of a scene on a machine that can draw."""
    from viewer.meshes import model_pixels  # noqa: PLC0415  (pyvista, and only once the probe has passed)

    frame = frame_for(scene, WIDTH_PX, HEIGHT_PX)
    left, top, width, height = frame.model_px
    camera = standard_camera(scene, look.view, width, height)
    colouring = scene.colouring(look.colour)
    page = Image.new("RGB", (WIDTH_PX, HEIGHT_PX), "white")
    page.paste(Image.fromarray(model_pixels(scene, colouring, look.stage, camera, (width, height))), (left, top))
    sheet = frame_sheet(scene, colouring, look.stage, frame)
    if labels:
        letter_model(sheet, frame, scene, (look.colour, look.stage), camera)
    page.paste(sheet, (0, 0), sheet)
    data = io.BytesIO()
    page.save(data, "PNG")
    return data.getvalue()
