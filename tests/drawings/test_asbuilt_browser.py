"""The phone page's list, made in a real Chromium, read and judged by `asbuilt`: page and command say the same."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from drawings.phone import Phone, as_built, pick
from export.asbuilt.words import Findings, findings
from export.commands.run_of_plan import load_run
from framing.asbuilt.entries import Written
from framing.asbuilt.judge import State, judged
from framing.asbuilt.survey_file import read_surveys
from framing.run import Run
from invariants.houses import SAMPLES
from parts.asbuilt_surveys import perfect, survey

pytestmark = pytest.mark.browser

ALL_SET = "csv(entries, Object.fromEntries(entries.map(e => [e.key, {...NOTHING, state: 'set'}])), plan.fingerprint)"
JUDGED = "offset => entries.map(e => [e.mark, e.strap, judged(e, {...NOTHING, state: 'set', offset})[0]])"
SAID = {
    "good": State.GOOD,
    "along its truss": State.GOOD,
    "FILLER": State.FILLER,
    "ASK THE": State.ASK,
    "OUT OF": State.OUT_OF_REACH,
    "OTHER FACE": State.WRONG_SIDE,
    "must shift": State.SHIFT,
}


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
def test_page_and_command_judge_every_strap_alike_whatever_its_offset(phone: Phone, name: str) -> None:
    run = load_run(SAMPLES[name])
    page = phone.open(run)
    held = {m.mark for m in run.schedule.marks if m.anchor is not None}
    for sixteenths in (-40, -24, -23, -9, -8, -3, -2, 0, 2, 3, 12, 20, 22, 24, 30, 40):
        off = sixteenths / 16
        entries = [replace(e, offset_in=off, written=Written.SET) for e in perfect(run)]
        ours = {(s.mark.mark, s.number): s.state for s in judged(run, survey(entries))}
        for mark, number, words in page.evaluate(JUDGED, off):
            if mark not in held:
                continue
            theirs = next(state for said, state in SAID.items() if said in words)
            told = ours[mark, number]
            past_reach = told is State.OUT_OF_REACH and theirs is State.WRONG_SIDE  # the page says both are wrong
            assert told is theirs or past_reach, (mark, number, off, words)
