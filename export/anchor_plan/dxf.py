"""Run -> anchor-plan.dxf: the house at full size in model space, its sheets in paper space.

Model space holds the house alone, with marks and dimensions, so that another drawing can take it as a reference and
a reader without paper space still has all of it; the sheets look at it to scale and hold border, notes and the walls
drawn apart. Where a reader shows paper space too they lie as small copies under the house's lower left corner.
"""

from __future__ import annotations

import io
import math
from collections.abc import Callable, Sequence

import ezdxf
import shapely
from ezdxf.document import Drawing
from ezdxf.filemanagement import new
from ezdxf.layouts.base import BaseLayout
from ezdxf.layouts.layout import Paperspace

from export.anchor_plan.dxf_document import set_up
from export.anchor_plan.dxf_entities import add_anchor, add_anchor_block, add_running_dimension, add_title_cells
from export.anchor_plan.dxf_strokes import BY_LAYER, Placement, add_strokes
from export.anchor_plan.names import covered, readable_deg
from export.anchor_plan.rows import wall_lines
from export.anchor_plan.sheets import ARCH_D, TABLOID, anchor_plan_sheets
from export.paper.block import Block, paragraphs, placed
from export.paper.sheet import (
    PLAN_LAYERS,
    SMALLEST_TEXT_IN,
    Align,
    Layer,
    Point,
    Primitive,
    RunningDimension,
    Sheet,
    Stroke,
    Symbol,
    Text,
    TitleCells,
    View,
    along,
)
from export.paper.symbols import UNRESOLVED, plain_strokes, used_signs
from export.paper.zone_hatches import families, zone_shape
from framing.run import CAUTION, Run

BETWEEN_SHEETS_IN = 2.0
BESIDE_STRAP_IN = 0.42
CAUTION_WIDTH_IN = 12.0
CAUTION_BELOW_IN = 0.3
ONE_TO_ONE = (1, 1)


def anchor_plan_dxf(run: Run) -> bytes:
    """The anchor placement plan as DXF (R2010, unit inch); equal input gives equal bytes.

    Each strap is a block insert at its point with attributes, and each mark a plain text in its row.
    """
    return dxf_bytes(lambda: _drawing(run))


def dxf_bytes(draw: Callable[[], Drawing]) -> bytes:
    """A drawing as a file without a clock in it."""
    options = ezdxf.options  # type: ignore[attr-defined]  # the library shows it without exporting it
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        file = io.StringIO()
        draw().write(file)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return file.getvalue().encode("utf-8")


def _drawing(run: Run) -> Drawing:
    doc = new("R2010")
    large, small = anchor_plan_sheets(run, ARCH_D), anchor_plan_sheets(run, TABLOID)
    plan = large[0]
    factor = _units_per_in(plan.view)
    set_up(doc, factor)
    for sign in (*used_signs(run).values(), UNRESOLVED):
        add_anchor_block(doc, sign, factor)
    _fill_model(doc, run, plan)
    _set_extents(doc, run, plan)
    corner = _model_point(plan.view, (0.0, 0.0))
    x, y = corner[0], corner[1] - ARCH_D.height_in - BETWEEN_SHEETS_IN
    doc.layouts.rename("Layout1", plan.name)
    for k, sheet in enumerate((*large, *small)):
        layout = doc.paperspace(sheet.name) if k == 0 else doc.layouts.new(sheet.name)
        _fill_paper(doc, layout, sheet, (x, y), is_large=k < len(large))
        x += sheet.width_in + BETWEEN_SHEETS_IN
    for each in doc.layouts:
        settings = each.dxf_layout.dxf
        settings.plot_configuration_file = settings.paper_size = settings.current_style_sheet = ""
    for name in sorted(doc.entitydb.dxf_types_in_use()):  # the library would take them from a set, in any order
        doc.classes.add_class(name)
    return doc


def _units_per_in(view: View) -> float:
    """Drawing units (inches of house) per inch of paper."""
    return 12.0 / view.scale.in_per_ft


def _model_point(view: View, p: Point) -> Point:
    x, y = view.plan_ft(p)
    return (12.0 * x, 12.0 * y)


def _model_placement(view: View) -> Placement:
    """Where a sheet's paper lies around the house in model space."""
    return Placement(point=lambda p: _model_point(view, p), turn_deg=-view.angle_deg, factor=_units_per_in(view))


