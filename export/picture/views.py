"""The three views of one plan: walls and wings, members, roof; each as strokes, and the walls left without a name."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass

import shapely
from shapely.geometry import Polygon, box

from export.paper.sheet import Fill, Layer, Line, Point, Polyline, Primitive, Text, View
from export.picture.labels import FAR, NEAR, Room, around, beside, cleared, within
from export.picture.pens import (
    MEMBERS,
    PORCH,
    PORCH_BEAM,
    ROOF_LINES,
    SEAM,
    SUPPORT,
    WALL,
    WALL_FACE,
    WALL_UNDER_ROOF,
    WING,
    Style,
    stroked,
)
from framing.members import Member, MemberKind
from framing.plan import Support
from framing.run import Run
from framing.units import feet_inches
from framing.walls.standing_walls import standing_lines

TITLES = ("1. Walls, wings and what carries inside", "2. Members", "3. Roof")
TITLE_IN = 0.2
INSET_IN = 0.035
Seams = tuple[tuple[Point, Point], ...]
NAMED = frozenset({MemberKind.HIP_GIRDER, MemberKind.GIRDER})


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """The part of the picture that one view has. [in]."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def frame(self) -> Polygon:
        """Where names may stand: below the view's title."""
        return box(self.left, self.bottom, self.right, self.top - 2 * TITLE_IN)


def title(words: str, cell: Cell) -> Text:
    """The heading of a view."""
    return Text(at=(cell.left, cell.top - TITLE_IN), text=words, height_in=TITLE_IN, layer=Layer.TITLE, bold=True)


def walls_view(run: Run, view: View, cell: Cell, seams: Seams) -> tuple[tuple[Primitive, ...], tuple[str, ...]]:
    """Walls with names and lengths, wings, seams, girders, supports and START; then what is left without a name."""
    girders = [m for m in run.framing.members if m.kind is MemberKind.GIRDER]
    supports = [
        (f"S{i} {s.kind}{', tied down' if s.holds_down else ''}", view.paper(s.start_ft), view.paper(s.end_ft))
        for i, s in _numbered(run)
    ]
    beams = [(f"{name} porch beam", a, b) for name, a, b in _porch_beams(run, view)]
    firm = [*_standing(run, view, WALL), *_members(girders, view)]
    firm += [s for _, a, b in supports for s in stroked((a, b), SUPPORT)]
    firm += [s for _, a, b in beams for s in stroked((a, b), PORCH_BEAM)]
    wings = [_wing_ring(run, view, k) for k in range(len(run.roof.wings))]
    soft = [s for w in wings for s in stroked(list(w.exterior.coords), WING)]
    porches = {
        p.name: Polygon([view.paper(c) for c in run.plan.porches[p.porch].corners_ft]) for p in run.framing.porches
    }
    soft += [s for floor in porches.values() for s in stroked(list(floor.exterior.coords), PORCH)]
    soft += [s for a, b in seams for s in stroked((view.paper(a), view.paper(b)), SEAM)]
    start = _start_mark(run, view)
    room = Room(cell.frame, [*firm, *_edges(start)], soft)
    placed: list[Primitive] = [start, *room.named(beside("START", *_start_line(run, view), (-1, 1), NEAR, bold=True))]
    unnamed = []
    for wall in sorted(run.outline.walls, key=lambda w: -w.length_ft):
        words = f"{wall.name}  {feet_inches(wall.length_ft)}"
        found = _wall_name(words, view.paper(wall.start_ft), view.paper(wall.end_ft), room)
        placed += found
        unnamed += [] if found else [words]
    names = [*beams, *supports, *((m.name, view.paper(m.start_ft), view.paper(m.end_ft)) for m in girders)]
    for words, a, b in names:
        found = _line_name(words, a, b, room)
        placed += found
        unnamed += [] if found else [words]
    for name, floor in porches.items():
        found = room.named(within(name, floor, []))
        placed += found
        unnamed += [] if found else [name]
    for k, wing in enumerate(run.roof.wings):
        found = room.named(within(wing.name, wings[k], [w for j, w in enumerate(wings) if j != k]))
        placed += found
        unnamed += [] if found else [wing.name]
    return (*cleared([*soft, *firm], placed), *placed), tuple(unnamed)


def members_view(run: Run, view: View, cell: Cell) -> tuple[Primitive, ...]:
    """The walls, every member by its kind, and the names of the girders where there is room."""
    girders = [m for m in run.framing.members if m.kind in NAMED]
    beams = [s for _, a, b in _porch_beams(run, view) for s in stroked((a, b), PORCH_BEAM)]
    firm = [*_wall_faces(run, view), *beams, *_members(girders, view)]
    soft = _members([m for m in run.framing.members if m.kind not in NAMED], view)
    room = Room(cell.frame, firm, soft)
    names = [s for m in girders for s in _line_name(m.name, view.paper(m.start_ft), view.paper(m.end_ft), room)]
    return (*cleared([*soft, *firm], names), *names)


def roof_view(run: Run, view: View) -> tuple[Primitive, ...]:
    """The walls, dotted, and the lines of the roof by their kind; the key names them."""
    lines = [
        s
        for line in run.roof.lines
        for s in stroked((view.paper(line.start_ft[:2]), view.paper(line.end_ft[:2])), ROOF_LINES[line.kind])
    ]
    return (*_standing(run, view, WALL_UNDER_ROOF), *lines)


