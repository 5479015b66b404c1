"""The colourings of a scene: by uplift, by share of the allowable, by the wind it is good to, by kind of member,
by what lifts the deck.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from framing.anchors.schedule import AnchorSchedule, Mark
from framing.deck.zones import DeckZone
from framing.members import MemberKind
from framing.run import Run
from viewer.deck_zones import zone_pieces
from viewer.pieces import Item, ItemKind
from viewer.ramp import Bytes, ramp
from viewer.signs import Shape

Rgb = tuple[int, int, int]

HIGHEST_MPH = 300.0
"""`good_to_mph` is empty where nothing lifts by this speed: the project's own promise for the schedule."""

LOWEST_RATIO = 0.8
"""The ramp of the deck begins this far under its least suction, so that no zone is as pale as paper."""
ZONES_SENTENCE = "The darker a zone, the harder the design wind pulls the deck off its trusses there."
STILL_RGB: dict[ItemKind, Rgb] = {
    ItemKind.GROUND: (214, 218, 204),
    ItemKind.FLOOR: (224, 221, 214),
    ItemKind.WALL: (232, 229, 222),
    ItemKind.SUPPORT: (205, 203, 197),
    ItemKind.TIE_BEAM: (186, 186, 184),
    ItemKind.DECK: (206, 198, 182),
    ItemKind.ZONE: (206, 198, 182),
    ItemKind.COVERING: (112, 120, 132),
    ItemKind.OPENING: (66, 78, 92),
    ItemKind.CLOSING: (222, 218, 208),
    ItemKind.SOFFIT: (240, 238, 232),
    ItemKind.FASCIA: (250, 249, 246),
    ItemKind.NORTH: (78, 84, 88),
}
NO_ANCHOR_RGB: Rgb = (158, 160, 163)
UNRESOLVED_RGB: Rgb = (0, 150, 214)
KIND_RGB: dict[MemberKind, Rgb] = {
    MemberKind.COMMON: (238, 214, 140),
    MemberKind.STEP_DOWN: (222, 160, 52),
    MemberKind.HIP_GIRDER: (140, 20, 34),
    MemberKind.GIRDER: (46, 10, 78),
    MemberKind.GABLE_END: (34, 86, 168),
    MemberKind.END_JACK: (120, 206, 236),
    MemberKind.SIDE_JACK: (24, 116, 78),
    MemberKind.CORNER_JACK: (246, 118, 168),
    MemberKind.VALLEY: (224, 242, 214),
}
"""Ours: far apart to the colour-blind too, and each of another lightness, so that grey keeps them apart."""


MORE_WORDS = "The colour at {} stands for more, too."


class ColourKey(StrEnum):
    """The word for a colouring."""

    UPLIFT = "uplift"
    SHARE = "share"
    WIND = "wind"
    KIND = "kind"
    DECK = "deck"
    STATE = "state"


