"""Deck zones + approvals -> Covering: what the wind asks of tiles, shingles or metal, beside what they hold."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.asce7.edition import Edition, Procedure
from framing.deck.approvals import Approvals
from framing.deck.tile import Limit, aerodynamic_moment_ft_lb, limits, required_moment_ft_lb
from framing.deck.zones import DeckZone, Part
from framing.plan import Plan
from framing.tolerances import ROUNDING
from framing.wind.edge_widths import EdgeWidths

SHINGLE_CLASSES = (("D", 116.0), ("G", 155.0), ("H", 194.0))
NOT_GIVEN = "resistance: not given"
ON_A_TILE = "moment on a tile"
BY_ZONE_FORM = "moment by the high-velocity zone's form"
FIRST_COURSE_NOTE = (
    "First course at the eave, hips and ridges: fastened by nails or screws, whatever sets the field "
    "(common practice, no source)."
)
TILE_SIZE_NOTE = "The moment on a tile needs its length and exposed width: give them in the approvals file."
ZONE_FORM_NOTE = (
    "The high-velocity zone's form, P lambda - M_g: a pressure P that is not of that zone's own tables, as these are "
    "not, needs an engineer's seal there (RAS 127; fair)."
)


class Kind(StrEnum):
    """What the covering is made of."""

    TILE = "tile"
    SHINGLES = "shingles"
    METAL = "metal"


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What the wind asks in one place: `value` of `unit`, and what is said to hold it (None: not given)."""

    where: str
    what: str
    value: float
    unit: str
    holds: float | None
    approval: str

    @property
    def enough(self) -> bool | None:
        """Whether it is held; None where the resistance is not given."""
        return None if self.holds is None else self.value <= self.holds + ROUNDING


@dataclass(frozen=True, slots=True, kw_only=True)
class Covering:
    """Everything about the covering. `q_h_psf` is ASD, as the edition defines it: K_d in it or not (`K_d_in_q`)."""

    name: str
    kind: Kind
    q_h_psf: float
    K_d_in_q: bool
    demands: tuple[Demand, ...]
    limits: tuple[Limit, ...]
    sentences: tuple[str, ...]
    flags: tuple[str, ...]


def kind_of(covering: str) -> Kind:
    """What a covering of the plan is made of."""
    return next((k for k in Kind if k.value in covering), Kind.TILE)


def build_covering(
    plan: Plan, edition: Edition, widths: EdgeWidths, zones: tuple[DeckZone, ...], approvals: Approvals
) -> Covering:
    """The demand on the plan's covering, zone by zone, first courses, hips and ridges apart."""
    q_psf = edition.q_K_d_psf(plan.wind, widths.h_ft, Procedure.CLADDING) / edition.K_d_outside_factor
    q_h_psf = ASD_UPLIFT.wind_factor * q_psf
    kind = kind_of(plan.roof.covering)
    rooms = tuple(z for z in zones if z.part is Part.ROOMS)
    found: tuple[Demand, ...] = ()
    said: list[str] = []
    checked: tuple[Limit, ...] = ()
    if kind is Kind.TILE:
        found, checked = _tile(q_h_psf, rooms, approvals)
        said += [FIRST_COURSE_NOTE] if found else [FIRST_COURSE_NOTE, TILE_SIZE_NOTE]
        said += [ZONE_FORM_NOTE] if any(d.what == BY_ZONE_FORM for d in found) else []
    elif kind is Kind.SHINGLES:
        said.append(shingle_sentence(plan.wind.speed_mph, approvals.shingle_class))
    else:
        found = _metal(zones, approvals)
        said.append("Clips and fasteners: their spacing is the approval's; a test standard names no spacing.")
    found += _own_pressures(rooms, approvals)
    flags = tuple(
        f"Covering, {d.where}: {d.what} {d.value:.1f} {d.unit}, over the {d.holds:.1f} of {d.approval or 'your file'}."
        for d in found
        if d.enough is False and d.holds is not None
    )
    return Covering(
        name=plan.roof.covering,
        kind=kind,
        q_h_psf=q_h_psf,
        K_d_in_q=edition.K_d_outside_factor == 1.0,
        demands=found,
        limits=checked,
        sentences=tuple(said),
        flags=flags,
    )


