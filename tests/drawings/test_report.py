"""report.html: its figures equal the schedule and run.json, a calculator follows every line, it prints uncut."""

from __future__ import annotations

import dataclasses
import html
import json
import re
from collections.abc import Callable
from html.parser import HTMLParser

import pytest

from drawings.marked_run import SAMPLES, sample
from export.report.page import report_html
from export.tables.run_json import run_json
from framing.asce7.tables import rows as table_rows
from framing.run import CAUTION, Run, make_run
from viewer.plain import roof_words

HOSTILE = "</style><script>alert(1)</script><img src=x onerror=alert(2)> & \" ' \\ @CAUTION@ é Дом"
PLAIN = str.maketrans({"−": "-", "×": "*", "²": "**2"})
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
VOID = {"meta", "br", "img", "rect", "circle", "path", "link"}


class Tables(HTMLParser):
    """The page as its tables: (id of the block, what stands before, rows of cell texts), and every element."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.tables: list[tuple[str, str, list[list[str]]]] = []
        self.lists: list[tuple[str, str]] = []
        self.block, self.title, self.into = "", "", ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag in {"section", "article"}:
            self.block = dict(attrs).get("id") or ""
        if tag in {"h2", "h3", "h4"}:
            self.title, self.into = "", "title"
        elif tag == "table":
            self.tables.append((self.block, self.title, []))
        elif tag == "tr":
            self.tables[-1][2].append([])
        elif tag in {"td", "th"}:
            self.tables[-1][2][-1].append("")
            self.into = "cell"
        elif tag == "li":
            self.lists.append((self.block, ""))
            self.into = "item"

    def handle_endtag(self, tag: str) -> None:
        if tag in {"h2", "h3", "h4", "td", "th", "li"}:
            self.into = ""

    def handle_data(self, data: str) -> None:
        if self.into == "title":
            self.title += data
        elif self.into == "cell":
            self.tables[-1][2][-1][-1] += data
        elif self.into == "item":
            self.lists[-1] = (self.lists[-1][0], self.lists[-1][1] + data)

    def rows(self, block: str, title: str) -> list[list[str]]:
        """The rows under a title, without the head."""
        return next(rows for b, t, rows in self.tables if b == block and t.startswith(title))[1:]


def page_of(run: Run) -> Tables:
    return Tables(report_html(run).decode("utf-8"))


@pytest.fixture(scope="module")
def pages() -> Callable[[str], tuple[Run, Tables]]:
    made: dict[str, tuple[Run, Tables]] = {}

    def of(name: str) -> tuple[Run, Tables]:
        if name not in made:
            run = sample(name)
            made[name] = run, page_of(run)
        return made[name]

    return of


Pages = Callable[[str], tuple[Run, Tables]]


def number(text: str) -> float:
    return float(text.translate(PLAIN))


def product(text: str) -> float:
    """What a pocket calculator makes of a printed sum of products; the names in brackets are left out."""
    plain = re.sub(r"\((?=[a-z])[^()]*\)", "", text.translate(PLAIN))
    assert re.fullmatch(r"[-+*/().\d\s]+", plain), text
    return float(eval(plain))


def brackets(text: str) -> float:
    """The arithmetic of a pressure: `47.414 * [(-0.69) - (+0.18)]`, less the words after it."""
    plain = text.translate(PLAIN).partition("]")[0].replace("[", "(") + ")"
    return product(plain)


def places(value: float, n: int) -> float:
    return float(f"{value:.{n}f}")


@pytest.mark.parametrize("name", SAMPLES)
def test_the_table_of_marks_equals_run_json_in_order_and_in_every_number(pages: Pages, name: str) -> None:
    run, page = pages(name)
    data, rows = json.loads(run_json(run)), page.rows("marks", "Every mark")
    bearings, cases = data["bearings"], [c["name"] for c in data["cases"]]
    assert [r[0] for r in rows] == [b["mark"] for b in bearings]
    for row, b in zip(rows, bearings, strict=True):
        governing = b["reactions_lb"][cases.index(b["case"])]
        storm = ", before the covering" * b["before_covering_governs"] + ", rakes as ladders" * ("ladders" in b["case"])
        dead = -b["reactions_lb"][cases.index("dead for uplift" + storm)]
        said = [b["member"], (f"{b['basis']}: " if b["basis"] == "mwfrs" else "") + b["case"]]
        assert row[1:3] == said
        assert [number(c) for c in row[3:7]] == [places(v, 1) for v in (governing, dead, b["uplift_lb"], b["down_lb"])]
        unheld = "engineer's connection" if b["held_by"] == "engineer's connection" else "NONE HOLDS"
        assert row[7] == (f"{b['count']} × {b['anchor']}, {b['allowable_uplift_lb']:g}" if b["anchor"] else unheld)
        assert row[8] == "–" if not b["anchor"] else number(row[8]) == places(b["ratio"], 3)
        assert row[9] == ("–" if b["good_to_mph"] is None else f"{b['good_to_mph']:.0f}")


@pytest.mark.parametrize("name", SAMPLES)
def test_the_table_of_cases_equals_run_json_and_shows_applied_equal_to_reactions(pages: Pages, name: str) -> None:
    run, page = pages(name)
    cases = json.loads(run_json(run))["cases"]
    rows = page.rows("totals", "Applied")
    assert [r[1] for r in rows] == [c["name"] for c in cases]
    for row, case in zip(rows, cases, strict=True):
        applied, received = case["applied_vertical_lb"], case["reactions_vertical_lb"]
        assert [number(c) for c in row[3:5]] == [places(applied, 2), places(received, 2)]
        assert number(row[5]) == 0.0
    assert sum(int(r[6] or 0) for r in rows) == len(run.schedule.marks)


@pytest.mark.parametrize("name", SAMPLES)
def test_the_wind_figures_and_the_counts_of_what_governs_are_those_of_the_run(pages: Pages, name: str) -> None:
    run, page = pages(name)
    wind = json.loads(run_json(run))["wind"]
    rows = page.rows("wind", "Wind")
    assert [(r[0], r[1], r[3]) for r in rows] == [(f["symbol"], f["meaning"], f["source"]) for f in wind]
    for row, figure in zip(rows, wind, strict=True):
        assert number(row[2].split()[0]) == pytest.approx(figure["value"], rel=1e-5)
    for line in (text for block, text in page.lists if block == "wind"):
        _, formula, numbers, value = line.translate(PLAIN).split(" = ")
        assert formula.startswith("0.00256 K_z")
        assert product(numbers) == pytest.approx(number(value.split()[0]), rel=1e-4)
    governs = page.rows("short", "What governs where")
    assert [int(n) for n in governs[-1][1:4]] == [
        len(run.schedule.marks),
        *(sum(m.basis == basis for m in run.schedule.marks) for basis in ("mwfrs", "cladding")),
    ]


@pytest.mark.parametrize("name", SAMPLES)
def test_a_pocket_calculator_follows_every_pressure(pages: Pages, name: str) -> None:
    _, page = pages(name)
    tables = [rows[1:] for _, title, rows in page.tables if title.startswith("Pressures of this case")]
    assert len(tables) == len(pages(name)[0].schedule.marks)
    for row in (row for rows in tables for row in rows):
        # q to half of 0.001 times the coefficients, the coefficients to half of 0.0001 each times q
        off = 0.0005 * 6 + 2 * 0.00005 * number(row[2].split()[0]) + 0.0005
        if "least net pressure" in row[2]:
            assert abs(number(row[3])) == 16.0
        else:
            assert number(row[3]) == pytest.approx(brackets(row[2]), abs=off), row


@pytest.mark.parametrize("name", SAMPLES)
def test_a_pocket_calculator_follows_every_line_and_every_sum_of_every_mark(pages: Pages, name: str) -> None:
    run, page = pages(name)
    n_sums = 0
    for block, title, rows in page.tables:
        if not title.startswith(("Wind reaction W", "Dead load D")):
            continue
        for what, lift, area, lever, lb in rows[1:-1]:
            share = 1.0 if lever.startswith("on the wall") else product(lever)
            if lift:
                force = number(lift) * number(area)
            else:
                force = number(NUMBER.findall(what.translate(PLAIN).rpartition(": ")[2])[0])
            # each factor is printed to 0.001, a force to 0.01
            off = 0.006 + 0.0005 * (abs(number(lift or "0")) + abs(number(area or "0")) + 3 * abs(force)) * max(
                1, abs(share)
            )
            assert number(lb) == pytest.approx(force * share, abs=off), (block, what)
        total = sum(number(row[4]) for row in rows[1:-1])
        assert number(rows[-1][4]) == pytest.approx(total, abs=0.0051 * len(rows)), (block, title)
        n_sums += 1
    assert n_sums == 2 * len(run.schedule.marks)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_pocket_calculator_follows_what_the_members_behind_bring(pages: Pages, name: str) -> None:
    _, page = pages(name)
    n_rows = 0
    for block, title, rows in page.tables:
        if title.startswith("What those members bring"):
            for members, _, formula, lb in rows[1:]:
                value = product(formula)
                assert number(lb) == pytest.approx(value, abs=0.03 + 0.001 * abs(value)), (block, members)
                n_rows += 1
    assert (n_rows > 0) == (name != "cottage")


@pytest.mark.parametrize("name", SAMPLES)
def test_any_mark_is_two_clicks_away_and_every_link_leads_somewhere(pages: Pages, name: str) -> None:
    run, page = pages(name)
    ids = [a["id"] for _, a in page.elements if a.get("id")]
    links = [a["href"] or "" for tag, a in page.elements if tag == "a"]
    assert len(ids) == len(set(ids))
    assert {link for link in links if link.removeprefix("#") not in ids} == set()
    for m in run.schedule.marks:
        assert f"#mark-{m.mark}" in links
        assert f"#worked-{m.mark}" in links


def test_what_nobody_has_compared_with_the_printed_standard_is_told_whole(pages: Pages) -> None:
    _, page = pages("cottage")
    told = {(r[0], r[1], r[2], r[3]) for r in page.rows("unconfirmed", "Not yet")}
    assert told == {(r["item"], r["where_used"], r["mark"], r["what_to_check"]) for r in table_rows("unconfirmed")}


def test_the_page_says_the_caution_the_fingerprint_the_date_of_the_plan_and_that_the_catalogue_is_invented() -> None:
    run = sample("cottage")
    text = " ".join(html.unescape(report_html(run).decode()).split())
    for words in (CAUTION, f"fingerprint {run.fingerprint}", f"strapline {run.version}", "plan of 2026-11-25"):
        assert words in text
    assert "SAMPLE CATALOGUE: invented anchors, not for building" in text
    for line in run.plan.assumed:
        assert line in text


def test_an_unresolved_mark_is_flagged_on_top_in_the_table_and_in_its_own_arithmetic() -> None:
    run = sample("cottage")
    weak = tuple(dataclasses.replace(a, allowable_uplift_lb=400.0) for a in run.schedule.catalogue.anchors)
    run = make_run(run.plan, dataclasses.replace(run.schedule.catalogue, anchors=weak))
    names = [m.mark for m in run.schedule.unresolved]
    assert names
    page = page_of(run)
    text = report_html(run).decode()
    assert f"{len(names)} UNRESOLVED, no anchor holds: {', '.join(names)}" in text
    assert [r[0] for r in page.rows("marks", "Every mark") if r[7] == "NONE HOLDS"] == names
    assert sum(said.startswith("UNRESOLVED: no anchor") for _, said in page.lists) == len(names)


def test_a_hostile_project_name_stays_text() -> None:
    run = sample("cottage")
    plan = dataclasses.replace(run.plan, project=dataclasses.replace(run.plan.project, name=HOSTILE))
    hostile = page_of(make_run(plan, run.schedule.catalogue))
    harmless = page_of(run)
    assert [tag for tag, _ in hostile.elements] == [tag for tag, _ in harmless.elements]
    assert html.escape(HOSTILE, quote=True) in report_html(make_run(plan, run.schedule.catalogue)).decode()


def test_nothing_is_fetched_or_run_and_equal_runs_give_equal_bytes() -> None:
    page = page_of(sample("cottage"))
    assert {tag for tag, _ in page.elements} & {"script", "img", "link", "iframe", "object"} == set()
    assert [
        a for _, a in page.elements if {"src", "style", "srcset"} & a.keys() or any(k.startswith("on") for k in a)
    ] == []
    policy = next(a["content"] for _, a in page.elements if a.get("http-equiv") == "Content-Security-Policy")
    assert (policy or "").startswith("default-src 'none'; style-src 'sha256-")
    assert report_html(sample("cottage")) == report_html(sample("cottage"))


def test_three_plain_sentences_stand_before_any_list_of_marks() -> None:
    run = sample(SAMPLES[0])
    page = report_html(run).decode()
    first = page.index('class="caution"')
    told = [page.index(html.escape(words)) for words in roof_words(run)]
    assert sorted(told) == told
    assert told[-1] < first < page.index("Find a mark")
    hardest = max(run.schedule.marks, key=lambda m: m.uplift_lb)
    assert f"{hardest.uplift_lb:,.0f} lb" in roof_words(run)[0]
