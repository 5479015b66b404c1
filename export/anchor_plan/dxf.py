"""Run -> anchor-plan.dxf: the house at full size in inches, and paper-space sheets that look at it to scale.

Model space holds the ARCH D sheets at full size, drawn around the house, for readers without paper space; there
the paper-space sheets show up as small copies under the lower left corner.
"""

from __future__ import annotations

import io
import math

import ezdxf
from ezdxf.document import Drawing
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Paperspace

from export.anchor_plan.dxf_entities import (
    add_anchor_block,
    add_insert,
    add_running_dimension,
    set_up,
)
from export.anchor_plan.dxf_strokes import Pencil, Placement, add_strokes
from export.anchor_plan.sheets import ARCH_D, TABLOID, anchor_plan_sheets
from export.paper.sheet import (
    PLAN_LAYERS,
    Layer,
    Point,
    Primitive,
    RunningDimension,
    Sheet,
    Stroke,
    Symbol,
    View,
)
from export.paper.symbols import UNRESOLVED, plain_strokes, used_signs
from framing.run import Run

BETWEEN_SHEETS_IN = 2.0
PAPER_NAMES = {ARCH_D.name: "ARCH_D", TABLOID.name: "ANSI_B"}


def anchor_plan_dxf(run: Run) -> bytes:
    """The anchor placement plan as DXF (R2010, unit inch); equal input gives equal bytes.

    Each mark is a block insert at its strap point with attributes, and a plain text in its row.
    """
    options = ezdxf.options  # type: ignore[attr-defined]  # the library shows it without exporting it
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        file = io.StringIO()
        _drawing(run).write(file)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return file.getvalue().encode("utf-8")


def _drawing(run: Run) -> Drawing:
    doc = new("R2010")
    large, small = anchor_plan_sheets(run, ARCH_D), anchor_plan_sheets(run, TABLOID)
    factor = _units_per_in(large[0].view)
    set_up(doc, factor)
    for sign in (*used_signs(run).values(), UNRESOLVED):
        add_anchor_block(doc, sign, factor)
    _fill_model(doc, run, large)
    corner = _model_point(large[0].view, (0.0, 0.0))
    x, y = corner[0], corner[1] - ARCH_D.height_in - 2.0
    doc.layouts.rename("Layout1", large[0].name)
    for k, sheet in enumerate((*large, *small)):
        layout = doc.paperspace(sheet.name) if k == 0 else doc.layouts.new(sheet.name)
        _fill_paper(layout, sheet, (x, y), k, large)
        x += sheet.width_in + BETWEEN_SHEETS_IN
    for name in sorted(doc.entitydb.dxf_types_in_use()):  # the library would take them from a set, in any order
        doc.classes.add_class(name)
    return doc


def _units_per_in(view: View) -> float:
    """Drawing units (inches of house) per inch of paper."""
    return 12.0 / view.scale.in_per_ft


def _model_point(view: View, p: Point) -> Point:
    x, y = view.plan_ft(p)
    return (12.0 * x, 12.0 * y)


def _model_placement(view: View, k: int) -> Placement:
    """Where the k-th large sheet lies in model space: the first around the house, the others to its right."""
    across = k * (ARCH_D.width_in + BETWEEN_SHEETS_IN)
    return Placement(
        point=lambda p: _model_point(view, (p[0] + across, p[1])),
        turn_deg=-view.angle_deg,
        factor=_units_per_in(view),
    )


def _fill_model(doc: Drawing, run: Run, sheets: tuple[Sheet, ...]) -> None:
    space = doc.modelspace()
    pencil = Pencil(space)
    marks = {m.mark: m for m in run.schedule.marks}
    for k, sheet in enumerate(sheets):
        here = _model_placement(sheet.view, k)
        plain: list[Primitive] = []
        for s in (*sheet.surround, *sheet.drawing):
            if isinstance(s, Symbol) and s.strap == 1:
                add_insert(pencil, marks[s.mark], s.sign, here)
            elif isinstance(s, RunningDimension):
                add_running_dimension(pencil, doc.blocks, s, here)
            else:
                plain += plain_strokes(s)
        pencil.done()
        add_strokes(space, plain, here)


def _fill_paper(layout: Paperspace, sheet: Sheet, corner: Point, k: int, large: tuple[Sheet, ...]) -> None:
    """A sheet in paper space: a viewport for what model space has at this scale, the rest as strokes."""
    _set_up_page(layout, sheet, corner)
    here = Placement(point=lambda p: (p[0] + corner[0], p[1] + corner[1]), turn_deg=0.0, factor=1.0)
    is_large = k < len(large)
    strokes: list[Stroke] = list(sheet.surround)
    if not is_large:
        strokes += [s for s in sheet.drawing if isinstance(s, Symbol) or getattr(s, "layer", None) not in PLAN_LAYERS]
    add_strokes(layout, [plain for s in strokes for plain in plain_strokes(s)], here)
    if is_large:
        _add_viewport(layout, sheet, corner, k, frozen=())
    elif k == len(large):
        _add_viewport(layout, sheet, corner, 0, frozen=tuple(i.value for i in Layer if i not in PLAN_LAYERS))


def _set_up_page(layout: Paperspace, sheet: Sheet, corner: Point) -> None:
    """The paper; its lower left corner lies at `corner` so that readers without paper space are not disturbed."""
    name = PAPER_NAMES[sheet.name.split(",")[0]]
    layout.page_setup(
        size=(sheet.width_in, sheet.height_in),
        margins=(0, 0, 0, 0),
        units="inch",
        offset=(-corner[0], -corner[1]),
        scale=(1, 1),
        name=name,
    )
    layout.reset_limits(corner, (corner[0] + sheet.width_in, corner[1] + sheet.height_in))
    layout.dxf_layout.dxf.extmin = (*corner, 0)
    layout.dxf_layout.dxf.extmax = (corner[0] + sheet.width_in, corner[1] + sheet.height_in, 0)
    main = layout.main_viewport()
    middle = (corner[0] + sheet.width_in / 2, corner[1] + sheet.height_in / 2)
    if main is not None:
        main.dxf.center = middle
        main.dxf.view_center_point = middle
        main.dxf.layer = Layer.VIEWPORT.value


def _add_viewport(layout: Paperspace, sheet: Sheet, corner: Point, k: int, *, frozen: tuple[str, ...]) -> None:
    """The window on model space at the sheet's scale, turned as the sheet is."""
    left, bottom, right, top = sheet.window
    middle = ((left + right) / 2, (bottom + top) / 2)
    x, y = _model_placement(sheet.view, k).point(middle)
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
