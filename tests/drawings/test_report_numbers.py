"""report.html: the numbers in its sentences equal run.json's, and what is printed is the whole page, each number."""

from __future__ import annotations

import json
import re
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from drawings.marked_run import A_FEW, sample
from drawings.strip_reader import words_of
from drawings.test_report import PLAIN, Tables, number, page_of, product
from drawings.visit import DESK, visit
from export.report.page import report_html
from export.tables.run_json import run_json
from framing.run import Run

FIGURE = re.compile(r"\d+(?:\.\d+)?")
HELD = {"anchor ": 2, "UNRESOLVED: ": 0, "no tie-beam anchor: ": 2}
"""How the line of a mark begins that an anchor holds, one that none holds and one that the engineer connects, and how
many decimals it gives.
"""
# The text that is printed: of every element that can be seen, in the order of the page.
PRINTED = """() => {
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), found = [];
    while (walk.nextNode()) if (walk.currentNode.parentElement.checkVisibility()) found.push(walk.currentNode.data);
    return found.join(" ");
}"""


@cache
def read(name: str) -> tuple[Run, Tables, dict[str, Any]]:
    run = sample(name)
    return run, page_of(run), json.loads(run_json(run))


def said_of(page: Tables, block: str) -> list[str]:
    return [text for where, text in page.lists if where == block]


@pytest.mark.parametrize("name", A_FEW)
def test_what_is_said_in_short_is_what_run_json_holds(name: str) -> None:
    _, page, data = read(name)
    bearings = data["bearings"]
    hardest = max(bearings, key=lambda b: b["uplift_lb"])
    said = said_of(page, "short")
    lifted = sum(b["uplift_lb"] > 0 for b in bearings)
    assert said[0] == f"{len(bearings)} marks, {lifted} of them lift; {len(data['members'])} members."
    assert said[1].startswith(f"The hardest pull is {hardest['uplift_lb']:.1f} lb at ")
    mark, member = re.findall(r"at (\S+) \((.*)\)\.", said[1])[0]
    named = next(b for b in bearings if b["mark"] == mark)
    assert (named["uplift_lb"], named["member"]) == (pytest.approx(hardest["uplift_lb"]), member)
    assert said[2] == f"Roof area in plan, overhangs included: {data['totals']['roof_plan_area_ft2']:.2f} sq ft."
    assert [int(n) for n in FIGURE.findall(said[3])] == ([len(data["unresolved"])] if data["unresolved"] else [])
    assert said[4].startswith("The storm that governs: ")
    n_anchors = sum(b["count"] for b in bearings)
    assert f"worse of both bases: {n_anchors} anchors for " in said[5]
    assert said[6:] == [f"To look at: {f}" for f in data["flags"]] + list(dict.fromkeys(data["notes"]))


@pytest.mark.parametrize("name", A_FEW)
def test_what_governs_each_kind_of_member_is_what_run_json_holds(name: str) -> None:
    _, page, data = read(name)
    rows = page.rows("short", "What governs where")[:-1]
    kinds = Counter(b["kind"] for b in data["bearings"])
    assert {r[0]: int(r[1]) for r in rows} == kinds
    for kind, _, main_frame, cladding, largest, at in rows:
        mine = [b for b in data["bearings"] if b["kind"] == kind]
        by_basis = Counter(b["basis"] for b in mine)
        assert (int(main_frame), int(cladding)) == (by_basis["mwfrs"], by_basis["cladding"])
        assert largest == f"{max(b['uplift_lb'] for b in mine):.1f}"
        assert f"{next(b for b in mine if b['mark'] == at)['uplift_lb']:.1f}" == largest
    counted = data["totals"]["anchors"]
    straps = ", ".join(f"{n} of {anchor}" for anchor, n in sorted(counted.items()))
    assert f"<p>Anchors in all: {straps}.</p>" in report_html(sample(name)).decode()


@pytest.mark.parametrize("name", A_FEW)
def test_the_key_of_the_roof_in_plan_follows_from_its_coefficients_and_the_velocity_pressure(name: str) -> None:
    _, page, data = read(name)
    wind = {f["symbol"]: f["value"] for f in data["wind"]}
    keys = [rows[1:] for block, _, rows in page.tables if block == "zones"]
    assert len(keys) == 2
    for rows, q_psf in zip(keys, (wind["q K_d envelope"], wind["q K_d cladding"]), strict=True):
        assert len(rows) >= 3
        for row in rows:
            outside, inside, pressure = (number(c) for c in row[3:6])
            assert pressure == pytest.approx(q_psf * (outside - inside), abs=0.005 + q_psf * 0.0001)


