"""walkthrough.html says what the run says: anchors, members, figures and places, and nothing leaves the file."""

from __future__ import annotations

import csv
import dataclasses
import io
import re
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from drawings.drawn import supported_house
from drawings.page_text import Page, data_of, numbers, read
from export.tables.schedule import schedule_csv
from export.walkthrough.packed_scene import creases
from export.walkthrough.page import walkthrough_html
from framing.members import MemberKind
from framing.run import CAUTION, Run
from framing.units import length_ft
from viewer.pieces import prism
from viewer.plain import roof_words
from viewer.stages import STAGES

HOSTILE = "</script><img src=x onerror=alert(1)>&amp;<!-- ${title} $title 'Ö\" -->"
ORDINARY_HOUSE_KB = 250
PLY_FT = 1.5 / 12


@pytest.fixture(scope="module", params=["hip_house", "garage_wing", "cottage"])
def run(request: pytest.FixtureRequest, sample_run: Callable[[str], Run]) -> Run:
    return sample_run(request.param)


@pytest.fixture(scope="module")
def page(run: Run) -> bytes:
    return walkthrough_html(run)


@pytest.fixture(scope="module")
def parsed(page: bytes) -> Page:
    return read(page)


@pytest.fixture(scope="module")
def data(page: bytes) -> dict[str, Any]:
    return data_of(page)


def boxes_by_item(data: dict[str, Any]) -> dict[int, list[np.ndarray]]:
    """For each item its boxes as rows of centre, u, v, w in feet."""
    found: dict[int, list[np.ndarray]] = {}
    for layer in data["layers"]:
        if "boxes" not in layer:
            continue
        parts = np.stack([numbers(text).reshape(-1, 3) for text in layer["boxes"]], axis=1) * data["step_ft"]
        parts[:, 0] += data["middle_ft"]
        for item, box in zip(numbers(layer["items"], "<u2"), parts, strict=True):
            found.setdefault(int(item), []).append(box)
    return found


def test_every_mark_has_its_straps_where_the_run_sets_them(run: Run, data: dict[str, Any]) -> None:
    bearing = numbers(data["items"]["bearing"])
    boxes = boxes_by_item(data)
    assert set(bearing) == {-1, *range(len(run.schedule.marks))}
    for i, mark in enumerate(run.schedule.marks):
        straps = np.array(boxes[int(np.flatnonzero(bearing == i)[0])])
        if not mark.resolved:
            continue
        assert len(straps) == mark.count, mark.mark
        wanted = np.array(mark.bearing.point_ft if mark.count == 2 else mark.bearing.strap_ft)
        beside = PLY_FT / 2 + 0.01 if mark.bearing.kind is MemberKind.GABLE_END else 0.02
        assert np.abs(straps[:, 0, :2].mean(axis=0) - wanted).max() < beside, mark.mark


def test_every_member_is_drawn_along_its_own_line_from_bearing_to_bearing(run: Run, data: dict[str, Any]) -> None:
    boxes = boxes_by_item(data)
    number = numbers(data["items"]["member"])
    assert sorted(m.name for m in run.framing.members) == data["members"]
    for m in run.framing.members:
        drawn = np.array([b for i in np.flatnonzero(number == data["members"].index(m.name)) for b in boxes[int(i)]])
        start, along = np.array(m.start_ft), np.subtract(m.end_ft, m.start_ft) / m.span_ft
        signs = np.array([(1, i, j, k) for i in (-1, 1) for j in (-1, 1) for k in (-1, 1)])
        corners = (signs @ drawn)[..., :2].reshape(-1, 2) - start
        across = corners @ np.array((-along[1], along[0]))
        assert np.abs(across).max() <= m.plies * PLY_FT / 2 + 0.02, m.name
        reach = corners @ along
        assert reach.min() < 0.3, m.name
        assert reach.max() > m.span_ft - 0.3, m.name


def test_the_table_has_a_row_for_each_row_of_the_schedule_with_its_figures(run: Run, parsed: Page) -> None:
    rows = list(csv.DictReader(io.StringIO(schedule_csv(run).decode("utf-8-sig"))))
    assert list(parsed.rows) == [row["mark"] for row in rows]
    for row in rows:
        shown = dict(zip(parsed.heads, parsed.rows[row["mark"]], strict=True))
        assert shown["Member"] == row["member"]
        assert float(length_ft(shown["Truss centre, station"].lstrip("-"))) == pytest.approx(
            abs(float(row["station_ft"])), abs=1 / 384
        )
        assert shown["Strap mark"] == row["strap_station"].removeprefix("'")
        assert float(shown["Uplift, lb"].replace(",", "")) == pytest.approx(float(row["uplift_lb"]), abs=0.51)
        assert float(shown["Down, lb"].replace(",", "")) == pytest.approx(float(row["down_lb"]), abs=0.51)
        assert row["case"] in shown["Governing case"] or shown["Governing case"] == "nothing lifts"
        if row["anchor"]:
            assert f"({row['anchor']})" in shown["Anchor"]
            assert float(shown["Share used"]) == pytest.approx(float(row["ratio"]), abs=0.0051)
            if row["good_to_mph"]:
                assert float(shown["Good to, mph"]) == pytest.approx(float(row["good_to_mph"]), abs=0.551)
            else:
                assert shown["Good to, mph"] == "over 300"
        else:
            assert shown["Anchor"] == "none in the list holds it"


