"""The reader of lists of straps as set: every wrong table is answered in one sentence, and lists are put together."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from export.cli import app
from export.commands.run_of_plan import load_run
from framing.asbuilt.entries import Entry, Written
from framing.asbuilt.survey_file import read_surveys
from framing.errors import SurveyError
from framing.plan import Side
from invariants.houses import SAMPLES

RUN = load_run(SAMPLES["cottage"])
PAIR = next(m.mark for m in load_run(SAMPLES["garage_wing"]).schedule.marks if m.count == 2)


def read(tmp_path: Path, *texts: str | bytes) -> dict[str, Entry]:
    paths = []
    for k, text in enumerate(texts, start=1):
        paths.append(tmp_path / f"list{k}.csv")
        paths[-1].write_bytes(text if isinstance(text, bytes) else text.encode())
    return {e.mark: e for e in read_surveys(paths, RUN).entries}


INCHES = "write inches such as 1/4, -3/8, 1 1/2 or 0.25"
WRONG = [
    ("", "list1.csv row 1: the column mark is missing; write the plan's marks in it"),
    ("mark,set\n", "list1.csv: there is no strap in it; write a row for each strap below the header"),
    (
        "mark,note\nW1-02,x\n",
        "list1.csv row 1: no column says whether a strap is there; "
        "write set (yes or no), state, offset_in, measured, gap_in or in_from_face_in",
    ),
    ("mark,offset\nW1-02,1\n", 'list1.csv row 1: unknown column "offset"; the nearest known is offset_in'),
    ("mark,set,set\nW1-02,yes,no\n", "list1.csv row 1: the column set is there twice; write each column once"),
    ("mark,set\nW1-2,yes\n", 'list1.csv row 2, mark: "W1-2" is not in the plan; the nearest known is W1-'),
    ("mark,set\n,yes\n", "list1.csv row 2, mark: the cell is empty; write the plan's mark"),
    ("mark,set\nW1-02,yes\nW1-02,no\n", "list1.csv row 3, mark: W1-02 strap 1 is in row 2 too; write it once"),
    ("mark,set\nW1-02,maybe\n", 'list1.csv row 2, set: "maybe" is not known; write yes or no'),
    ("mark,state\nW1-02,done\n", 'list1.csv row 2, state: "done" is not known; write to set, set, missing, wrong, ask'),
    (
        "mark,set,state\nW1-02,yes,missing\n",
        'list1.csv row 2, state: "missing" does not go with set "yes"; write yes only with set',
    ),
    (
        "mark,offset_in\nW1-02,left\n",
        'list1.csv row 2, offset_in: "left" is not inches; write inches such as 1/4, -3/8, 1 1/2 or 0.25',
    ),
    (
        "mark,offset_in\nW1-02,1/0\n",
        'list1.csv row 2, offset_in: "1/0" is not inches; write inches such as 1/4, -3/8, 1 1/2 or 0.25',
    ),
    ("mark,offset_in\nW1-02,900\n", 'list1.csv row 2, offset_in: "900" is out of range; write -600 to 600 in.'),
    ("mark,gap_in\nW1-02,-1/4\n", 'list1.csv row 2, gap_in: "-1/4" is out of range; write 0 to 60 in.'),
    (
        "mark,gap_in\nW1-02,3mm\n",
        'list1.csv row 2, gap_in: "3mm" is not inches; write inches such as 1/4, -3/8, 1 1/2 or 0.25',
    ),
    ("mark,set,side\nW1-02,yes,left\n", 'list1.csv row 2, side: "left" is no face at W1-02; write start or far'),
    ("mark,set,side\nW2-02,yes,far\n", 'list1.csv row 2, side: "far" is no face at W2-02; write inside or outside'),
    ("mark,set,strap\nW1-02,yes,2\n", 'list1.csv row 2, strap: "2" is no strap of W1-02; write 1'),
    ("mark,set,strap\nW1-02,yes,one\n", 'list1.csv row 2, strap: "one" is no strap of W1-02; write 1'),
    ("mark,set,wall\nW1-02,yes,W3\n", 'list1.csv row 2, wall: "W3" is not where W1-02 is; write W1'),
    ("mark,offset_in,measured\nW1-02,1,2'\n", "list1.csv row 2, measured: offset_in is written too; write one of them"),
    ("mark,measured\nW1-02,two\n", "list1.csv row 2, measured: "),
    (
        "mark,set\nW1-02,yes,1\n",
        "list1.csv row 2: it has 3 cells and the header 2; "
        "write one cell for each column, and text with separators in double quotes",
    ),
    (
        "mark,set\nW1-02\n",
        "list1.csv row 2: it has 1 cell and the header 2; "
        "write one cell for each column, and text with separators in double quotes",
    ),
    (
        'mark,set\n"W1-02,yes\n',
        "list1.csv row 2: this is no table "
        "(a double quote opens a text there and none closes it); "
        "save the table as text with commas, tabs or semicolons",
    ),
    (
        "mark,set,note\nW1-02,yes," + "x" * 1001 + "\n",
        f'list1.csv row 2, note: "{"x" * 37}..." is not one short line; write at most 1000 characters',
    ),
    ("mark,set\n" + "\n" * 20_001, "list1.csv: 20002 rows are too many; write at most 20000"),
    ("mark,set\n\n,\n", "list1.csv: there is no strap in it; write a row for each strap below the header"),
    ("set,offset_in\nyes,0\n", "list1.csv row 1: the column mark is missing; write the plan's marks in it"),
    ("Mark No,set\nW1-02,yes\n", 'list1.csv row 1: unknown column "mark no"; the nearest known is mark'),
    ("mark set\nW1-02 yes\n", 'list1.csv row 1: unknown column "mark set"; the nearest known is mark'),
    ("W1-02,yes\nW1-03,yes\n", 'list1.csv row 1: unknown column "w1-02"; the nearest known is wall'),
    ("mark,set,gap_cm\nW1-02,yes,1\n", 'list1.csv row 1: unknown column "gap_cm"; the nearest known is gap_in'),
    ("mark,set\nW1-02,yes\nW1-03\n", "list1.csv row 3: it has 1 cell and the header 2; write one cell for each "),
    ("mark,offset_in\nW1-02,1,5\n", "list1.csv row 2: it has 3 cells and the header 2; write one cell for each "),
    ('mark,set\nW1-02,"yes"x\n', "list1.csv row 2: this is no table (',' expected after '\"'); save the table as text"),
    ("mark,offset_in\nW1-02,2 cm\n", f'list1.csv row 2, offset_in: "2 cm" is not inches; {INCHES}'),
    ("mark,offset_in\nW1-02,0.25 ft\n", f'list1.csv row 2, offset_in: "0.25 ft" is not inches; {INCHES}'),
    ("mark,offset_in\nW1-02,160 mph\n", f'list1.csv row 2, offset_in: "160 mph" is not inches; {INCHES}'),
    ("mark,offset_in\nW1-02,35 psf\n", f'list1.csv row 2, offset_in: "35 psf" is not inches; {INCHES}'),
    ("mark;offset_in\nW1-02;1.234,5\n", f'list1.csv row 2, offset_in: "1.234,5" is not inches; {INCHES}'),
    ("mark;gap_in\nW1-02;1,,5\n", f'list1.csv row 2, gap_in: "1,,5" is not inches; {INCHES}'),
    ("mark,offset_in\nW1-02,1/4/2\n", f'list1.csv row 2, offset_in: "1/4/2" is not inches; {INCHES}'),
    ("mark,offset_in\nW1-02,--1\n", f'list1.csv row 2, offset_in: "--1" is not inches; {INCHES}'),
    ("mark,offset_in\nW1-02,#REF!\n", f'list1.csv row 2, offset_in: "#REF!" is not inches; {INCHES}'),
    ("mark,offset_in\nW1-02,=B2-C2\n", f'list1.csv row 2, offset_in: "=B2-C2" is not inches; {INCHES}'),
    ("mark,offset_in\nW1-02,nan\n", f'list1.csv row 2, offset_in: "nan" is not inches; {INCHES}'),
    ("mark,offset_in\nW1-02,1e1\n", f'list1.csv row 2, offset_in: "1e1" is not inches; {INCHES}'),
    (
        "mark,offset_in\nW1-02,-60\n",
        'list1.csv row 2, offset_in: "-60" puts W1-02 at -1\'-0 3/4" on W1, '
        "which is 32'-0\" long; write inches, positive away from START",
    ),
    ("mark,offset_in\nW1-15,60\n", 'list1.csv row 2, offset_in: "60" puts W1-15 at 34\'-11 1/4" on W1, which is '),
    (
        "mark,measured\nW1-02,400'\n",
        'list1.csv row 2, measured: "400\'" puts W1-02 at 400\'-0" on W1, '
        "which is 32'-0\" long; write the tape's figure from START",
    ),
    ("mark,measured\nW1-02,-2'\n", 'list1.csv row 2, measured: "-2\'" puts W1-02 at -2\'-0" on W1, which is '),
    ("mark,measured\nW1-02,4'-13\n", 'list1.csv row 2, measured: "4\'-13" has 13 inches beside feet; write 0 to '),
    ("mark,measured\nW1-02,4'7 9/8\n", 'list1.csv row 2, measured: "4\'7 9/8" has the fraction 9/8; write one below '),
    ("mark,measured\nW1-02,12.5.1\n", 'list1.csv row 2, measured: "12.5.1" is not a length; write 12\'-4 1/2", '),
    ("mark,gap_in\nW1-02,70\n", 'list1.csv row 2, gap_in: "70" is out of range; write 0 to 60 in.'),
    ("mark,in_from_face_in\nW1-02,-2\n", 'list1.csv row 2, in_from_face_in: "-2" is out of range; write 0 to 60 in.'),
    ("mark,in_from_face_in\nW1-02,4 to 5\n", f'list1.csv row 2, in_from_face_in: "4 to 5" is not inches; {INCHES}'),
    (
        "mark,in_from_face_in\nW1-02,15\n",
        'list1.csv row 2, in_from_face_in: "15" is beyond the wall, which is 8 in. '
        "thick; measure from its outside face to the middle of the strap",
    ),
    (
        "mark,set,offset_in\nW1-02,no,2\n",
        'list1.csv row 2, set: "no" and yet the strap is measured; write yes, or '
        "what it is in the column state (missing, wrong or ask)",
    ),
    ("mark,set\nW1_02,yes\n", 'list1.csv row 2, mark: "W1_02" is not in the plan; the nearest known is W1-02'),
    ("mark,set,strap\nW1-02,yes,0\n", 'list1.csv row 2, strap: "0" is no strap of W1-02; write 1'),
    ("mark,set,state\nW1-02,no,set\n", 'list1.csv row 2, state: "set" does not go with set "no"; write yes only '),
    ("mark,set,side\nW1-02,yes,inside\n", 'list1.csv row 2, side: "inside" is no face at W1-02; write start or far'),
    ("mark,set,anchor\nW1-02,yes," + "a" * 121, f'list1.csv row 2, anchor: "{"a" * 37}..." is not one short line; '),
]  # fmt: skip


def test_there_are_sixty_wrong_lists() -> None:
    assert len(WRONG) >= 60


@pytest.mark.parametrize(("text", "sentence"), WRONG, ids=[f"{n}: {t!r}"[:60] for n, (t, _) in enumerate(WRONG)])
def test_a_wrong_list_is_answered_with_row_and_column(tmp_path: Path, text: str, sentence: str) -> None:
    with pytest.raises(SurveyError) as caught:
        read(tmp_path, text)
    said = str(caught.value)
    assert said.startswith(sentence)
    assert said.isprintable()
    assert said.count("; ") == 1


@pytest.mark.parametrize("text", [t for t, _ in WRONG], ids=range(len(WRONG)))
def test_a_wrong_list_ends_with_2_one_line_and_nothing_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, text: str
) -> None:
    monkeypatch.setattr("export.commands.run_of_plan.load_run", lambda plan: RUN)
    (tmp_path / "list.csv").write_text(text, encoding="utf-8")
    told = CliRunner().invoke(app, ["asbuilt", "any.toml", str(tmp_path / "list.csv"), "--out", str(tmp_path / "out")])
    assert (told.exit_code, told.stdout) == (2, "")
    assert told.stderr.count("\n") == 1
    assert [p.name for p in tmp_path.iterdir()] == ["list.csv"]


def test_a_mark_of_a_pair_needs_the_strap_s_number(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text(f"mark,set\n{PAIR},yes\n")
    garage = load_run(SAMPLES["garage_wing"])
    with pytest.raises(SurveyError, match=rf"row 2, strap: the cell is empty and {PAIR} has 2 straps; write 1 to 2"):
        read_surveys([path], garage)


@pytest.mark.parametrize(
    ("text", "offset_in"),
    [
        ("mark,offset_in\nW1-02,-3/8\n", -0.375),
        ('mark,offset_in\nW1-02,"1 1/2"""\n', 1.5),
        ("mark;offset_in\nW1-02;0,25\n", 0.25),
        ("mark\toffset_in\nW1-02\t1/4 in.\n", 0.25),
        ("\ufeffmark,offset_in\r\nW1-02,'-0.5\r\n", -0.5),
        ("MARK,Offset_in\nw1-02,2\n", 2.0),
    ],
)
def test_lists_as_spreadsheets_and_people_write_them_are_read(tmp_path: Path, text: str, offset_in: float) -> None:
    entry = read(tmp_path, text)["W1-02"]
    assert (entry.offset_in, entry.written) == (offset_in, Written.SET)


