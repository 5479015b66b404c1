"""Run -> anchor-plan.pdf: the sheets of the anchor placement plan, vector, searchable, to scale."""

from __future__ import annotations

from export.anchor_plan.sheets import PAPERS, anchor_plan_sheets
from export.paper.pdf import Page, pdf_of
from export.paper.symbols import plain_strokes
from framing.run import Run


def anchor_plan_pdf(run: Run) -> bytes:
    """The anchor placement plan on ARCH D, then on tabloid; equal input gives equal bytes."""
    pages = (
        Page(
            width_in=sheet.width_in,
            height_in=sheet.height_in,
            strokes=tuple(plain for s in sheet.strokes for plain in plain_strokes(s)),
            outline=sheet.name,
        )
        for paper in PAPERS
        for sheet in anchor_plan_sheets(run, paper)
    )
    return pdf_of(pages, f"Tie-beam anchor placement plan, {run.fingerprint}")