def _tile(
    q_h_psf: float, rooms: tuple[DeckZone, ...], approvals: Approvals
) -> tuple[tuple[Demand, ...], tuple[Limit, ...]]:
    value = approvals.value
    length, width = value("tile_length_ft"), value("tile_width_ft")
    out: list[Demand] = []
    if length is not None and width is not None:
        hardest = min(z.outside_factor for z in rooms)
        places = [(z.name, z.outside_factor, "field_moment_ft_lb") for z in rooms]
        places += [("first course at the eave", hardest, "eave_moment_ft_lb")]
        places += [("hips and ridges", hardest, "hip_ridge_moment_ft_lb")]
        out += [
            Demand(
                where=where,
                what=ON_A_TILE,
                value=aerodynamic_moment_ft_lb(q_h_psf, width, length, GC_p),
                unit="ft-lb",
                holds=value(item),
                approval=approvals.approval(item),
            )
            for where, GC_p, item in places
        ]
    lambda_ft3, restoring = value("tile_lambda_ft3"), value("tile_restoring_ft_lb")
    if lambda_ft3 is not None and restoring is not None:
        out += [
            Demand(
                where=z.name,
                what=BY_ZONE_FORM,
                value=required_moment_ft_lb(z.suction_psf, lambda_ft3, restoring),
                unit="ft-lb",
                holds=value("field_moment_ft_lb"),
                approval=approvals.approval("field_moment_ft_lb"),
            )
            for z in rooms
        ]
    checked = limits(length, width, value("tile_lap_in"), value("tile_nose_in"), value("tile_free_ratio"))
    return tuple(out), checked


def _metal(zones: tuple[DeckZone, ...], approvals: Approvals) -> tuple[Demand, ...]:
    """Pounds per clip, and per fastener of a clip.

    Source: own derivation: tests/statics/test_covering.py (pressure x cover x spacing).
    """
    value = approvals.value
    cover, spacing = value("metal_cover_in"), value("clip_spacing_in")
    if cover is None or spacing is None:
        return ()
    share = value("clip_fasteners")
    out = []
    for z in zones:
        clip_lb = z.suction_psf * cover * spacing / 144.0
        parts = [("pull on a clip", clip_lb, "clip_lb")]
        if share:
            parts.append(("pull on a fastener", clip_lb / share, "fastener_lb"))
        out += [
            Demand(where=z.name, what=what, value=lb, unit="lb", holds=value(item), approval=approvals.approval(item))
            for what, lb, item in parts
        ]
    return tuple(out)


def _own_pressures(rooms: tuple[DeckZone, ...], approvals: Approvals) -> tuple[Demand, ...]:
    """The wind's suction beside pressures that the user typed from a sheet or an approval."""
    out = []
    for z in rooms:
        item = f"zone_{z.number}_pressure_psf"
        if approvals.value(item) is not None:
            out.append(
                Demand(
                    where=z.name,
                    what="suction",
                    value=z.suction_psf,
                    unit="psf",
                    holds=approvals.value(item),
                    approval=approvals.approval(item),
                )
            )
    return tuple(out)


def shingle_sentence(speed_mph: float, typed: str) -> str:
    """The class of asphalt shingles whose speed is not under the plan's, and the one that the wrapper is said to have.

    Source: ASTM D7158, sec. on classes (solid): D 116, G 155, H 194 mph; Exposure B or C, up to 60 ft (from memory).
    """
    asked = next((name for name, mph in SHINGLE_CLASSES if speed_mph <= mph), None)
    if asked is None:
        return f"Shingles: no class of ASTM D7158 reaches {speed_mph:g} mph; ask the maker and the building official."
    said = f"the wrapper is said to have {typed}" if typed else "class on the wrapper: not given"
    return (
        f"Shingles: ASTM D7158 class {asked} or a later letter at {speed_mph:g} mph (D 116, G 155, H 194 mph); {said}."
    )