def test_the_tape_s_figure_as_set_is_an_offset(tmp_path: Path) -> None:
    mark = next(m for m in RUN.schedule.marks if m.mark == "W1-04")
    feet = mark.straps[0].tape_ft + 0.5 / 12.0
    entry = read(tmp_path, f"mark,measured,side\nW1-04,{feet:.6f},START side\n")["W1-04"]
    assert entry.offset_in == pytest.approx(0.5, abs=1e-4)
    assert entry.side is Side.START


def test_the_lists_of_two_crews_are_put_together_and_the_one_that_says_something_holds(tmp_path: Path) -> None:
    head = "mark,set,state,offset_in,when\n"
    one = head + "W1-02,yes,set,0.25,\nW1-03,no,to set,,\nW1-04,no,missing,,2026-12-03 09:00\n"
    two = head + "W1-02,no,to set,,\nW1-03,yes,set,0,\nW1-04,yes,set,0,2026-12-03 10:30\n"
    for texts in ((one, two), (two, one)):
        found = read(tmp_path, *texts)
        assert (found["W1-02"].offset_in, found["W1-03"].written) == (0.25, Written.SET)
        assert found["W1-04"].written is Written.SET


def test_two_lists_that_disagree_without_times_are_refused(tmp_path: Path) -> None:
    with pytest.raises(
        SurveyError, match=r"list2\.csv row 2, mark: W1-02 strap 1 is told otherwise at list1\.csv row 2"
    ):
        read(tmp_path, "mark,set\nW1-02,yes\n", "mark,set\nW1-02,no\n")


def test_times_that_cannot_be_put_in_order_are_refused(tmp_path: Path) -> None:
    head = "mark,set,when\n"
    with pytest.raises(SurveyError, match='write both times such as 2026-12-03 09:30, not "9:30" and "10:15"'):
        read(tmp_path, head + "W1-02,yes,9:30\n", head + "W1-02,no,10:15\n")


def test_a_file_that_is_no_list_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SurveyError, match="binary"):
        read(tmp_path, b"PK\x03\x04\0\0")
    with pytest.raises(SurveyError, match="not UTF-8"):
        read(tmp_path, b"mark,set\nW1-02,\xff\n")