TYPED_KEYS = tuple(key for key in ColourKey if key is not ColourKey.STATE)
"""What every house can be coloured by; by state only where something is known of its straps (`viewer.states`)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """One named colour of a legend; a cross or a sign in front of it where the shape says the same."""

    text: str
    rgb: Rgb
    cross: bool = False
    shape: Shape | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Colouring:
    """Colours for every item, and what the legend says.

    `rgb` is (n_items, 3) uint8. A graded colouring has `ramp_rgb` (256, 3), lowest figure first, and `ticks` as
    (place along the ramp from 0 to 1, text); a named one has an empty ramp. `swatches` are the named colours.
    `sentence` says in plain words what is seen, '' where the title does; `headline` stands under the picture's title in
    place of the stage's words, '' where those do.
    """

    key: ColourKey
    title: str
    unit: str
    rgb: Bytes
    ramp_rgb: Bytes
    ticks: tuple[tuple[float, str], ...]
    swatches: tuple[Swatch, ...]
    sentence: str = ""
    headline: str = ""


def colourings(run: Run, items: Sequence[Item], beside: Sequence[AnchorSchedule] = ()) -> tuple[Colouring, ...]:
    """The five colourings, in the order in which people step through them; the scales hold other schedules too that are
    shown `beside`.
    """
    marks = run.schedule.marks
    shown = [m for schedule in (run.schedule, *beside) for m in schedule.marks]
    speeds = _scale([m.good_to_mph for m in shown], HIGHEST_MPH)
    lifts = _scale([m.uplift_lb for m in shown], 100.0)
    return (
        _graded(run, items, ColourKey.UPLIFT, lifts, [m.uplift_lb for m in marks]),
        _graded(run, items, ColourKey.SHARE, _scale([m.ratio for m in shown], 1.0), [m.ratio for m in marks]),
        _graded(run, items, ColourKey.WIND, speeds, [_good_to(m) for m in marks]),
        _by_kind(run, items),
        _by_zone(run, items),
    )


def _scale(figures: Sequence[float | None], otherwise: float) -> tuple[float, ...]:
    """Ticks from the least figure to the greatest, so that a colouring uses its whole ramp; to `otherwise` from 0
    where there is no figure, or no more than one.
    """
    known = [f for f in figures if f is not None]
    low, high = (min(known), max(known)) if known else (0.0, otherwise)
    return nice_ticks(low, high) if high > low * 1.02 else nice_ticks(0.0, high or otherwise)


def nice_ticks(low: float, high: float, n_about: int = 5) -> tuple[float, ...]:
    """Round figures 1, 2 or 5 times a power of ten that reach from at or below `low` to at or above `high`."""
    rough = max(high - low, 1e-9) / n_about
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(m * power for m in (1, 2, 5, 10) if m * power >= rough * (1 - 1e-9))
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return tuple(k * step for k in range(first, max(last, first + 1) + 1))


def _good_to(mark: Mark) -> float | None:
    """The speed to colour a mark by: the limit where no wind up to it overcomes the anchor [mph]."""
    if not mark.resolved:
        return None
    return HIGHEST_MPH if mark.good_to_mph is None else min(mark.good_to_mph, HIGHEST_MPH)


def _words(key: ColourKey) -> tuple[str, str, str]:
    """Title, unit and how a tick is written."""
    return {
        ColourKey.UPLIFT: ("Uplift at each bearing", "lb", ",.0f"),
        ColourKey.SHARE: (
            "Share of what the anchor is allowed, up and sideways added (1.0 is all)",
            "",
            ".1f",
        ),
        ColourKey.WIND: ("Wind speed at which each anchor reaches its allowable load", "mph", ",.0f"),
        ColourKey.KIND: ("Kind of member", "", ""),
        ColourKey.DECK: ("Suction on the deck by zone", "psf", ",.0f"),
    }[key]


def _graded(
    run: Run, items: Sequence[Item], key: ColourKey, steps: Sequence[float], figures: Sequence[float | None]
) -> Colouring:
    """A colouring by one figure per mark of the schedule; a member takes the worst of its marks."""
    table = ramp()[::-1] if key is ColourKey.WIND else ramp()
    worst = min if key is ColourKey.WIND else max
    low, high = steps[0], steps[-1]
    by_mark = {m.mark: f for m, f in zip(run.schedule.marks, figures, strict=True)}
    by_member: dict[str, float | None] = {}
    for mark, figure in zip(run.schedule.marks, figures, strict=True):
        held = by_member.setdefault(mark.bearing.member, figure)
        by_member[mark.bearing.member] = None if figure is None or held is None else worst(figure, held)

    def colour(item: Item) -> Rgb:
        if item.kind in STILL_RGB:
            return STILL_RGB[item.kind]
        if item.kind is ItemKind.MEMBER and item.member not in by_member:
            return NO_ANCHOR_RGB
        figure = by_mark[item.mark] if item.mark else by_member[item.member]
        if figure is None or item.kind is ItemKind.CROSS:
            return UNRESOLVED_RGB
        r, g, b = table[round(255 * min(max((figure - low) / (high - low), 0.0), 1.0))].tolist()
        return (r, g, b)

    title, unit, form = _words(key)
    idle = any(m.name not in by_member for m in run.framing.members)
    return Colouring(
        key=key,
        title=title,
        unit=unit,
        rgb=_frozen([colour(i) for i in items]),
        ramp_rgb=table,
        ticks=tuple(((t - low) / (high - low), format(t, form)) for t in steps),
        sentence=MORE_WORDS.format(format(high, form)) if any(f is not None and f > high for f in figures) else "",
        swatches=(*_cross(run), *((Swatch(text="no wall anchor", rgb=NO_ANCHOR_RGB),) if idle else ())),
    )


def _by_kind(run: Run, items: Sequence[Item]) -> Colouring:
    """A colouring by the kind of each member; its anchors and tags take the same colour."""
    kinds = {m.name: m.kind for m in run.framing.members}

    def colour(item: Item) -> Rgb:
        if item.kind in STILL_RGB:
            return STILL_RGB[item.kind]
        return UNRESOLVED_RGB if item.kind is ItemKind.CROSS else KIND_RGB[kinds[item.member]]

    title, unit, _ = _words(ColourKey.KIND)
    shown = set(kinds.values())
    return Colouring(
        key=ColourKey.KIND,
        title=title,
        unit=unit,
        rgb=_frozen([colour(i) for i in items]),
        ramp_rgb=ramp()[:0],
        ticks=(),
        swatches=(*(Swatch(text=k, rgb=rgb) for k, rgb in KIND_RGB.items() if k in shown), *_cross(run)),
    )


def _by_zone(run: Run, items: Sequence[Item]) -> Colouring:
    """A colouring of the deck by what lifts each of its zones; all else stays grey."""
    deck, table = run.cover.deck, ramp()
    psf = {z.name: z.suction_psf for z in deck.zones}
    steps = nice_ticks(LOWEST_RATIO * min(psf.values()), max(psf.values()))
    low, high = steps[0], steps[-1]
    rgb_of = {name: table[round(255 * (one - low) / (high - low))].tolist() for name, one in psf.items()}
    zone_of = {piece.node: piece.zone.name for piece in zone_pieces(run)}

    def colour(item: Item) -> Rgb:
        if item.kind is ItemKind.ZONE:
            r, g, b = rgb_of[zone_of[item.node]]
            return (r, g, b)
        if item.kind is ItemKind.CROSS:
            return UNRESOLVED_RGB
        return STILL_RGB.get(item.kind, NO_ANCHOR_RGB)

    title, unit, form = _words(ColourKey.DECK)
    swatches = [Swatch(text=_zone_words(run, z), rgb=tuple(rgb_of[z.name])) for z in deck.zones]
    asked = (
        "" if deck.choice else " How far apart its nails stand is open: the plan does not say panel, nail and chords."
    )
    return Colouring(
        key=ColourKey.DECK,
        title=title,
        unit=unit,
        rgb=_frozen([colour(i) for i in items]),
        ramp_rgb=table,
        ticks=tuple(((t - low) / (high - low), format(t, form)) for t in steps),
        swatches=(*swatches, *_cross(run)),
        sentence=f"{ZONES_SENTENCE}{asked}",
    )


def _zone_words(run: Run, zone: DeckZone) -> str:
    """A zone with its suction, and its nails where the plan lets them be reckoned."""
    said = [f"{zone.name}: {zone.suction_psf:.0f} psf"]
    for n in run.cover.deck.nailings:
        if n.zone is zone:
            said.append(f"nails {n.truss.words}")
            said += [f"gable end {n.gable.words}"] if n.gable else []
    return ", ".join(said)


def _cross(run: Run) -> tuple[Swatch, ...]:
    """The legend of the cross, where the schedule has an unresolved mark."""
    text = "no anchor holds it"
    return (Swatch(text=text, rgb=UNRESOLVED_RGB, cross=True),) if run.schedule.unresolved else ()


def _frozen(rows: Sequence[Rgb]) -> Bytes:
    table = np.array(rows, np.uint8).reshape(-1, 3)
    table.setflags(write=False)
    return table