def _fill_model(doc: Drawing, run: Run, sheet: Sheet) -> None:
    """The house with its marks, rows and dimensions, and the caution under it."""
    marks = {m.mark: m for m in run.schedule.marks}
    space, here = doc.modelspace(), _model_placement(sheet.view)
    plain: list[Primitive] = []
    for s in sheet.drawing:
        if isinstance(s, Symbol):
            mark = marks[s.mark]
            straps = mark.straps or mark.bearing.straps[:1]
            add_anchor(space, mark, straps[s.strap - 1], s.sign, here)
        elif isinstance(s, RunningDimension):
            add_running_dimension(doc, space, s, here)
        else:
            plain += plain_strokes(s)
    left, bottom, _, _ = _drawn_on(sheet)
    caution = placed(_caution(run), (left, bottom - CAUTION_BELOW_IN))
    add_strokes(space, [*plain, *_marks_without_row(run, sheet), *caution], here)
    if not run.by_engineer:
        _add_deck_zones(doc, run, here, sheet.view)


def _add_deck_zones(doc: Drawing, run: Run, here: Placement, view: View) -> None:
    """The wind zones of the roof deck on a layer that is off: edge, name and suction, hatched as on deck.pdf."""
    space, attributes = doc.modelspace(), {"layer": Layer.DECK.value}
    for zone in run.cover.deck.zones:
        shape = zone_shape(run, zone.patches, view.paper)
        hatch = space.add_hatch(color=BY_LAYER, dxfattribs=attributes)
        lines = [(angle - here.turn_deg, apart * here.factor) for angle, apart in families(zone)]
        if lines:
            hatch.set_pattern_fill("ZONE", color=BY_LAYER, definition=[_pattern_line(*line) for line in lines])
        for part in shapely.get_parts(shape):
            for ring in (part.exterior, *part.interiors):
                points = [here.point((x, y)) for x, y in ring.coords[:-1]]
                space.add_lwpolyline(points, close=True, dxfattribs=attributes)
                hatch.paths.add_polyline_path(points, is_closed=True)
        if not lines:
            space.delete_entity(hatch)
        at = shapely.get_parts(shape)[0].representative_point()
        words = f"{zone.name}, {zone.suction_psf:.0f} psf"
        text = Text(at=(at.x, at.y), text=words, height_in=SMALLEST_TEXT_IN, layer=Layer.DECK, align=Align.CENTRE)
        add_strokes(space, [text], here)


def _pattern_line(angle_deg: float, apart: float) -> list[object]:
    """One family of a hatch pattern: angle, base point, step from line to line, no dashes."""
    a = math.radians(angle_deg)
    return [angle_deg, (0.0, 0.0), (-apart * math.sin(a), apart * math.cos(a)), []]


def _marks_without_row(run: Run, sheet: Sheet) -> list[Text]:
    """The marks whose rows stand apart on the sheets, beside their straps, so that the model alone has them too."""
    said = {s.text for s in sheet.drawing if isinstance(s, Text) and s.layer is Layer.MARKS}
    outward = {w.name: sheet.view.turned(w.outward) for w in wall_lines(run)}
    texts = []
    for m in (m for m in run.schedule.marks if not m.bearing.by_engineer and m.mark not in said):
        out = outward[m.bearing.wall]
        angle = math.degrees(math.atan2(out[1], out[0]))
        readable = readable_deg(angle)
        align = Align.LEFT if abs(readable - angle) < 1.0 else Align.RIGHT
        for strap in m.straps or m.bearing.straps[:1]:
            x, y = sheet.view.paper(strap.point_ft)
            at = along(along((x, y), angle, BESIDE_STRAP_IN), readable - 90.0, SMALLEST_TEXT_IN / 2)
            texts.append(
                Text(
                    at=at,
                    text=m.mark,
                    height_in=SMALLEST_TEXT_IN,
                    layer=Layer.MODEL_MARKS,
                    angle_deg=readable,
                    align=align,
                )
            )
    return texts


def _drawn_on(sheet: Sheet) -> tuple[float, float, float, float]:
    """Left, bottom, right, top of the sheet's paper that the house with its rows covers. [in]."""
    left, bottom, right, top = shapely.total_bounds(covered(sheet.drawing))
    return float(left), float(bottom), float(right), float(top)


def _caution(run: Run) -> Block:
    """The caution, the fingerprint and what is open about the wind, for who takes the model alone."""
    said = (f"{CAUTION} Fingerprint {run.fingerprint}.", *run.wind_doubts)
    return paragraphs([(words, SMALLEST_TEXT_IN, False) for words in said], CAUTION_WIDTH_IN, Layer.NOTES)


