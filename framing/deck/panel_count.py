"""Roof -> deck panels: counted course by course up each face, in pieces that end on a truss."""

from __future__ import annotations

import math
from dataclasses import dataclass

import shapely
from shapely.geometry import box

from framing.roof.surface import Face, Roof
from framing.tolerances import ROUNDING

PANEL_FT = (8.0, 4.0)
PANEL_FT2 = PANEL_FT[0] * PANEL_FT[1]
LEAST_COURSE_FT2 = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelCount:
    """`panels` laid course by course, before waste; the area that they cover, on the slope; the joints between them."""

    panels: float
    area_ft2: float
    joints_ft: float


def count_panels(roof: Roof, spacing_ft: float) -> PanelCount:
    """Panels 4 x 8 ft laid along the eaves, each face by courses 4 ft up its slope.

    A course is as long as it is in the middle of its height, up to the next truss; what is cut off one end of it begins
    another course.

    Source: common practice, no source (courses from the eave, cut-offs used again).
    """
    panels = area = joints = 0.0
    for face in roof.faces:
        stretch = math.hypot(1.0, roof.rise_per_run)
        plan = shapely.Polygon([p[:2] for p in face.ring_ft], [[p[:2] for p in hole] for hole in face.holes_ft])
        for course_ft2 in _courses_ft2(face, plan, stretch):
            panels += math.ceil(course_ft2 / PANEL_FT[1] / spacing_ft - ROUNDING) * spacing_ft / PANEL_FT[0]
            area += course_ft2
            joints += course_ft2 / PANEL_FT[1] + course_ft2 / PANEL_FT[0]
    return PanelCount(panels=panels, area_ft2=area, joints_ft=joints)


def _courses_ft2(face: Face, plan: shapely.Polygon, stretch: float) -> list[float]:
    """The area on the slope of each course of a face, from its lowest edge up. [ft2]"""
    dx, dy = face.downhill
    down = shapely.affinity.affine_transform(plan, [-dy, dx, dx, dy, 0.0, 0.0])  # along the eave, downhill
    x0, low, x1, high = down.bounds
    depth_ft = PANEL_FT[1] / stretch
    out = []
    for k in range(math.ceil((high - low) / depth_ft - ROUNDING)):
        strip = box(x0 - 1.0, high - (k + 1) * depth_ft, x1 + 1.0, high - k * depth_ft)
        area_ft2 = float(down.intersection(strip).area) * stretch
        if area_ft2 > LEAST_COURSE_FT2:
            out.append(area_ft2)
    return out
