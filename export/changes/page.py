"""Changes -> changes.html: the verdict for the crew lead first, then every changed mark, nothing fetched."""

from __future__ import annotations

import base64
import hashlib

from export.changes.differences import Change
from export.changes.sources import HouseThen
from export.changes.words import change_words, verdict
from export.options.page import STYLE
from export.report.markup import bullets, esc, paragraph, section, table
from framing.run import CAUTION


def changes_html(before: HouseThen, after: HouseThen, changes: tuple[Change, ...]) -> bytes:
    """The page; equal input gives equal bytes."""
    digest = base64.b64encode(hashlib.sha256(STYLE.encode()).digest()).decode()
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
    return (
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">'
        f"<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'sha256-{digest}'\">"
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{esc(f'What changed: {after.name}')}</title><style>{STYLE}</style></head><body>{body}</body></html>"
    ).encode()


NOTE = (
    "Marks are matched by where they stand and what stands on them, not by their numbers. A load is told where "
    "it differs by "
    "more than 50 lb and a tenth (common practice, no source); it alone does not make a sheet useless."
)
