"""What is open about the wind stands on every output that people read."""

from __future__ import annotations

import html
import json

from export.report.page import report_html
from export.tables.run_json import run_json
from export.walkthrough.page import walkthrough_html
from export.wall_marks.pdf import wall_mark_pages
from export.wall_marks.phone_page import wall_marks_html
from export.words.check import findings_text
from framing.anchors.catalogue_file import shipped_catalogue
from framing.run import make_run
from invariants.houses import plan_of

BOX = [(0, 0), (30, 0), (30, 20), (0, 20)]


def test_every_page_tells_that_openings_are_not_declared_and_what_a_broken_one_makes() -> None:
    run = make_run(plan_of(BOX), shipped_catalogue())
    (said,) = run.wind_doubts
    assert "debris" in said
    for page in (report_html(run), wall_marks_html(run), walkthrough_html(run)):
        assert said in html.unescape(page.decode())
    assert said in json.loads(run_json(run))["notes"]
    assert said in " ".join(findings_text(run).split())
    on_strips = " ".join(getattr(stroke, "text", "") for page in wall_mark_pages(run)[:1] for stroke in page)
    assert said in on_strips
