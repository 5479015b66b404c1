"""The plan as read: immutable, valid once it exists, every assumption filled in."""

from __future__ import annotations

import datetime
import math
from dataclasses import dataclass
from enum import StrEnum

from framing.plan_masonry import Masonry
from framing.plan_trades import Trades

Point = tuple[float, float]


class RoofType(StrEnum):
    """What the ends of the roof are unless an edge says otherwise."""

    GABLE = "gable"
    HIP = "hip"


class HipOrigin(StrEnum):
    """Where the truss spacing of a hipped wing is measured from."""

    GIRDER = "girder"
    CORNER = "corner"


class Exposure(StrEnum):
    """Surface roughness upwind. Source: ASCE 7-22, sec. 26.7."""

    B = "B"
    C = "C"
    D = "D"


class Enclosure(StrEnum):
    """How open the building is. Source: ASCE 7-22, sec. 26.12 and table 26.13-1."""

    ENCLOSED = "enclosed"
    PARTIALLY_ENCLOSED = "partially enclosed"
    PARTIALLY_OPEN = "partially open"
    OPEN = "open"


class EditionName(StrEnum):
    """The edition of the wind standard."""

    ASCE_7_16 = "ASCE 7-16"
    ASCE_7_22 = "ASCE 7-22"


class Basis(StrEnum):
    """Which wind loads size an anchor."""

    WORSE = "worse"
    MWFRS = "mwfrs"
    CLADDING = "cladding"


class MwfrsProcedure(StrEnum):
    """Which procedure gives the main-frame loads."""

    ENVELOPE = "envelope"
    DIRECTIONAL = "directional"


class Feature(StrEnum):
    """The isolated rise of ground that speeds the wind up. Source: ASCE 7-22, fig. 26.8-1."""

    RIDGE = "ridge"
    ESCARPMENT = "escarpment"
    HILL = "hill"


class Openings(StrEnum):
    """Whether doors and windows are protected against wind-borne debris. Source: ASCE 7-22, sec. 26.12.3."""

    PROTECTED = "protected"
    NOT_PROTECTED = "not protected"


class RakeFrame(StrEnum):
    """What carries a rake overhang."""

    OUTLOOKERS = "outlookers"
    LADDER = "ladder"


class GableWall(StrEnum):
    """What closes a gable: a gable-end truss, or block up to a raked beam."""

    TRUSS = "truss"
    MASONRY = "masonry"


class Side(StrEnum):
    """The face of the truss that the strap lies against, seen along the tape, or square to it."""

    START = "start"
    FAR = "far"
    BOTH = "both"
    INSIDE = "inside"
    OUTSIDE = "outside"


class SupportKind(StrEnum):
    """What carries trusses besides the outside walls."""

    BEARING_WALL = "bearing wall"
    BEAM = "beam"


@dataclass(frozen=True, slots=True, kw_only=True)
class Project:
    """What the title block says."""

    name: str
    revision: str
    date: datetime.date | None
    north_deg: float
    truss_package: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TieBeam:
    """A masonry tie beam by its nominal size, for instance 8x16."""

    nominal_width_in: int
    nominal_depth_in: int

    @property
    def name(self) -> str:
        """The trade's name of the size."""
        return f"{self.nominal_width_in}x{self.nominal_depth_in}"

    @property
    def depth_ft(self) -> float:
        """Actual depth: nominal less 3/8 in. Source: common practice (block module), no source. [ft]"""
        return (self.nominal_depth_in - 0.375) / 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """A line inside the outline that carries trusses."""

    kind: SupportKind
    start_ft: Point
    end_ft: Point
    holds_down: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Porch:
    """A floor under the main roof that is open to the wind: its corners, at outside faces, in the order typed."""

    corners_ft: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofEdge:
    """A wall, or a part of one, whose roof edge the plan sets by hand."""

    wall: str
    type: RoofType
    from_ft: float | None
    to_ft: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofSpec:
    """The roof as asked for. `rise_per_run` is the slope: 5:12 is 0.41667; `gable_truss_ft` the gable-end truss's outer
    face in from the block's.
    """

    type: RoofType
    rise_per_run: float
    overhang_ft: float
    rake_overhang_ft: float
    rake_frame: RakeFrame | None
    outlooker_backspan_ft: float
    gable_truss_ft: float | None
    gable_wall: GableWall
    covering: str
    edges: tuple[RoofEdge, ...]

    @property
    def theta_deg(self) -> float:
        """Angle of the roof plane from the horizontal. [deg]"""
        return math.degrees(math.atan(self.rise_per_run))


@dataclass(frozen=True, slots=True, kw_only=True)
class TrussSpec:
    """How the trusses are laid out. `start` is the wall whose left end is the origin."""

    spacing_ft: float
    setback_ft: float
    heel_ft: float
    girder_plies: int
    gable_anchor_spacing_ft: float
    start: str
    hip_origin: HipOrigin


@dataclass(frozen=True, slots=True, kw_only=True)
class DeadLoads:
    """Weights on plan area. [psf]

    `top_before_covering_psf` is what is up there when the storm comes before the covering is on; with
    `without_covering` False that storm sizes no anchor.
    """

    top_for_uplift_psf: float
    top_before_covering_psf: float
    bottom_for_uplift_psf: float
    top_for_gravity_psf: float
    bottom_for_gravity_psf: float
    roof_live_psf: float
    without_covering: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Topography:
    """The rise of ground that the house stands on or near: its height over the ground upwind, the upwind distance
    from its crest to half that height, and the distance from the crest to the house, positive downwind.
    """

    feature: Feature
    height_ft: float
    half_length_ft: float
    distance_ft: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WindSpec:
    """The wind as asked for. `speed_mph` is the basic (ultimate) 3-second gust, `ground_elevation_ft` above the sea;
    `topography` is None on level ground, else it counts for every wind direction.
    """

    speed_mph: float
    exposure: Exposure
    enclosure: Enclosure
    enclosure_typed: bool
    openings: Openings | None
    coast_distance_ft: float | None
    edition: EditionName
    basis: Basis
    mwfrs_procedure: MwfrsProcedure
    ground_elevation_ft: float
    topography: Topography | None


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorSpec:
    """Which anchors may be used, and how they stand. `catalogue` is as typed; '' is the shipped one. `corner_strap_ft`
    is how far inboard of the walls' centre lines a corner jack's strap stands along it. The gaps (good, with a filler,
    ask), `face_band_ft` and `along_band_ft` bound how far off a strap may be set: truss, face, along a gable truss.

    Source: common practice, no source (every band is the user's).
    """

    catalogue: str
    minimum: str
    side: Side
    corner_strap_ft: float
    gap_good_ft: float
    gap_filler_ft: float
    gap_ask_ft: float
    face_band_ft: float
    along_band_ft: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything the program is told about one house.

    `outline_ft` is the outside face of the walls in plan coordinates, in the order typed, first corner
    not repeated, not yet turned counter-clockwise; corners less than `straighten_ft` off their neighbours' line are
    taken out before anything else. `assumed` names each value that the file left out, as `field path = value`.
    """

    project: Project
    outline_ft: tuple[Point, ...]
    wall_height_ft: float
    ground_to_floor_ft: float
    wall_thickness_ft: float
    straighten_ft: float
    tie_beam: TieBeam
    masonry: Masonry
    supports: tuple[Support, ...]
    porches: tuple[Porch, ...]
    roof: RoofSpec
    trusses: TrussSpec
    dead: DeadLoads
    wind: WindSpec
    anchors: AnchorSpec
    trades: Trades
    assumed: tuple[str, ...]
