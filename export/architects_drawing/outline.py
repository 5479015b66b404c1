"""The architect's DXF -> the outside face of the walls: one closed outline on a named layer, in feet."""

from __future__ import annotations

import difflib
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import shapely

from export.architects_drawing.file import BROKEN, RIGHT, open_drawing
from export.architects_drawing.layers import Layer, layers_of
from export.architects_drawing.loops import GAP_FT, Broken, Loop, crossing, join, place, size_of
from export.architects_drawing.units import SENSE_FT, Unit, check_sense, size_words, unit_of
from framing.errors import PlanError
from framing.plan import Point
from framing.units import feet_inches, shown

if TYPE_CHECKING:
    from ezdxf.document import Drawing

WHERE = "walls.outline_dxf"
WALLS_DOUBLE = 0.75
MOST_NAMED = 4
INNER_SHARE = 0.5  # of the area: rooms or the inside face cover more of a house than another house in it would


def outline_of_drawing(path: Path, layer: str, unit: str | None) -> tuple[tuple[Point, ...], tuple[str, ...]]:
    """The outside face of the walls on one layer of a drawing.

    Parameters
    ----------
    path : Path
        A DXF file in text form, R12 to R2018.
    layer : str
        The layer, in capitals or not; patterns with * and ?, several by commas, where walls are double lines.
    unit : str or None
        in, ft, mm, cm or m where the drawing says no unit or a wrong one.

    Returns
    -------
    corners_ft : (n, 2) tuple
        In the drawing's order and rotation, moved so that the first corner lies at (0, 0). [ft]
    said : tuple of str
        What was assumed, healed and left out, as `field path = value`.

    Raises
    ------
    PlanError
        If there is no file, no layer, or not exactly one closed outline of straight walls and of a sensible size.
    """
    try:
        document = open_drawing(path)
        return _read(_named_layer(_layers(document, path), layer, path), _code(document), unit, path)
    except PlanError as why:
        if isinstance(why, _NoLayerError) and not set("*?,") & set(layer):
            raise
        return _found_on(layer, unit, path, why)


class _NoLayerError(PlanError):
    """There is no such layer: nothing to look for on it."""


def _found_on(name: str, unit: str | None, path: Path, why: PlanError) -> tuple[tuple[Point, ...], tuple[str, ...]]:
    """The outline around double walls on the layers of that name, where it is beyond doubt."""
    from export.architects_drawing.picking import corners_ft, unit_question
    from export.architects_drawing.search import Request, search_drawing

    try:
        found = search_drawing(path, Request(layers=tuple(part.strip() for part in name.split(",")), unit=unit))
    except PlanError:
        raise why from None
    if not (found.sure and found.unit_sure):
        if found.candidates and found.candidates[0].double >= WALLS_DOUBLE:
            doubt = unit_question(found) or f"{len(found.candidates)} outlines may be the house"
            raise PlanError(
                f"{path} layer {shown(name)}: {doubt}; strapline outline {path} --layers {shown(name)} numbers them, "
                "and with --pick and --write writes the plan"
            )
        raise why from None
    first = found.candidates[0]
    said = [
        f"{path.name} layer {shown(name)}, {feet_inches(first.size_ft[0])} by {feet_inches(first.size_ft[1])}, around "
        f"{first.how}; its first corner, drawn at {place(first.corners[0])}, is (0, 0) here",
        *([f"in {found.unit.words} ({found.unit.known_by})"] if found.unit.known_by else []),
        *(f"an opening of {feet_inches(wide)} at {place(at)} is closed" for wide, at in first.closed),
        *(f"a free wall {long:.0f} ft long at {place(at)} is left out" for long, at in first.cut),
    ]
    return corners_ft(first, found), tuple(f"{WHERE} = {s}" for s in said)


def _layers(document: Drawing, path: Path) -> dict[str, Layer]:
    try:
        return layers_of(document)
    except PlanError as problem:
        raise PlanError(f"{path}: {problem}") from None
    except BROKEN:
        raise PlanError(f"{path}: this is a broken DXF file; {RIGHT}") from None


def _code(document: Drawing) -> int:
    return int(document.header.get("$INSUNITS", 0) or 0)


def _named_layer(layers: dict[str, Layer], name: str, path: Path) -> Layer:
    if name.lower() in layers:
        return layers[name.lower()]
    nearest = difflib.get_close_matches(name.lower(), layers, n=1, cutoff=0.0)[0]
    raise _NoLayerError(f"{path}: there is no layer {shown(name)}; the nearest is {shown(layers[nearest].name)}")


