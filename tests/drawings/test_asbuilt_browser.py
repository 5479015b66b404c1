"""The phone page's list, made in a real Chromium, read and judged by `asbuilt`: page and command say the same."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from drawings.phone import Phone, as_built, downloaded, pick, strap
from export.asbuilt.words import Findings, findings
from export.commands.run_of_plan import load_run
from framing.asbuilt.entries import Written
from framing.asbuilt.judge import State, judged
from framing.asbuilt.survey_file import read_surveys
from framing.engineers_layout import run_of_layout
from framing.package.package_file import package_from_text
from framing.run import Run
from invariants.houses import SAMPLES
from parts.asbuilt_surveys import perfect, survey

pytestmark = pytest.mark.browser

ALL_SET = "csv(entries, Object.fromEntries(entries.map(e => [e.key, {...NOTHING, state: 'set'}])), plan.fingerprint)"
JUDGED = """row => entries.map(e => {
    const entry = row.face === undefined ? row : {...row, face: e.face === null ? null : e.face + row.face};
    const {state, words} = judged(e, {...NOTHING, state: 'set', ...entry});
    return [e.mark, e.strap, state, words];
})"""


def read(run: Run, text: str, folder: Path) -> Findings:
    path = folder / "list.csv"
    path.write_text(text, encoding="utf-8", newline="")
    return findings(run, read_surveys([path], run))


def test_a_list_with_every_strap_ticked_has_no_finding_and_one_with_none_has_all_missing(
    phone: Phone, tmp_path: Path
) -> None:
    run = load_run(SAMPLES["garage_wing"])
    page = phone.open(run)
    assert read(run, page.evaluate(ALL_SET), tmp_path).as_planned
    untouched = read(run, page.evaluate("csv(entries, {}, plan.fingerprint)"), tmp_path)
    assert {s.state for s in untouched.straps} == {State.MISSING}


def test_what_is_tapped_on_the_phone_is_what_is_judged(phone: Phone, tmp_path: Path) -> None:
    run = load_run(SAMPLES["garage_wing"])
    page = phone.open(run)
    for mark in ("W1-02", "W1-03", "W1-04", "W1-05", "W1-07"):
        pick(page, mark, "set")
    pick(page, "W1-06", "missing")
    as_built(page, "W1-03", offset="3/4", note='girder "next", ask')
    as_built(page, "W1-04", side="far")
    as_built(page, "W1-05", gap="3/8")
    as_built(page, "W1-07", offset="-3")
    with page.expect_download() as waiting:
        page.locator("#download").tap()
    found = findings(run, read_surveys([Path(waiting.value.path())], run))
    states = {s.mark.mark: s.state for s in found.straps}
    assert [states[f"W1-0{k}"] for k in range(2, 8)] == [
        *(State.NOT_MEASURED, State.SHIFT, State.WRONG_SIDE, State.FILLER, State.MISSING, State.OUT_OF_REACH)
    ]
    assert next(s.entry.note for s in found.straps if s.mark.mark == "W1-03" and s.entry) == 'girder "next", ask'
    assert found.survey.plans == (run.fingerprint,)


@pytest.mark.parametrize("name", ["garage_wing", "bay_and_corners", "mixed_gable_hip"])
def test_page_and_command_judge_every_strap_in_the_same_words_whatever_was_measured(phone: Phone, name: str) -> None:
    run = load_run(SAMPLES[name])
    page = phone.open(run)
    held = {m.mark for m in run.schedule.marks if m.anchor is not None}
    depth = {
        (m.mark, n): 12.0 * s.in_from_face_ft
        for m in run.schedule.marks
        for n, s in enumerate(sorted(m.straps, key=lambda s: s.tape_ft), start=1)
        if s.in_from_face_ft is not None
    }
    offsets = [{"offset": k / 16} for k in (-200, -40, -24, -23, -9, -8, -3, -2, 0, 2, 3, 12, 20, 22, 24, 30, 40, 60)]
    gaps = [{"gap": k / 16} for k in (0, 2, 3, 8, 9, 24, 25)]
    faces = [{"face": k / 16} for k in (-12, -8, 0, 3, 8, 9, 20)]
    both = [{"face": k / 16, "offset": j / 16} for k in (-9, 4, 9) for j in (-8, 3, 120)]
    for row in (*offsets, *gaps, *faces, *both):
        entries = [
            replace(
                e,
                written=Written.SET,
                offset_in=row.get("offset"),
                gap_in=row.get("gap"),
                face_in=depth[e.mark, e.strap] + row["face"] if "face" in row and (e.mark, e.strap) in depth else None,
            )
            for e in perfect(run)
        ]
        ours = {(s.mark.mark, s.number): s for s in judged(run, survey(entries))}
        for mark, number, state, words in page.evaluate(JUDGED, row):
            if mark in held:
                told = ours[mark, number]
                assert state == told.state, (mark, number, row, words, told.words)
                assert words == told.words or state == State.NOT_MEASURED, (mark, number, row)


def test_the_distance_from_the_face_is_asked_where_there_is_one_and_given_out(phone: Phone, tmp_path: Path) -> None:
    run = load_run(SAMPLES["garage_wing"])
    page = phone.open(run)
    pick(page, "W1-02", "set")
    assert as_built(page, "W1-02", face="5 1/2") == "ASK: 1 1/2 in. farther in from the outside face than planned"
    assert strap(page, "W1-02").locator(".face").get_attribute("placeholder") == "planned 4 in."
    pick(page, "W1-03", "set")
    assert as_built(page, "W1-03", face="9") == "not measured"
    assert strap(page, "W1-03").locator(".face-bad").is_visible()
    rows = {r["mark"]: r for r in downloaded(page)}
    assert [rows[m]["in_from_face_in"] for m in ("W1-02", "W1-03")] == ["5.5", ""]
    (tmp_path / "list.csv").write_text("mark,state,in_from_face_in\nW1-02,ask,5.5\n")
    found = findings(run, read_surveys([tmp_path / "list.csv"], run))
    told = next(s for s in found.straps if s.mark.mark == "W1-02")
    assert (told.state, told.words) == (State.ASK, "1 1/2 in. farther in from the outside face than planned")


def test_the_page_of_an_engineer_s_layout_opens_prints_and_says_that_it_has_no_deck(phone: Phone) -> None:
    ours = load_run(SAMPLES["hip_house"])
    table = (SAMPLES["hip_house"].parent / "hip_house_layout.csv").read_text(encoding="utf-8")
    page = phone.open(run_of_layout(ours.plan, ours.schedule.catalogue, package_from_text(table, "layout.csv")))
    pick(page, "W1-05", "set")
    assert as_built(page, "W1-05", offset="-1/4") == "FILLER: gap 1/4 in.: a filler between strap and truss"
    page.evaluate("drawPaper()")
    printed = page.locator("#paper").text_content() or ""
    assert "no arithmetic of ours" in printed
    assert "the deck's zones would be arithmetic of ours" in printed
    assert phone.said == []
