"""Run in a process of its own, on a virtual display: opens the real window, uses it by hand, and prints what it saw."""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path
from typing import Any

from drawings.conftest import run_of
from drawings.virtual_display import Hand
from viewer.look import look_from
from viewer.scene import build_scene
from viewer.window import open_window

SIZE_PX = (900, 600)
LIBRARYS_OWN = ("f", "e", "j", "i", "u", "3", "g", "d", "z", "equal", "Up", "b", "v", "plus", "minus")
"""Keys that the graphics library has meanings of its own for; ours or nobody's in this window."""


class Visit:
    """The open window, and a hand on it."""

    def __init__(self) -> None:
        run = run_of("garage_wing")
        look = look_from(colour="uplift", view="corner", stage="covering")
        self.plotter, self.walk = open_window(run, build_scene(run), look, SIZE_PX)
        self.plotter.show(interactive=False, interactive_update=True, auto_close=False)
        self.hand = Hand()
        self.saw: dict[str, Any] = {}
        self.wait(0.6)
        self.hand.move(300, 330)

    def wait(self, seconds: float = 0.15) -> None:
        until = time.monotonic() + seconds
        while time.monotonic() < until:
            self.plotter.iren.interactor.ProcessEvents()
            time.sleep(0.005)

    def key(self, *names: str) -> None:
        for name in names:
            self.hand.key(name)
            self.wait()

    def drag(self) -> None:
        self.hand.button(down=True)
        for k in range(8):
            self.hand.move(300 + 8 * k, 330 + 2 * k)
            self.wait(0.04)
        self.hand.button(down=False)
        self.wait()

    def click(self, x_px: float, y_px: float) -> None:
        self.hand.move(x_px, y_px)
        self.wait(0.05)
        for down in (True, False):
            self.hand.button(down=down)
            self.wait(0.08)


def main() -> None:
    visit = Visit()
    walk, saw = visit.walk, visit.saw
    style = visit.plotter.iren.interactor.GetInteractorStyle()
    saw["left of the library's keys"] = sorted(visit.plotter.iren._key_press_event_callbacks)
    widths = {layer.actor.GetProperty().GetLineWidth() for layer in walk.layers}
    visit.key(*LIBRARYS_OWN)
    saw["line widths kept"] = widths == {layer.actor.GetProperty().GetLineWidth() for layer in walk.layers}
    saw["stereo"] = bool(visit.plotter.render_window.GetStereoRender())
    saw["wireframe"] = any(
        layer.actor.GetProperty().GetRepresentation() == 1 for layer in walk.layers if layer.mesh is not None
    )
    saw["same style"] = style is visit.plotter.iren.interactor.GetInteractorStyle()
    before = walk.camera().position_ft
    visit.drag()
    saw["drag turned"] = before != walk.camera().position_ft
    visit.key("Escape", "n")
    saw["card after a drag"] = dict(walk.card()).get("bearing")
    visit.key("w", "bracketright")
    saw["wind"] = walk.mph
    visit.click(*[900 - 30, walk._frame().model_px[1] + walk._frame().model_px[3] - 30])
    saw["wind by pointer"] = walk.mph
    visit.key("w", "Escape", "m")
    visit.click(300, 330)
    visit.click(400, 330)
    saw["measured"] = walk.measure.words()
    visit.key("m", "p")
    saw["played from"] = int(walk.stage)
    visit.wait(2.4)
    saw["played to"] = int(walk.stage)
    visit.key("p")
    saw["still playing"] = walk.playing
    visit.key("s")
    visit.wait(0.4)
    saw["saved"] = sorted(str(path) for path in Path.cwd().glob("*.png"))
    visit.hand.key("q")
    visit.wait()
    saw["closed"] = bool(visit.plotter.iren.interactor.GetDone())
    sys.stdout.write(json.dumps(saw))
    sys.stdout.flush()


if __name__ == "__main__":
    main()
