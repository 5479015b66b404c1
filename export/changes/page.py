"""Changes -> changes.html: the verdict for the crew lead first, then every changed mark, nothing fetched."""

from __future__ import annotations

from export.changes.differences import Change
from export.changes.sources import HouseThen
from export.changes.words import change_words, verdict
from export.report.markup import bullets, esc, paragraph, section, table
from export.report.still_page import still_page
from framing.run import CAUTION


def changes_html(before: HouseThen, after: HouseThen, changes: tuple[Change, ...]) -> bytes:
    """The page; equal input gives equal bytes."""
    rows = [
        (esc(c.one.wall), *(esc(m.mark) if m else "-" for m in (c.before, c.after)), esc(change_words(c)))
        for c in changes
        if c.what
    ]
    head = ("wall", "old mark", "new mark", "what changed")
    told = table(head, rows) if rows else paragraph("Every mark is as it was.")
    houses = [
        f"{words}: revision {h.revision or '-'}, {h.date or 'not dated'}, fingerprint {h.fingerprint}, "
        f"{len(h.marks)} marks"
        for words, h in (("before", before), ("after", after))
    ]
    body = (
        f"<h1>What changed: {esc(after.name)}</h1>"
        + "".join(f"<p><b>{esc(line)}</b></p>" for line in verdict(changes))
        + f'<p class="caution">{esc(CAUTION)}</p>'
        + bullets(houses)
        + section("marks", "Mark by mark", paragraph(NOTE), f'<div class="wide">{told}</div>')
        + f'<footer><p class="caution">{esc(CAUTION)}</p></footer>'
    )
    return still_page(f"What changed: {after.name}", body)


NOTE = (
    "Marks are matched by where they stand and what stands on them, not by their numbers. A load is told where "
    "it differs by "
    "more than 50 lb and a tenth (common practice, no source); it alone does not make a sheet useless."
)