@pytest.mark.parametrize("name", A_FEW)
def test_the_sentences_under_every_mark_say_what_run_json_holds(name: str) -> None:
    _, page, data = read(name)
    cases = [(c["name"], c["basis"]) for c in data["cases"]]
    column = {case: k for k, (case, _) in enumerate(cases)}
    text = re.sub(r"<[^>]*>", "\n", report_html(sample(name)).decode())
    hardest = iter(re.findall(r"Hardest wind reaction of either basis: (.*)\.\n", text))
    told = {block.removeprefix("worked-") for block, _ in page.lists if block.startswith("worked-")}
    assert told == {b["mark"] for b in data["bearings"]}
    for mark in dict.fromkeys(block.removeprefix("worked-") for block, _ in page.lists if block.startswith("worked-")):
        b = next(b for b in data["bearings"] if b["mark"] == mark)
        said = said_of(page, f"worked-{mark}")
        both = f"finished {b['finished_uplift_lb']:.2f} lb, before the covering {b['before_covering_uplift_lb']:.2f} lb"
        assert both in next(line for line in said if line.startswith("both storms"))
        ways = {c.removeprefix("dead for gravity") for c in column if c.startswith("dead for gravity")}
        pressing = [[-b["reactions_lb"][column[c + way]] for c in ("dead for gravity", "roof live")] for way in ways]
        gravity = max(pressing, key=sum)
        down = next(line for line in said if line.startswith("down")).translate(PLAIN).split(" = ")[1]
        assert product(down) == pytest.approx(sum(gravity), abs=0.011)
        bases = next(line for line in said if line.startswith("both bases"))
        up = [f"{b[f'uplift_{basis}_lb']:.2f}" for basis in ("mwfrs", "cladding")]
        assert re.findall(r"([\d.]+) lb", bases) == up
        assert bases.endswith("governs: main frame" if b["basis"] == "mwfrs" else "governs: components and cladding")
        if b["anchor"] is None:
            demand = [lb for lb in (b["uplift_lb"], b["parallel_lb"], b["perpendicular_lb"]) if lb is not None]
            held, digits = next((s, n) for s in said for start, n in HELD.items() if s.startswith(start))
            pushed = re.findall(r"([\d.]+) lb (?:up|along the wall|square to it)", held)
            assert pushed == [f"{lb:.{digits}f}" for lb in demand]
        else:
            hardest_case = next(line for line in said if line.startswith("hardest case"))
            asked = [b["in_ratio_case"][f"{way}_lb"] for way in ("uplift", "parallel", "perpendicular")]
            assert re.findall(r"([\d.]+) / ", hardest_case)[:3] == [f"{lb:.2f}" for lb in asked]
        wind = next(hardest).split("; ")
        for words, basis in zip(wind, ("mwfrs", "cladding"), strict=True):
            lb, case = re.findall(r"([\d.−]+) lb \((.*)\)", words)[0]
            assert cases[column[case]] == (case, basis)
            assert number(lb) == pytest.approx(b["reactions_lb"][column[case]], abs=0.0051)
        assert any(f"({b['case']})" in words for words in wind)
        main_frame = [r for r, (_, kind) in zip(b["reactions_lb"], cases, strict=True) if kind == "mwfrs"]
        assert wind[0].startswith(f"main frame {max(main_frame):.2f} lb ")


@pytest.mark.browser
@pytest.mark.parametrize("name", ["hip_house", "bay_and_corners", "long_girder"])
def test_every_number_on_the_page_is_printed_and_no_other(chromium: Browser, tmp_path: Path, name: str) -> None:
    run = sample(name)
    path, printed = tmp_path / "report.html", tmp_path / "report.pdf"
    path.write_bytes(report_html(run))
    there = visit(chromium, path, **DESK)
    # The letters in the two pictures have white edges, which a reader of the PDF takes for letters too.
    there.page.evaluate("document.querySelectorAll('figure text').forEach(letters => letters.remove())")
    there.page.pdf(path=printed, prefer_css_page_size=True)
    there.page.emulate_media(media="print")
    shown = Counter(FIGURE.findall(there.page.evaluate(PRINTED)))
    there.page.context.close()
    assert sum(shown.values()) > 2000
    words = [w for w in words_of(printed.read_bytes()) if 0.5 * 72 < w.y0 < 10.2 * 72]
    assert Counter(FIGURE.findall(" ".join(w.text for w in words))) == shown