def _ring(run: Run, view: View) -> list[Point]:
    return [view.paper(w.start_ft) for w in run.outline.walls]


def _standing(run: Run, view: View, style: Style, inset_ft: float = 0.0) -> list[Line]:
    """The outside face, or a line farther in, where wall stands; and the piers outside it."""
    piers = [(*ring, ring[0]) for ring in run.outline.piers_ft] if not inset_ft else []
    lines = [*standing_lines(run.outline, run.framing.porch_beams, inset_ft), *piers]
    return [s for line in lines for s in stroked([view.paper(p) for p in line], style)]


def _porch_beams(run: Run, view: View) -> list[tuple[str, Point, Point]]:
    """Name and ends of each porch beam, on the middle of the wall that it stands for."""
    out = []
    for beam in run.framing.porch_beams:
        wall = run.outline.walls[beam.wall]
        a, b = (view.paper(wall.point_ft(at, wall.thickness_ft / 2)) for at in (beam.from_ft, beam.to_ft))
        out.append((beam.name, a, b))
    return out


def _wall_faces(run: Run, view: View) -> list[Line]:
    """Outside and inside face of the walls, fine, so that what stands on them is seen."""
    if run.framing.porch_beams:
        return [s for inset in (0.0, run.plan.wall_thickness_ft) for s in _standing(run, view, WALL_FACE, inset)]
    thickness = run.outline.walls[0].thickness_ft * view.scale.in_per_ft
    house = Polygon(_ring(run, view))
    inside = house.buffer(-thickness, join_style="mitre", mitre_limit=20.0)
    rings = [house.exterior, *(g.exterior for g in shapely.get_parts(inside) if not g.is_empty)]
    rings += [Polygon([view.paper(p) for p in ring]).exterior for ring in run.outline.piers_ft]
    return [s for r in rings for s in stroked(list(r.coords), WALL_FACE)]


def _members(members: list[Member] | tuple[Member, ...], view: View) -> list[Line]:
    return [s for m in members for s in stroked((view.paper(m.start_ft), view.paper(m.end_ft)), MEMBERS[m.kind])]


def _numbered(run: Run) -> Iterator[tuple[int, Support]]:
    """The supports inside the house, with their numbers."""
    porch_beams = {b.support for b in run.framing.porch_beams}
    return ((i, s) for i, s in enumerate(run.plan.supports, 1) if i - 1 not in porch_beams)


def _wing_ring(run: Run, view: View, k: int) -> Polygon:
    """A wing's rectangle, drawn a little inside its walls, each wing by its own little."""
    wing = run.roof.wings[k]
    (x0, y0), (x1, y1) = wing.low_ft, wing.high_ft
    corners = [view.paper(run.outline.frame.to_plan(p)) for p in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))]
    inset = Polygon(corners).buffer(-INSET_IN * (1 + k % 4), join_style="mitre")
    return Polygon(corners) if inset.is_empty else inset


def _wall_name(words: str, a: Point, b: Point, room: Room) -> tuple[Text | Line, ...]:
    """A wall's name and length along it outside, off it with a leader, inside, or where a leader reaches it."""
    outside, inside = -1, 1  # of a wall that runs counter-clockwise
    return (
        room.named(beside(words, a, b, (outside,), NEAR, bold=True))
        or room.led(beside(words, a, b, (outside,), FAR, bold=True), _middle(a, b), over_firm=False)
        or room.named(beside(words, a, b, (inside,), NEAR, bold=True))
        or room.led(around(words, _middle(a, b), bold=True), _middle(a, b), over_firm=False)
    )


def _line_name(words: str, a: Point, b: Point, room: Room) -> tuple[Text | Line, ...]:
    """A name beside its line, else off it with a leader."""
    sides = (1, -1)
    far = [*beside(words, a, b, sides, FAR), *around(words, _middle(a, b))]
    return room.named(beside(words, a, b, sides, NEAR)) or room.led(far, _middle(a, b), over_firm=True)


def _middle(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)


def _start_line(run: Run, view: View) -> tuple[Point, Point]:
    """A short line out of the start corner, for its word to stand beside."""
    wall = run.outline.wall(run.plan.trusses.start)
    corner, out = view.paper(wall.start_ft), view.turned(wall.outward)
    along_wall = view.turned(wall.direction)
    near = (corner[0] + out[0] * 0.1, corner[1] + out[1] * 0.1)
    return near, (near[0] + along_wall[0] * 0.5, near[1] + along_wall[1] * 0.5)


def _start_mark(run: Run, view: View) -> Polyline:
    """A black arrowhead on the start corner, along the wall on which the tape starts."""
    wall = run.outline.wall(run.plan.trusses.start)
    corner, out, ahead = view.paper(wall.start_ft), view.turned(wall.outward), view.turned(wall.direction)
    foot = (corner[0] + out[0] * 0.04, corner[1] + out[1] * 0.04)
    tip = (foot[0] + ahead[0] * 0.16, foot[1] + ahead[1] * 0.16)
    top = (foot[0] + out[0] * 0.1, foot[1] + out[1] * 0.1)
    return Polyline(points=(foot, tip, top), layer=Layer.MARKS, closed=True, fill=Fill.BLACK)


def _edges(s: Polyline) -> list[Line]:
    ring = (*s.points, s.points[0])
    return [Line(start=a, end=b, layer=s.layer) for a, b in itertools.pairwise(ring)]
