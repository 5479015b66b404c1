"""A truss engineer's table as people save it: read where it can be, refused in one sentence where it is wrong."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from export.cli import app
from framing.errors import PackageError
from framing.package.package_file import package_from_text
from framing.plan import EditionName, Enclosure, Exposure
from invariants.houses import SAMPLES

COTTAGE = SAMPLES["cottage"]
LB_PER_KN = 224.80894  # from memory: 1 lbf is 4.4482216 N


def uplifts(text: str) -> list[float | None]:
    return [row.uplift_lb for row in package_from_text(text, "t.csv").rows]


@pytest.mark.parametrize(
    ("text", "lb"),
    [
        ("mark,uplift_lb\nW1-01,1200\n", 1200.0),
        ("mark,uplift_lb\nW1-01,-1200\n", 1200.0),
        ("mark,uplift\nW1-01,\u22121200\n", 1200.0),
        ('mark,uplift\nW1-01,"1,200"\n', 1200.0),
        ("mark,uplift\r\nW1-01,1.2 kip\r\n", 1200.0),
        ("mark,Uplift (kip)\nW1-01,1.2\n", 1200.0),
        ("mark,uplift,unit\nW1-01,1.2,kips\n", 1200.0),
        ("mark\tuplift kN\nW1-01\t5.3\n", 5.3 * LB_PER_KN),
        ("mark;uplift_kN\nW1-01;5,3\n", 5.3 * LB_PER_KN),
        ("mark;uplift\nW1-01;5338 N\n", 5.338 * LB_PER_KN),
        ("mark;uplift\nW1-01;1.234,5\n", 1234.5),
        ('"mark","uplift"\n"=""W1-01""","1200"\n', 1200.0),
        ("mark,uplift\n'W1-01,'-1200\n", 1200.0),
        ("sep=;\nmark;uplift\nW1-01;1200\n", 1200.0),
        ("mark,uplift,basis\nW1-01,2000,strength\n", 1200.0),
        ("mark,uplift,basis\nW1-01,2000,LRFD without 0.6D\n", 1200.0),
        ("mark,uplift,basis\nW1-01,1200,ASD with 0.6D\n", 1200.0),
    ],
)
def test_a_force_reads_in_any_unit_sign_level_and_spelling(text: str, lb: float) -> None:
    assert uplifts(text)[0] == pytest.approx(lb, rel=1e-6)


def test_signs_levels_and_what_is_passed_over_are_said() -> None:
    found = package_from_text("mark,uplift kN,basis,colour\nW1-01,-5,ultimate,red\n", "t.csv")
    said = " | ".join(found.said)
    assert "minus is read as up" in said
    assert "times 0.6" in said
    assert "kN are times 224.8 for lb" in said
    assert "columns not read: colour" in said
    quiet = package_from_text("mark,uplift\nW1-01,5\n", "t.csv")
    assert any("does not say its level of loads" in s for s in quiet.said)


def test_the_plan_maps_their_columns_and_their_words_are_read() -> None:
    columns = (("mark", "Truss"), ("uplift", "Max Up (kip)"), ("bearing", "Seat"), ("wind_speed", "V"))
    text = "Truss,Max Up (kip),Seat,V,exposure,enclosure,edition,rev\nT 1,1.5,girder 3,160 mph,exp. C,Enclosed,7-22,B\n"
    found = package_from_text(text, "t.csv", columns=columns)
    row = found.rows[0]
    assert (row.mark, row.uplift_lb, row.hung, found.revision) == ("T 1", pytest.approx(1500.0), True, "B")
    assert found.wind.speed_mph == 160.0
    assert (found.wind.exposure, found.wind.enclosure) == (Exposure.C, Enclosure.ENCLOSED)
    assert found.wind.edition is EditionName.ASCE_7_22


def test_a_strength_level_table_gives_no_load_down_to_compare() -> None:
    row = package_from_text("mark,uplift,down,basis\nW1-01,1,900,strength\n", "t.csv").rows[0]
    assert row.down_lb is None


