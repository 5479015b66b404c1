"""Run -> window on the screen, or picture off it. No graphics library is loaded before one is asked for."""

from __future__ import annotations

from typing import Any

from framing.run import Run
from viewer.graphics import require_graphics, start_probe
from viewer.look import look_from
from viewer.picture import picture
from viewer.scene import build_scene

__all__ = ["picture", "show"]

WINDOW_PX = (1500, 940)
STILL_PX = 4
"""A press that is let go within this many pixels is a click, not a turn."""


def show(run: Run, *, colour: str = "uplift", view: str = "corner", stage: str = "covering") -> None:
    """Opens a window on a run and returns when it is closed.

    Parameters
    ----------
    run : Run
        What is shown.
    colour, view, stage : str
        Words of `ColourKey` and `View`, and the build stage to begin with.

    Raises
    ------
    StraplineError
        If a word is none that can be chosen.
    OutputError
        If there is no display, or no working graphics driver.
    """
    look = look_from(colour=colour, view=view, stage=stage)
    probe = start_probe(on_screen=True)
    scene = build_scene(run)
    require_graphics(probe)
    from viewer.walk import Walk, new_window  # noqa: PLC0415  (pyvista, and only once the probe has passed)

    plotter = new_window(WINDOW_PX, f"strapline: {scene.title}")
    _listen(plotter, Walk(run, scene, look, plotter))
    plotter.show(interactive=True)


def _listen(plotter: Any, walk: Any) -> None:
    """Connects the keys, the pointer and the window's size to the walk; silences the library's own keys."""
    interactor = plotter.iren.interactor
    pressed: list[tuple[int, int]] = []

    def key(caller: Any, _event: str) -> None:
        name = caller.GetKeySym()
        if name in ("q", "Q"):
            caller.TerminateApp()
        else:
            walk.press(name if len(name) > 1 else name.lower())

    def begin(_caller: Any, _event: str) -> None:
        pressed[:] = [interactor.GetEventPosition()]
        walk.refresh(moving=True)

    def end(_caller: Any, _event: str) -> None:
        x, y = interactor.GetEventPosition()
        if pressed and max(abs(x - pressed[0][0]), abs(y - pressed[0][1])) <= STILL_PX:
            walk.click(x, plotter.render_window.GetSize()[1] - 1 - y)
        walk.refresh()
        pressed.clear()

    plotter.reset_key_events()
    style = interactor.GetInteractorStyle()
    style.AddObserver("CharEvent", lambda *_: None)
    interactor.AddObserver("KeyPressEvent", key)
    style.AddObserver("StartInteractionEvent", begin)
    style.AddObserver("EndInteractionEvent", end)
    plotter.render_window.AddObserver("WindowResizeEvent", lambda *_: walk.refresh())
    walk.refresh()