def _read(layer: Layer, code: int, asked: str | None, path: Path) -> tuple[tuple[Point, ...], tuple[str, ...]]:
    """The outline on a layer; the file and the layer stand before what is wrong with it."""
    try:
        _check_strokes(layer)
        unit = unit_of(code, asked, size_of(layer.chains))
        loops, rest = join(layer.chains, unit.ft)
        loop, left_out = _outside(layer, loops, rest, unit)
        size = size_of([loop.chain])
        check_sense(unit, size)
    except PlanError as problem:
        raise PlanError(f"{path} layer {shown(layer.name)}: {problem}") from None
    x0, y0 = loop.corners[0]
    corners = tuple((round((x - x0) * unit.ft, 9) + 0.0, round((y - y0) * unit.ft, 9) + 0.0) for x, y in loop.corners)
    said = [
        f"{path.name} layer {shown(layer.name)}, {size_words(size, unit.ft)}; its first corner, drawn at "
        f"{place(loop.corners[0])}, is (0, 0) here",
        *([f"in {unit.words} ({unit.known_by})"] if unit.known_by else []),
        *(f"a gap of {width * 12:.2f} in. at {place(p)} is closed" for p, width in loop.gaps),
        *left_out,
    ]
    return corners, tuple(f"{WHERE} = {words}" for words in said)


def _check_strokes(layer: Layer) -> None:
    """Refuse a layer that is not shown, that has what bends, or on which nothing straight is drawn."""
    if layer.hidden:
        right = "thaw it" if layer.hidden == "frozen" else "turn it on"
        raise PlanError(f"the layer is {layer.hidden}, so what is on it may be out of date; {right} and save again")
    if layer.curves:
        what, at = layer.curves[0]
        more = f" and {len(layer.curves) - 1} more" if len(layer.curves) > 1 else ""
        raise PlanError(f"there is {what} at {place(at)}{more}; walls are straight, so draw it as straight lines")
    if layer.chains:
        return
    if layer.blocks:
        raise PlanError(_in_blocks(layer))
    if layer.others:
        only = ", ".join(f"{n} {kind}" for kind, n in sorted(layer.others.items()))
        raise PlanError(f"there are no lines or polylines on it, only {only}; draw the outside walls as a polyline")
    raise PlanError("nothing is drawn on it in the model; name the layer of the outside walls")


def _in_blocks(layer: Layer) -> str:
    names = [shown(name) for name in layer.blocks]
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    blocks = f"block{'s' if len(names) > 1 else ''} {', '.join(names[:MOST_NAMED])}{more}"
    return f"its lines are inside the {blocks}; explode what holds the outside walls and save again"


def _outside(layer: Layer, loops: Sequence[Loop], rest: Sequence[Broken], unit: Unit) -> tuple[Loop, tuple[str, ...]]:
    """The one loop that has all else inside it, and what is left out for it."""
    if not loops:
        if layer.blocks:
            raise PlanError(_in_blocks(layer))
        if not rest:
            raise PlanError("its lines are all shorter than a wall; name the layer of the outside walls")
        raise PlanError(max(rest, key=lambda b: size_of(b.chains)).why)
    by_size = sorted(loops, key=lambda loop: -size_of([loop.chain])[0])
    outer, inner = by_size[0], by_size[1:]
    crossed = crossing(outer)
    if crossed is not None:
        raise PlanError(f"the outline crosses or touches itself at {place(crossed)}; draw it once around the house")
    house = outer.ring.buffer(GAP_FT / unit.ft, join_style="mitre")
    _check_rivals(outer, inner, house, unit)
    for broken in rest:
        outside = next((c for c in broken.chains if not house.covers(shapely.LineString(c.points))), None)
        if outside is not None:
            at = next((p for p in outside.points if not house.covers(shapely.Point(p))), outside.points[0])
            raise PlanError(
                f"a line reaches outside the closed outline at {place(at)}; leave only the outside walls on it"
            )
    n_lines = sum(len(b.chains) for b in rest)
    left_out = (
        (len(inner), "closed outline{} inside it"),
        (n_lines, "open line{} inside it"),
        (len(layer.blocks), "block{} with lines of the layer"),
    )
    return outer, tuple(f"{n} {what.format('s' if n > 1 else '')} left out" for n, what in left_out if n)


def _check_rivals(outer: Loop, inner: Sequence[Loop], house: shapely.Polygon, unit: Unit) -> None:
    """Refuse a layer on which it is not clear which loop is the house: one beside another, or a small one inside."""
    beside = [loop for loop in inner if not house.covers(shapely.LineString((*loop.corners, loop.corners[0])))]
    rings = [loop.ring for loop in inner if loop.ring.is_valid]
    rooms = shapely.union_all(rings).area > INNER_SHARE * outer.ring.area
    smaller = [loop for loop in inner if not rooms and size_of([loop.chain])[0] * unit.ft >= SENSE_FT[0]]
    rivals = beside or smaller
    if rivals:
        named = [f"{size_words(size_of([r.chain]), unit.ft)} at {place(r.corners[0])}" for r in (outer, *rivals)]
        more = f" and {len(named) - MOST_NAMED} more" if len(named) > MOST_NAMED else ""
        raise PlanError(
            f"there are {len(named)} closed outlines that may be the house: {'; '.join(named[:MOST_NAMED])}{more}; "
            "leave one of them on the layer"
        )
