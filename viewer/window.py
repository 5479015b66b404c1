"""Run -> window on the screen, or picture off it. No graphics library is loaded before one is asked for."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from framing.run import Run
from viewer.graphics import require_graphics, start_probe
from viewer.look import STATES_LOOK, Look, look_from
from viewer.picture import picture, states_picture
from viewer.scene import Scene, build_scene
from viewer.states import States, with_states

__all__ = ["open_window", "picture", "show", "show_states", "states_picture"]

WINDOW_PX = (1500, 940)
PLAY_MS = 1500
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
    _show(run, lambda: build_scene(run), look_from(colour=colour, view=view, stage=stage))


def show_states(run: Run, states: States) -> None:
    """Opens a window on what became of each strap and returns when it is closed; errors as for `show`."""
    _show(run, lambda: with_states(build_scene(run), states), STATES_LOOK)


def _show(run: Run, made: Callable[[], Scene], look: Look) -> None:
    probe = start_probe(on_screen=True)
    scene = made()
    require_graphics(probe)
    plotter, _ = open_window(run, scene, look)
    plotter.show(interactive=True)


def open_window(run: Run, scene: Scene, look: Look, size_px: tuple[int, int] = WINDOW_PX) -> tuple[Any, Any]:
    """The window with its keys and pointer joined to a walk, not yet shown: the plotter and the walk."""
    from viewer.sheet_layer import new_window  # noqa: PLC0415  (pyvista, and only once the probe has passed)
    from viewer.walk import Walk  # noqa: PLC0415

    plotter = new_window(size_px, f"strapline: {scene.title}")
    walk = Walk(run, scene, look, plotter)
    _silence(plotter)
    _listen(plotter, walk)
    return plotter, walk


def _silence(plotter: Any) -> None:
    """Takes away every key of the library's own: its views, its picks, its line widths, its ways of drawing."""
    plotter.iren.clear_key_event_callbacks()
    plotter.iren.interactor.GetInteractorStyle().AddObserver("CharEvent", lambda *_: None)


def _listen(plotter: Any, walk: Any) -> None:
    """Connects the keys, the pointer, the clock and the window's size to the walk."""
    interactor = plotter.iren.interactor
    pressed: list[tuple[int, int]] = []
    clock: list[int] = []

    def key(caller: Any, _event: str) -> None:
        name = caller.GetKeySym() or ""
        if name in ("q", "Q"):
            caller.TerminateApp()
        else:
            walk.press(name if len(name) > 1 else name.lower())
        if walk.playing and not clock:
            clock.append(interactor.CreateRepeatingTimer(PLAY_MS))

    def begin(_caller: Any, _event: str) -> None:
        pressed[:] = [interactor.GetEventPosition()]
        walk.refresh(moving=True)

    def end(_caller: Any, _event: str) -> None:
        x, y = interactor.GetEventPosition()
        if pressed and max(abs(x - pressed[0][0]), abs(y - pressed[0][1])) <= STILL_PX:
            walk.click(x, plotter.render_window.GetSize()[1] - 1 - y)
        walk.refresh()
        pressed.clear()

    style = interactor.GetInteractorStyle()
    interactor.AddObserver("KeyPressEvent", key)
    style.AddObserver("StartInteractionEvent", begin)
    style.AddObserver("EndInteractionEvent", end)
    for wheel in ("MouseWheelForwardEvent", "MouseWheelBackwardEvent"):
        style.AddObserver(wheel, lambda *_: walk.refresh(), -1.0)  # after the library has moved the eye
    interactor.AddObserver("TimerEvent", lambda *_: walk.tick())
    plotter.render_window.AddObserver("WindowResizeEvent", lambda *_: walk.refresh())
    walk.refresh()