U = "mark,uplift_lb\n"
WRONG = {
    "": "t.csv row 1: the table is empty; write a header and below it a row for each bearing",
    "\n\n": "t.csv row 1: the table is empty",
    "\ufeff": "t.csv row 1: the table is empty",
    U: "t.csv row 2: there is no reaction below the header",
    U + ",\n": "t.csv row 2: there is no reaction below the header",
    "uplift_lb\n5\n": "t.csv row 1: no column says which bearing a row is",
    "mark\nW1-01\n": "t.csv row 1: no column holds a reaction",
    "wall,uplift\nW1,5\n": "t.csv row 1: no column says which bearing a row is",
    "mark,uplift_lb,uplift_kN\nW1-01,5,5\n": 't.csv row 1: "uplift_lb" and "uplift_kN" are both the column uplift',
    "mark,mark,uplift\na,b,5\n": 't.csv row 1: "mark" and "mark" are both the column mark; keep one',
    U + "W1-01,abc\n": 't.csv row 2, uplift_lb: "abc" is not a force; write a number, or leave the cell empty',
    U + "W1-01,12OO\n": 't.csv row 2, uplift_lb: "OO" is no unit of force; write lb, kip, kN or N',
    U + "W1-01,see note\n": "t.csv row 2, uplift_lb:",
    U + "W1-01,1200 kg\n": 't.csv row 2, uplift_lb: "kg" is no unit of force',
    U + "W1-01,1200 psf\n": 't.csv row 2, uplift_lb: "psf" is no unit of force',
    U + "W1-01,1.2 kip\n": 't.csv row 2, uplift_lb: "1.2 kip" is in kip and the column in lb; write one unit',
    U + 'W1-01,"1,5"\n': 't.csv row 2, uplift_lb: "1,5" is not a number; write digits such as 1234.5',
    U + 'W1-01,"12,00"\n': 't.csv row 2, uplift_lb: "12,00" is not a number',
    U + "W1-01,1.2.3\n": 't.csv row 2, uplift_lb: "1.2.3" is not a number',
    U + "W1-01,1e3\n": "t.csv row 2, uplift_lb:",
    U + "W1-01,--5\n": "t.csv row 2, uplift_lb:",
    U + "W1-01,nan\n": "t.csv row 2, uplift_lb:",
    U + "W1-01,inf\n": "t.csv row 2, uplift_lb:",
    U + "W1-01,#REF!\n": "t.csv row 2, uplift_lb:",
    U + "W1-01,=B3*2\n": "t.csv row 2, uplift_lb:",
    U + "W1-01,900000\n": 't.csv row 2, uplift_lb: "900000" is 900,000 lb, too much for a bearing',
    U + "W1-01,5\nW1-02,-6\n": "t.csv row 3, uplift_lb: plus and minus stand in one column",
    "mark,uplift,down\nW1-01,5,7\nW1-02,6,-7\n": "t.csv row 3, down: plus and minus stand in one column",
    "mark,uplift\nW1-01,1 kip\nW1-02,5 kN\n": "t.csv row 3, uplift: kN where rows above have kip; write one unit",
    "mark,uplift\nW1-01,500 lb\nW1-02,5 kN\n": "t.csv row 3, uplift: kN where rows above have lb",
    "mark,uplift,unit\nW1-01,5,kN\nW1-02,500,lb\n": 't.csv row 3, unit: "lb" where "kN" stands in row 2',
    "mark,uplift,unit\nW1-01,5,stone\n": 't.csv row 2, unit: "stone" is no unit of force',
    "mark,uplift_lb,unit\nW1-01,5,kN\n": 't.csv row 2, unit: kN where the header "uplift_lb" says lb',
    "mark;uplift\nW1-01;1.234\n": 't.csv row 2, uplift: "1.234" may be 1234 or a thousandth of it',
    "mark;uplift\nW1-01;1,234\n": 't.csv row 2, uplift: "1,234" may be 1234 or a thousandth of it',
    "mark;uplift\nW1-01;12,5\nW1-02;12.5\n": 't.csv row 3, uplift: "12.5" is not a number; write digits such as 1234,5',
    U + "W1-01,5\nW1-01,6\n": 't.csv row 3, mark: "W1-01" stands in row 2 too; write one row for each bearing',
    U + "W1-01,5\nw1-01,6\n": 't.csv row 3, mark: "w1-01" stands in row 2 too',
    U + "A 7,5\nA 7,6\n": 't.csv row 3, mark: "A 7" stands in row 2 too',
    "wall,station,uplift\nW1,4',5\nW1,4',6\n": 't.csv row 3, station: "W1" stands in row 2 too',
    U + ",5\n": "t.csv row 2, mark: the cell is empty; write a mark, a member, or a wall and a station",
    U + "W1-01,\n": "t.csv row 2, uplift_lb: every cell of the column is empty",
    U + "W1-01\n": "t.csv row 2: it has 1 cell and the header 2; write one cell for each column",
    U + "W1-01,5,6\n": "t.csv row 2: it has 3 cells and the header 2",
    U + '"W1-01,5\n': "t.csv row 2: this is no table (a double quote opens a text there and none closes it)",
    U + 'W1-01,"5"6\n': "t.csv row 2: this is no table",
    U + "W1-01," + "9" * 200 + "\n": "t.csv row 2, uplift_lb:",
    U + '"W1\n01",5\n': "t.csv row 2, mark:",
    "mark,station,uplift\nW1-01,4',5\n": "t.csv row 2, station: there is no wall beside it; write the wall, such as W1",
    "mark,wall,station,uplift\nW1-01,W1,four,5\n": 't.csv row 2, station: "four" is not a length',
    "mark,wall,station,uplift\nW1-01,W1,-4',5\n": 't.csv row 2, station: "-4\'" is out of range; write 0 to 500 ft',
    "mark,span,uplift\nW1-01,9000',5\n": "t.csv row 2, span:",
    "mark,plies,uplift\nW1-01,two,5\n": 't.csv row 2, plies: "two" is no number of plies; write 1 to 6',
    "mark,plies,uplift\nW1-01,0,5\n": 't.csv row 2, plies: "0" is no number of plies',
    "mark,bearing,uplift\nW1-01,maybe,5\n": 't.csv row 2, bearing: "maybe" is neither; write "wall" or "hung"',
    "mark,accepted,uplift\nW1-01,perhaps,5\n": 't.csv row 2, accepted: "perhaps" is neither',
    "mark,basis,uplift\nW1-01,plastic,5\n": 't.csv row 2, basis: "plastic" is no level of loads',
    "mark,basis,uplift\nW1-01,ASD,5\nW1-02,LRFD,6\n": 't.csv row 3, basis: "LRFD" where "ASD" stands in row 2',
    "mark,wind_speed,uplift\nW1-01,35,5\n": 't.csv row 2, wind_speed: "35" is too slow, perhaps a pressure in psf',
    "mark,wind_speed,uplift\nW1-01,35 psf,5\n": 't.csv row 2, wind_speed: "35 psf" is a pressure',
    "mark,wind_speed,uplift\nW1-01,900,5\n": 't.csv row 2, wind_speed: "900" is out of range',
    "mark,wind_speed,uplift\nW1-01,160,5\nW1-02,140,6\n": 't.csv row 3, wind_speed: "140" where "160" stands in row 2',
    "mark,exposure,uplift\nW1-01,E,5\n": 't.csv row 2, exposure: "E" is no exposure; write B, C or D',
    "mark,enclosure,uplift\nW1-01,tight,5\n": 't.csv row 2, enclosure: "tight" is no enclosure',
    "mark,edition,uplift\nW1-01,7-05,5\n": 't.csv row 2, edition: "7-05" is not a known edition',
}
PLACES = {
    "mark,wall,station,uplift\na,W1,400',5\n": "row 2, station: 400'-0\" lies beyond W1, which is 32'-0\" long",
    "mark,wall,station,uplift\na,W9,4',5\n": 'row 2, wall: "W9" is no wall of the plan; write one of W1, W2, W3, W4',
    "mark,wall,uplift\na,north,5\n": 'row 2, wall: "north" is no wall of the plan',
}


