"""The anchor schedule as values: the marks, what holds each, and how far it is used."""

from __future__ import annotations

from dataclasses import dataclass

from framing.anchors.catalogue import Anchor, Catalogue
from framing.anchors.demands import CaseKind
from framing.anchors.interaction import Interaction
from framing.anchors.stated import Stated
from framing.loads.cases import LoadBasis
from framing.members import Bearing, Strap
from framing.plan import Side

FASTEST_MPH = 300.0
NAIL_ROOM_IN = 1.0
FINISHED_ROOF, BEFORE = "finished", "before the covering"
BY_ENGINEER = "no tie-beam anchor: connection by the engineer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Full:
    """The case in which an anchor is full at the least wind speed: what it asks at the plan's speed, `wind_lb` and
    `dead_lb` unfactored, the pushes on the strap's axes; `grows` says whether these go with the square of the speed.
    """

    case: str
    mph: float
    wind_lb: float
    dead_lb: float
    parallel_lb: float
    perpendicular_lb: float
    grows: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """How far an anchor is used in its hardest case: that case, what it asks there (`wind_lb` and `dead_lb` unfactored,
    the rest ASD, sideways on the strap's axes, as the row's parallel and perpendicular of a truss that crosses the wall
    square) and the three ratios, None where the catalogue gives no lateral value. `push_case` is the place of its
    pushes among the sideways cases, None where it has none of those. `cladding_with_sideways_ratio` is the cladding's
    uplift with the main frame's pushes: told, it does not govern. `full` is None where no speed up to the fastest fills
    the anchor.
    """

    case: str
    kind: CaseKind
    push_case: int | None
    rule: Interaction
    wind_lb: float
    dead_lb: float
    uplift_lb: float
    parallel_lb: float
    perpendicular_lb: float
    uplift_ratio: float
    parallel_ratio: float | None
    perpendicular_ratio: float | None
    cladding_with_sideways_ratio: float
    full: Full | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """How many anchors, what they cost, and how many marks none holds."""

    n_anchors: int
    price: float
    n_unresolved: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One row of the schedule: a bearing, what pulls on it, and the anchor that holds it.

    `side` is the bearing's own, or both faces for a pair. `anchor` is None, `count` 0 and `ratio` None where nothing
    in the catalogue holds, and where the connection is by the engineer: on a support that is not tied down, a porch
    beam for one. `uplift_lb` is the ASD net uplift, 0 where nothing lifts, `basis`, `case` and `storm` what makes it,
    `uplift_mwfrs_lb` and `uplift_cladding_lb` those of either basis; `down_lb` the largest gravity reaction.
    `parallel_lb` and `perpendicular_lb` push along the wall and square to it (ASD), each the largest of all cases; None
    where the bearing holds no wall. `ratio` is the largest within one case by the row's rule, `use` that case.
    `clear_ft` is from its straps to the nearest of another member, middle to middle; None where there is none.
    `beam_refuses` says why the tie beam cannot hold the lightest anchor that would carry the mark ('' where it can).
    `stated` is what the truss engineer's package says of it, None where none governs: its uplift is `uplift_lb` then,
    and ours stands in it beside.
    """

    bearing: Bearing
    side: Side
    down_lb: float
    uplift_lb: float
    parallel_lb: float | None
    perpendicular_lb: float | None
    basis: LoadBasis
    case: str
    storm: str
    uplift_mwfrs_lb: float
    uplift_cladding_lb: float
    anchor: Anchor | None
    count: int
    allowable_uplift_lb: float | None
    ratio: float | None
    good_to_mph: float | None
    clear_ft: float | None
    use: Use | None
    beam_refuses: str = ""
    stated: Stated | None = None

    @property
    def straps(self) -> tuple[Strap, ...]:
        """Where its straps stand; where no anchor holds, where one would; none where the engineer connects."""
        return () if self.bearing.by_engineer else self.bearing.straps[: max(1, self.count)]

    @property
    def known_down_lb(self) -> float | None:
        """The load down; None where the engineer's layout gives none and there is no figure of ours."""
        unknown = self.stated is not None and self.stated.alone and self.stated.down_lb is None
        return None if unknown else self.down_lb

    @property
    def alone(self) -> bool:
        """Whether the engineer's layout is all that is known of it: it has no bases, no storm and no figure of ours."""
        return self.stated is not None and self.stated.alone

    @property
    def mark(self) -> str:
        """The bearing's name: `W3-07`."""
        return self.bearing.mark

    @property
    def resolved(self) -> bool:
        """Whether an anchor of the catalogue holds this bearing, or it asks for none."""
        return self.anchor is not None or self.bearing.by_engineer

    @property
    def only_bottom_chord(self) -> bool:
        """Whether of a gable end's chords only the bottom one, and a stud if one is there, is within reach of a strap:
        what is left of its length above the embedment ends under the top chord or less than a nail's room into it.
        Where the catalogue gives no length, every one.

        Source: common practice, no source.
        """
        under_in, a = self.bearing.top_chord_in, self.anchor
        if under_in is None:
            return False
        if a is None or a.length_in is None or a.embedment_in is None:
            return True
        return a.length_in - a.embedment_in < under_in + NAIL_ROOM_IN

    @property
    def held_by(self) -> str:
        """Where the anchor sits; on a porch beam and on a support that is not tied down there is none."""
        if self.bearing.by_engineer:
            return "engineer's connection"
        return "support" if self.bearing.on_support else "tie beam"


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorSchedule:
    """Every mark, in the order of the walls and then along each wall. `main_frame_alone` is what the same house would
    take if the cladding pressures did not count, `totals` what it takes.
    """

    catalogue: Catalogue
    marks: tuple[Mark, ...]
    totals: Totals
    main_frame_alone: Totals

    @property
    def unresolved(self) -> tuple[Mark, ...]:
        """The marks that no anchor of the catalogue holds."""
        return tuple(m for m in self.marks if not m.resolved)

    @property
    def by_engineer(self) -> tuple[Mark, ...]:
        """The marks on porch beams and on supports that are not tied down: the engineer gives their connection."""
        return tuple(m for m in self.marks if m.bearing.by_engineer)
