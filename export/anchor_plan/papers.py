"""The two sizes of paper that the anchor plan is drawn on, and how a sheet is divided."""

from __future__ import annotations

from dataclasses import dataclass

from export.anchor_plan.rows import TextSizes
from export.paper.sheet import Scale
from export.paper.table import Lettering

GUTTER_IN = 0.15


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A size of paper and how the sheet on it is divided. [in]."""

    name: str
    width_in: float
    height_in: float
    margin_in: float
    column_in: float
    stamp_in: float
    apart: Scale
    sizes: TextSizes
    column_sizes: TextSizes

    @property
    def letters(self) -> Lettering:
        """How the tables in the column are lettered."""
        sizes = self.column_sizes
        return Lettering(title_in=sizes.figure_in, cell_in=sizes.label_in, width_ratio=sizes.width_ratio)

    @property
    def window(self) -> tuple[float, float, float, float]:
        """Left, bottom, right, top of what the plan may cover."""
        right = self.width_in - self.margin_in - self.column_in - 2 * GUTTER_IN
        return (self.margin_in, self.margin_in, right, self.height_in - self.margin_in)


ARCH_D = Paper(
    name="ARCH D",
    width_in=36.0,
    height_in=24.0,
    margin_in=0.5,
    column_in=5.8,
    stamp_in=3.0,
    apart=Scale(in_per_ft=1 / 4, written="1/4 in. = 1 ft"),
    sizes=TextSizes(label_in=3 / 32, figure_in=1 / 8, start_in=3 / 16, width_ratio=1.0, names_in_rows=True),
    column_sizes=TextSizes(label_in=0.115, figure_in=0.16, start_in=0.22, width_ratio=1.0, names_in_rows=True),
)
TABLOID = Paper(
    name="Tabloid",
    width_in=17.0,
    height_in=11.0,
    margin_in=0.3,
    column_in=3.4,
    stamp_in=1.2,
    apart=Scale(in_per_ft=1 / 8, written="1/8 in. = 1 ft"),
    sizes=TextSizes(label_in=3 / 32, figure_in=3 / 32, start_in=5 / 32, width_ratio=0.85, names_in_rows=False),
    column_sizes=TextSizes(label_in=3 / 32, figure_in=0.1, start_in=5 / 32, width_ratio=0.85, names_in_rows=False),
)
PAPERS = (ARCH_D, TABLOID)
