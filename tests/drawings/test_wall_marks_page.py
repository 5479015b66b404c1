"""wall-marks.html as a file: its figures equal the schedule, no name becomes markup, nothing outside is named."""

from __future__ import annotations

import base64
import hashlib
import html
import json
import re
from html.parser import HTMLParser
from typing import Any

import pytest

from drawings import marked_run
from export.wall_marks.phone_page import wall_marks_html
from framing.plan import Side
from framing.run import CAUTION, Run

RUNS = {
    "house": marked_run.house(),
    "crowded": marked_run.crowded(),
    "supported": marked_run.supported(),
    **{name: marked_run.sample(name) for name in marked_run.SAMPLES},
}
HOSTILE = "</script><script>alert(1)</script><img src=x onerror=alert(2)> & \" ' <!-- @DATA@ é Дом"


class Elements(HTMLParser):
    """The elements of a page as a browser's parser splits them: (tag, attributes, text inside)."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None], list[str]]] = []
        self.inside = False
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs), []))
        self.inside = True

    def handle_endtag(self, tag: str) -> None:
        self.inside = False

    def handle_data(self, data: str) -> None:
        if self.inside:
            self.found[-1][2].append(data)

    def named(self, tag: str) -> list[tuple[dict[str, str | None], str]]:
        return [(attrs, "".join(text)) for name, attrs, text in self.found if name == tag]


def page_of(run: Run) -> Elements:
    return Elements(wall_marks_html(run).decode("utf-8"))


def data_of(run: Run) -> dict[str, Any]:
    return next(json.loads(text) for attrs, text in page_of(run).named("script") if attrs.get("id") == "plan")


def figure(length_ft: float) -> tuple[str, str]:
    """Feet-inches and inches of a length that is a whole number of eighths of an inch, put together by hand."""
    eighths = round(length_ft * 96)
    assert eighths == pytest.approx(length_ft * 96, abs=1e-6)
    sign, (whole, rest) = "-" if eighths < 0 else "", divmod(abs(eighths), 8)
    part = {0: "", 1: " 1/8", 2: " 1/4", 3: " 3/8", 4: " 1/2", 5: " 5/8", 6: " 3/4", 7: " 7/8"}[rest]
    return f"{sign}{whole // 12}'-{whole % 12}{part}\"", f'{sign}{whole}{part}"'


@pytest.mark.parametrize("name", marked_run.SAMPLES)
def test_each_mark_has_the_share_of_its_anchor_with_its_three_parts_and_the_rule_that_makes_one_of_them(
    name: str,
) -> None:
    rows = [m for wall in data_of(RUNS[name])["walls"] for m in wall["marks"]]
    assert any(r["used"] for r in rows)
    for row in rows:
        assert bool(row["used"]) == row["resolved"] == ("ratio" in row)
        if row["used"]:
            parts = [
                row[f"ratio_{p}"] for p in ("uplift", "parallel", "perpendicular") if row[f"ratio_{p}"] is not None
            ]
            assert row["rule"] == "sum"  # the shipped anchors name no other
            assert row["ratio"] == pytest.approx(sum(parts), abs=2e-4)
            figures = [float(f) for f in re.findall(r"\d\.\d\d", row["used"].split(". In the case: ")[0])]
            assert figures == pytest.approx([row["ratio"], *parts], abs=5.1e-3)
            assert row["ratio_case"] in row["used"]


@pytest.mark.parametrize("name", RUNS)
def test_the_page_holds_every_mark_of_the_schedule_in_its_order(name: str) -> None:
    run = RUNS[name]
    rows = [m for wall in data_of(run)["walls"] for m in wall["marks"]]
    told = [(r["mark"], r["member"], r["anchor"], r["count"], r["side"], r["resolved"]) for r in rows]
    assert told == [
        (m.mark, m.bearing.member, m.anchor.id if m.anchor else "", m.count, m.side.value, m.anchor is not None)
        for m in run.schedule.marks
        if not m.bearing.by_engineer  # on a porch beam no strap is set
    ]


def test_the_page_gives_each_strap_face_from_both_ends_in_feet_and_in_inches() -> None:
    run = RUNS["house"]
    marks = {m.mark: m for m in run.schedule.marks}
    n_faces = 0
    for wall, told in zip(run.outline.walls, data_of(run)["walls"], strict=True):
        for row in told["marks"]:
            mark = marks[row["mark"]]
            assert row["centre"] == figure(mark.bearing.station_ft)[0]
            sides = [Side.START, Side.FAR] if mark.side is Side.BOTH else [mark.side]
            assert [t["side"] for t in row["ticks"]] == [s.value for s in sides]
            for tick, side in zip(row["ticks"], sides, strict=True):
                beside = (-1 if side is Side.START else 1) * mark.bearing.plies * 0.75 / 12
                by_hand = {"corner jack": 4.875 / 12, "side jack": 28.0 if mark.mark == "W4-12" else None}
                ft = by_hand.get(mark.bearing.kind.value) or mark.bearing.station_ft + beside
                assert (tick["start"], tick["start_in"]) == figure(ft)
                assert (tick["far"], tick["far_in"]) == figure(wall.length_ft - ft)
                n_faces += 1
    assert n_faces == len(marks) + 1


def test_each_wall_tells_its_count_by_type() -> None:
    walls = data_of(RUNS["house"])["walls"]
    # 22 marks on W1: a pair (two straps), one unresolved, twenty single straps.
    assert walls[0]["straps"].startswith("22 marks. Straps: 22 x slender = 22 in all. 1 UNRESOLVED")
    assert data_of(RUNS["supported"])["walls"][0]["straps"] == "No marks: no strap on this wall."


def test_a_hostile_project_name_stays_text() -> None:
    run = marked_run.house(HOSTILE)
    page = page_of(run)
    assert data_of(run)["project"] == HOSTILE
    assert len(page.named("script")) == len(page_of(RUNS["house"]).named("script")) == 2
    assert page.named("img") == []
    assert page.named("title") == [({}, f"Wall marks, {HOSTILE}")]


def test_the_browser_is_told_to_run_this_script_alone_and_to_fetch_nothing() -> None:
    page = page_of(marked_run.house(HOSTILE))
    policy = next(a["content"] for a, _ in page.named("meta") if a.get("http-equiv") == "Content-Security-Policy")
    rules = dict(rule.strip().split(" ", 1) for rule in (policy or "").split(";"))
    script = next(text for attrs, text in page.named("script") if "type" not in attrs)
    style = next(text for _, text in page.named("style"))
    for name, text in (("script-src", script), ("style-src", style)):
        digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
        assert rules.pop(name) == f"'sha256-{digest}'"
    assert rules == {"default-src": "'none'", "base-uri": "'none'", "form-action": "'none'"}


def test_the_page_names_nothing_outside_itself() -> None:
    page = page_of(RUNS["house"])
    assert not [a for _, a, _ in page.found if {"src", "href", "srcset", "action", "style"} & a.keys()]
    assert not [k for _, a, _ in page.found for k in a if k.startswith("on")]
    text = wall_marks_html(RUNS["house"]).decode()
    assert re.findall(r"https?:|//[a-z]+\.|@import|url\(|fetch\(|XMLHttp|WebSocket|sendBeacon|import\(", text) == []
    assert re.findall(r"innerHTML|outerHTML|insertAdjacent|document\.write|eval\(", text) == []


def test_the_page_says_the_caution_the_fingerprint_and_that_the_bands_have_no_source() -> None:
    text = html.unescape(wall_marks_html(RUNS["house"]).decode())
    assert CAUTION in text
    assert RUNS["house"].fingerprint in text
    assert "SAMPLE CATALOGUE: invented anchors" in text
    placing = " ".join(data_of(RUNS["house"])["placing"])
    assert 'up to 1/8" good; up to 1/2" a filler; over that ask the engineer; over 1 1/2" out of reach' in placing
    assert "(common practice, no source)" in placing


def test_equal_runs_give_equal_bytes() -> None:
    assert wall_marks_html(marked_run.house()) == wall_marks_html(marked_run.house())
