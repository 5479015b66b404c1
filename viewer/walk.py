"""The window's own behaviour: keys, picking, stages, section cut, wind, measuring. Loads pyvista; imported late.

The lettering is one picture laid over the whole window, drawn by the same functions as the picture's; the model is
drawn in the part that the lettering leaves free.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeVar

import numpy as np

from framing.run import Run
from viewer.camera import Camera, View, nearer, standard_camera, turned
from viewer.cards import Rows, bearing_card, member_card, short_card
from viewer.close_up import CloseUp
from viewer.colours import ColourKey
from viewer.cut import Cut
from viewer.help import HELP, HINT, LEAST_MPH, MOST_MPH, NEAR_PX, NEARER_RATIO, STEP_MPH, TURN_DEG
from viewer.look import Look
from viewer.measure import Measure
from viewer.meshes import add_model, colour_model, set_camera, show_stage
from viewer.overlay import Frame, frame_for, frame_sheet, letter_model
from viewer.panels import SCALE_PX, draw_hint, draw_north, draw_note, draw_panel, draw_scale, mph_at
from viewer.props import Props, cell_under
from viewer.scene import Scene
from viewer.sheet_layer import SheetLayer
from viewer.stages import Stage
from viewer.storm import past_allowed, storm_words
from viewer.suction import deck_suction

Word = TypeVar("Word")


class Walk:
    """One open window (or, for tests, one off-screen plotter): its state and what each key does to it."""

    def __init__(self, run: Run, scene: Scene, look: Look, plotter: Any) -> None:
        self.run, self.scene, self.plotter = run, scene, plotter
        self.colour, self.view, self.stage = look.colour, look.view, look.stage
        self.labels_on, self.help_on, self.figures_on = True, False, False
        self.bearing: int | None = None
        self.member: int | None = None
        self.layers = add_model(plotter, scene)
        self.cut, self.measure = Cut(scene, self.layers), Measure()
        self.mph, self.wind_on, self.playing = run.plan.wind.speed_mph, False, False
        self.saved = ""
        self.props = Props(plotter)
        self.close_up = CloseUp(run, scene, plotter, self.layers)
        self._sheet = SheetLayer(plotter)
        self._actions = self._keys()
        self._set_colour(self.colour)
        self._set_stage(self.stage)
        self._set_view(self.view)

    def _keys(self) -> dict[str, Callable[[], None]]:
        """What each key does, by its X name; `HELP` says it in words."""
        bearings, members = len(self.scene.bearings), len(self.run.framing.members)
        return {
            **{str(s + 1): self._stage_setter(s) for s in Stage},
            "Next": lambda: self._set_stage(min(self.stage + 1, Stage.FINISHED)),
            "Prior": lambda: self._set_stage(max(self.stage - 1, Stage.WALLS)),
            "c": lambda: self._set_colour(_after([c.key for c in self.scene.colourings], self.colour)),
            "v": lambda: self._set_view(_after(list(View), self.view)),
            "n": lambda: self.point_at(bearing=_step(self.bearing, 1, bearings)),
            "b": lambda: self.point_at(bearing=_step(self.bearing, -1, bearings)),
            "t": lambda: self.point_at(member=_step(self.member, 1, members)),
            "r": lambda: self.point_at(member=_step(self.member, -1, members)),
            "p": self._toggle_play,
            "w": self._toggle_wind,
            "bracketleft": lambda: self._set_wind(self.mph - STEP_MPH),
            "bracketright": lambda: self._set_wind(self.mph + STEP_MPH),
            "m": lambda: self._measure(on=not self.measure.on),
            "s": self.save,
            "x": self.cut.turn,
            "comma": lambda: self.cut.move(-1),
            "period": lambda: self.cut.move(1),
            "f": self._toggle_figures,
            "l": self._toggle_labels,
            "h": self._toggle_help,
            "Escape": self._put_away,
            "Left": lambda: self._look_from(turned(self.camera(), -TURN_DEG, 0.0)),
            "Right": lambda: self._look_from(turned(self.camera(), TURN_DEG, 0.0)),
            "Up": lambda: self._look_from(turned(self.camera(), 0.0, TURN_DEG)),
            "Down": lambda: self._look_from(turned(self.camera(), 0.0, -TURN_DEG)),
            **dict.fromkeys(("plus", "equal", "KP_Add"), lambda: self._look_from(nearer(self.camera(), NEARER_RATIO))),
            **dict.fromkeys(("minus", "KP_Subtract"), lambda: self._look_from(nearer(self.camera(), 1 / NEARER_RATIO))),
            "k": lambda: self.close_up.turn(self),
        }

    def press(self, key: str) -> None:
        """Does what a key (by its X name) means; an unknown key does nothing."""
        action = self._actions.get(key)
        if action is not None:
            action()
            self.refresh()

    def point_at(self, *, bearing: int | None = None, member: int | None = None) -> None:
        """Shows the card of a bearing or a member, by its place in the schedule or in the layout; of neither, none.

        A stage at which it does not stand yet gives way to the first at which it does.
        """
        self.bearing, self.member = bearing, member
        first = Stage.ANCHORS if bearing is not None else Stage.WALLS if member is None else Stage.TRUSSES
        if self.stage < first:
            self._set_stage(first)
        self.props.highlight(self.scene, self._pointed_name())
        self.close_up.follow(bearing, self.camera())

    def click(self, x_px: float, y_px: float) -> None:
        """Does what a click at a place in the window means, in pixels from its left and top edge.

        On the wind's scale it sets the wind; while measuring it picks a point; else it shows the card of what stands
        there.
        """
        frame = self._frame()
        mph = mph_at(frame, x_px, y_px) if self.wind_on else None
        shown = [layer for layer in self.layers if layer.stage <= self.stage]
        at = (x_px, frame.height_px - 1 - y_px)
        if mph is not None:
            self._set_wind(mph)
        elif self.measure.on:
            found = cell_under(self.plotter, shown, at)
            if found is not None:
                self.measure.pick(found[2])
                self.props.measure(self.measure.points_ft)
        else:
            near = self._bearing_near(x_px, y_px)
            trusses = [layer for layer in shown if layer.stage == Stage.TRUSSES]
            found = cell_under(self.plotter, trusses, at) if near is None else None
            self.point_at(bearing=near, member=None if found is None else self._member_of(found[0].item[found[1]]))
        self.refresh()

    def tick(self) -> None:
        """While playing: the next stage; after the last one it stops."""
        if self.playing:
            self._set_stage(self.stage + 1)
            self.playing = self.stage < Stage.FINISHED
            self.refresh()

    def save(self) -> None:
        """Writes what is seen as a picture into the folder that the program was started in; never over another."""
        names = (Path(f"strapline_view_{k}.png") for k in range(1, 10_000))
        path = next(name for name in names if not name.exists())
        self.saved = ""
        self.refresh()
        try:
            self.plotter.screenshot(path)
            self.saved = f"Saved as {path}"
        except OSError as error:
            self.saved = f"{path} cannot be written: {error.strerror}"

    def camera(self) -> Camera:
        """Where the eye is now."""
        eye = self.plotter.camera
        return Camera(
            position_ft=eye.GetPosition(),
            focus_ft=eye.GetFocalPoint(),
            up=eye.GetViewUp(),
            view_angle_deg=eye.GetViewAngle(),
        )

    def card(self) -> Rows:
        """The rows of the card that is shown, none when nothing is pointed at."""
        if self.bearing is not None:
            return bearing_card(self.run.schedule.marks[self.bearing])
        return () if self.member is None else member_card(self.run, self.run.framing.members[self.member])

    def short_card(self) -> Rows:
        """The bearing's card with its figures folded away."""
        return () if self.bearing is None else short_card(self.run.schedule.marks[self.bearing])

    def refresh(self, *, moving: bool = False) -> None:
        """Draws the lettering again; while the model moves, without the labels."""
        frame = self._frame()
        foot_px = SCALE_PX if self.wind_on else 0
        colouring = self.scene.colouring(self.colour)
        sheet = frame_sheet(self.scene, colouring, self.stage, frame, foot_px=foot_px)
        if self.close_up.mark is not None:
            self.close_up.letter(sheet, frame, self.camera())
        elif self.labels_on and not moving:
            letter_model(sheet, frame, self.scene, (self.colour, self.stage), self.camera(), self.cut.keeps)
        self._letter(sheet, frame)
        self._sheet.show(sheet, frame)

    def _letter(self, sheet: Any, frame: Frame) -> None:
        """What the window letters over its sheet besides the labels."""
        draw_north(sheet, frame, self.camera(), self.run.plan.project.north_deg)
        if self.wind_on:
            design = self.run.plan.wind.speed_mph
            draw_scale(sheet, frame, self.mph, design, storm_words(self.run, self.mph))
        if note := self.saved or self.measure.words():
            draw_note(sheet, frame, note)
        short = self.bearing is not None and not self.figures_on
        rows = HELP if self.help_on else self.short_card() if short else self.card()
        if self.close_up.mark is not None and short and not self.help_on:
            rows = ()
        if rows:
            draw_panel(sheet, frame, rows, middle=self.help_on)
        draw_hint(sheet, frame, HINT)

    def _frame(self) -> Frame:
        width, height = self.plotter.render_window.GetSize()
        return frame_for(self.scene, int(width), int(height))

    def _pointed_name(self) -> str | None:
        if self.bearing is not None:
            return self.scene.bearings[self.bearing].mark
        return None if self.member is None else self.run.framing.members[self.member].name

    def _bearing_near(self, x_px: float, y_px: float) -> int | None:
        """The bearing whose plate is nearest a place in the window, None where none is within reach."""
        left, top, width, height = self._frame().model_px
        seen = self.camera().project(np.array([b.point_ft for b in self.scene.bearings]), width, height)
        distance = np.hypot(seen[:, 0] + left - x_px, seen[:, 1] + top - y_px)
        distance[[not self.cut.keeps(b.point_ft) for b in self.scene.bearings]] = np.inf
        if self.stage < Stage.ANCHORS or not len(distance) or distance.min() > NEAR_PX:
            return None
        return int(distance.argmin())

    def _member_of(self, item: int) -> int:
        return [m.name for m in self.run.framing.members].index(self.scene.items[int(item)].member)

    def _measure(self, *, on: bool) -> None:
        self.measure.turn(on=on)
        self.saved = ""
        self.props.measure(())

    def _toggle_play(self) -> None:
        self.playing = not self.playing
        if self.playing and self.stage == Stage.FINISHED:
            self._set_stage(Stage.WALLS)

    def _toggle_wind(self) -> None:
        self.wind_on = not self.wind_on
        self._set_wind(self.mph)

    def _set_wind(self, mph: float) -> None:
        """Draws another wind's arrows from the deck up, and an X on the plates that it takes past what is allowed."""
        self.mph = min(max(mph, LEAST_MPH), MOST_MPH)
        ratio = (self.mph / self.run.plan.wind.speed_mph) ** 2
        on = self.wind_on
        self.props.arrows(deck_suction(self.run) if on and self.stage >= Stage.DECK else None, ratio)
        past = past_allowed(self.run.schedule, self.mph) if on and self.stage >= Stage.ANCHORS else ()
        self.props.crosses(self.scene.bearings[i] for i in past)

    def _stage_setter(self, stage: Stage) -> Callable[[], None]:
        return lambda: self._set_stage(stage)

    def _set_stage(self, stage: int) -> None:
        self.close_up.leave()
        self.stage = Stage(stage)
        show_stage(self.layers, self.stage, self.colour)
        least = Stage.ANCHORS if self.bearing is not None else Stage.TRUSSES
        if self._pointed_name() is not None and self.stage < least:
            self.point_at()
        self._set_wind(self.mph)

    def _set_colour(self, colour: ColourKey) -> None:
        self.colour = colour
        colour_model(self.layers, self.scene.colouring(colour))
        if colour is ColourKey.DECK and self.stage != Stage.DECK:
            self._set_stage(Stage.DECK)
        show_stage(self.layers, self.stage, colour)

    def _set_view(self, view: View) -> None:
        self.close_up.leave()
        self.view = view
        _, _, width, height = self._frame().model_px
        set_camera(self.plotter, self.scene, standard_camera(self.scene, view, width, height))

    def _toggle_figures(self) -> None:
        self.figures_on = not self.figures_on

    def _toggle_labels(self) -> None:
        self.labels_on = not self.labels_on

    def _toggle_help(self) -> None:
        self.help_on = not self.help_on

    def _put_away(self) -> None:
        self.help_on, self.saved = False, ""
        self._measure(on=False)
        self.point_at()

    def _look_from(self, camera: Camera) -> None:
        set_camera(self.plotter, self.scene, camera)


def _after(options: Sequence[Word], now: Word) -> Word:
    return options[(options.index(now) + 1) % len(options)]


def _step(now: int | None, by: int, n: int) -> int | None:
    """The place after or before the present one; the first or last where there is none yet."""
    if n == 0:
        return None
    return (0 if by > 0 else n - 1) if now is None else (now + by) % n