def test_an_ordinary_house_takes_less_than_250_kilobytes(page: bytes, capsys: pytest.CaptureFixture[str]) -> None:
    with capsys.disabled():
        print(f"\n  walkthrough.html: {len(page) / 1000:.0f} KB")  # noqa: T201 - the measured figure is wanted
    assert len(page) < ORDINARY_HOUSE_KB * 1000


def test_the_caution_stands_on_the_page_and_on_each_printed_part(parsed: Page) -> None:
    assert parsed.texts["caution"] == f"Caution. {CAUTION}"
    assert f"Caution. {CAUTION}" in parsed.texts["tfoot"]
    assert f"Caution. {CAUTION}" in parsed.texts["plan"]
    assert f"Caution. {CAUTION}" in parsed.texts["print-view"]


def test_the_page_names_no_address_and_forbids_every_request(page: bytes, parsed: Page) -> None:
    assert b"://" not in page
    policies = [a["content"] for tag, a in parsed.elements if tag == "meta" and a.get("http-equiv")]
    assert [p and p.startswith("default-src 'none'") for p in policies] == [True]
    assert {a.get("href") for _, a in parsed.elements} - {None} == {"data:,"}
    assert {a.get("src") for _, a in parsed.elements} == {None}


def test_bearings_that_the_engineer_connects_are_told_apart() -> None:
    run = supported_house()
    there = [m for m in run.schedule.marks if m.bearing.wall == "S4"]
    text = walkthrough_html(run).decode()
    assert len(there) > 5
    others = f"but for {len(there)} on S4 with the engineer&#x27;s connection."
    told = f"Every bearing has an anchor that is allowed its pull, {others}"
    assert told in text
    for m in there:
        assert f'data-tip="{m.mark}: {m.uplift_lb:,.0f} lb up, engineer&#x27;s connection"' in text


def test_equal_runs_give_equal_bytes(run: Run, page: bytes) -> None:
    assert walkthrough_html(run) == page


def test_a_hostile_project_name_stays_text(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("hip_house")
    project = dataclasses.replace(run.plan.project, name=HOSTILE)
    harmless = read(walkthrough_html(run))
    hostile = read(walkthrough_html(dataclasses.replace(run, plan=dataclasses.replace(run.plan, project=project))))
    assert HOSTILE in hostile.texts["h1"]
    assert HOSTILE in hostile.texts["title"]
    assert [tag for tag, _ in hostile.elements] == [tag for tag, _ in harmless.elements]


def test_a_box_has_twelve_creases_and_an_l_shaped_prism_eighteen() -> None:
    square = np.array([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)])
    corner = np.array([(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (1.0, 3.0), (0.0, 3.0)])
    assert [len(creases(*prism([ring], 0.0, 2.0))) for ring in (square, corner)] == [12, 18]


def test_the_client_is_promised_nothing_and_reads_no_case_or_fingerprint(page: bytes, parsed: Page, run: Run) -> None:
    text = page.decode()
    assert "cannot lift" not in text
    plain = re.findall(r'data-plain="([^"]+)"', text)
    assert len(plain) == len(run.schedule.marks)
    cases = {m.case for m in run.schedule.marks} | {run.fingerprint}
    told = [*plain, *(s.sentence for s in STAGES), *roof_words(run)]
    assert not [words for words in told for case in cases if case and case in words]
    for mark, words in zip(run.schedule.marks, plain, strict=True):
        assert (f"{mark.uplift_lb:,.0f} lb" in words) == (mark.uplift_lb > 0 and not mark.bearing.by_engineer)


def test_each_marks_shares_are_the_three_ratios_and_never_called_uplift(run: Run, parsed: Page) -> None:
    for mark in run.schedule.marks:
        shown = dict(zip(parsed.heads, parsed.rows[mark.mark], strict=True))["Shares"]
        if mark.use is None:
            assert not shown
            continue
        ratios = (mark.use.uplift_ratio, mark.use.parallel_ratio, mark.use.perpendicular_ratio)
        told = ["not stated" if r is None else f"{r:.2f}" for r in ratios]
        assert shown.startswith(f"up {told[0]}, parallel {told[1]}, perpendicular {told[2]}; ")
    assert "Uplift as a share" not in "".join(parsed.heads)