def test_there_are_sixty_wrong_tables() -> None:
    assert len(WRONG) + len(PLACES) >= 60


@pytest.mark.parametrize("text", WRONG, ids=[f"{n}: {t!r}"[:60] for n, t in enumerate(WRONG)])
def test_a_wrong_table_is_refused_in_one_sentence_with_row_and_column(text: str) -> None:
    with pytest.raises(PackageError) as problem:
        package_from_text(text.removeprefix("\ufeff"), "t.csv")
    said = str(problem.value)
    assert said.startswith(WRONG[text])
    assert "\n" not in said
    assert ";" in said or "(" in said


@pytest.mark.parametrize("text", [*PLACES, *list(WRONG)[10:14]], ids=range(len(PLACES) + 4))
def test_a_wrong_table_is_exit_2_and_nothing_is_written(tmp_path: Path, text: str) -> None:
    table = tmp_path / "t.csv"
    table.write_text(text, encoding="utf-8")
    result = CliRunner().invoke(app, ["reconcile", str(COTTAGE), str(table), "--out", str(tmp_path / "out")])
    assert result.exit_code == 2
    assert result.stderr.count("\n") == 1
    assert {**WRONG, **PLACES}[text] in result.stderr
    assert sorted(p.name for p in tmp_path.iterdir()) == ["t.csv"]


def test_a_column_that_the_plan_names_and_the_table_has_not_names_the_nearest() -> None:
    with pytest.raises(PackageError, match=r'the column "Uplft".* the nearest there is "Uplift"'):
        package_from_text("Truss,Uplift\na,5\n", "t.csv", columns=(("mark", "Truss"), ("uplift", "Uplft")))
    with pytest.raises(PackageError, match=r"unknown column .*nearest known is uplift"):
        package_from_text("Truss,Uplift\na,5\n", "t.csv", columns=(("uplit", "Uplift"),))