def _set_extents(doc: Drawing, run: Run, sheet: Sheet) -> None:
    """The model's extents: the house with its rows, and the caution below it. Points that no plot shows mark their
    corners for readers that take them from what is drawn and leave out its text.
    """
    left, bottom, right, top = _drawn_on(sheet)
    reach = (max(right, left + CAUTION_WIDTH_IN), bottom - CAUTION_BELOW_IN - _caution(run).height_in)
    corners = [_model_point(sheet.view, (x, y)) for x in (left, reach[0]) for y in (reach[1], top)]
    low = (min(x for x, _ in corners), min(y for _, y in corners))
    high = (max(x for x, _ in corners), max(y for _, y in corners))
    space = doc.modelspace()
    for corner in (low, high):
        space.add_point(corner, {"layer": "Defpoints"})
    space.reset_extents((*low, 0.0), (*high, 0.0))
    space.reset_limits(low, high)
    doc.header["$EXTMIN"], doc.header["$EXTMAX"] = (*low, 0.0), (*high, 0.0)
    doc.header["$LIMMIN"], doc.header["$LIMMAX"] = low, high
    doc.set_modelspace_vport(high[1] - low[1], ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2))


def _fill_paper(doc: Drawing, layout: Paperspace, sheet: Sheet, corner: Point, *, is_large: bool) -> None:
    """A sheet in paper space: a viewport for what model space has at this scale, the rest as strokes."""
    _set_up_page(layout, sheet, corner)
    here = Placement(point=lambda p: (p[0] + corner[0], p[1] + corner[1]), turn_deg=0.0, factor=1.0)
    strokes: list[Stroke] = [*sheet.surround, *sheet.apart]
    if not is_large:
        strokes += [s for s in sheet.drawing if getattr(s, "layer", None) not in PLAN_LAYERS]
    _add_paper_strokes(doc, layout, strokes, here)
    if sheet.drawing:
        hidden = [Layer.MODEL_MARKS] if is_large else [i for i in Layer if i not in PLAN_LAYERS]
        _add_viewport(layout, sheet, corner, frozen=tuple(i.value for i in hidden))


def _add_paper_strokes(doc: Drawing, layout: BaseLayout, strokes: Sequence[Stroke], here: Placement) -> None:
    for s in strokes:
        if isinstance(s, TitleCells):
            add_title_cells(doc, layout, s, here)
    plain = (p for s in strokes if not isinstance(s, TitleCells) for p in plain_strokes(s))
    add_strokes(layout, plain, here)


def _set_up_page(layout: Paperspace, sheet: Sheet, corner: Point) -> None:
    """The paper; its lower left corner lies at `corner` so that readers without paper space are not disturbed."""
    layout.page_setup(
        size=(sheet.width_in, sheet.height_in),
        margins=(0, 0, 0, 0),
        units="inch",
        offset=(-corner[0], -corner[1]),
        scale=ONE_TO_ONE,
    )
    far = (corner[0] + sheet.width_in, corner[1] + sheet.height_in)
    layout.reset_limits(corner, far)
    layout.reset_extents((*corner, 0.0), (*far, 0.0))
    main = layout.main_viewport()
    middle = (corner[0] + sheet.width_in / 2, corner[1] + sheet.height_in / 2)
    if main is not None:
        main.dxf.center = middle
        main.dxf.view_center_point = middle
        main.dxf.layer = Layer.VIEWPORT.value


def _add_viewport(layout: Paperspace, sheet: Sheet, corner: Point, *, frozen: tuple[str, ...]) -> None:
    """The window on model space at the sheet's scale, turned as the sheet is."""
    left, bottom, right, top = sheet.window
    middle = ((left + right) / 2, (bottom + top) / 2)
    x, y = _model_point(sheet.view, middle)
    a = math.radians(sheet.view.angle_deg)
    seen = (x * math.cos(a) - y * math.sin(a), x * math.sin(a) + y * math.cos(a))
    viewport = layout.add_viewport(
        center=(middle[0] + corner[0], middle[1] + corner[1]),
        size=(right - left, top - bottom),
        view_center_point=seen,
        view_height=(top - bottom) * _units_per_in(sheet.view),
        dxfattribs={"layer": Layer.VIEWPORT.value, "view_twist_angle": sheet.view.angle_deg},
    )
    viewport.frozen_layers = list(frozen)
