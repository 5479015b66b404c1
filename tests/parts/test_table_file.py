"""Tables as people save them: what a spreadsheet does to them is undone, what cannot be read is told with its place."""

from __future__ import annotations

import pytest

from framing.errors import SurveyError
from framing.table_file import Row, nearest, read_table

KNOWN = ("mark", "note", "size")


def rows(text: str, **how: object) -> list[Row]:
    table = read_table(text, "t.csv", SurveyError, most_rows=6, **how)  # type: ignore[arg-type]
    return list(table.rows(KNOWN, ("mark",), "mark"))


@pytest.mark.parametrize(
    "text",
    [
        "mark,note\nA1,-5\n",
        "MARK , Note\r\n A1,-5\r\n",
        "sep=;\nmark;note\nA1;-5\n",
        "mark\tnote\rA1\t-5\r",
        'mark,note\n"=""A1""","=""-5"""\n',
        "mark,note\n'A1,'-5\n",
        "mark,note\nA1,\u22125\n",
        "mark,note\n\u00a0A1\u202f,\u2009-5,\n",
        "sep=,\r\nmark,note\r\nA1,-5\r\n",
        "mark,note,,\nA1,-5,,\n",
        "mark,note,\nA1,-5,\n",
        "mark,note\n\n,\nA1,-5\n\n",
    ],
)
def test_what_a_spreadsheet_does_to_a_table_is_undone(text: str) -> None:
    assert [dict(row.cells) for row in rows(text)] == [{"mark": "A1", "note": "-5"}]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "t.csv row 1: the column mark is missing; write mark"),
        ("note\nx\n", "t.csv row 1: the column mark is missing; write mark"),
        ("mark,nota\nA,b\n", 't.csv row 1: unknown column "nota"; the nearest known is note'),
        ("mark,,note\nA,,b\n", 't.csv row 1: unknown column ""; the nearest known is mark'),
        ("mark,mark\nA,b\n", "t.csv row 1: the column mark is there twice; write each column once"),
        ("sep=;\nmark;mark\nA;b\n", "t.csv row 2: the column mark is there twice; write each column once"),
        ("mark,note\nA\n", "t.csv row 2: it has 1 cell and the header 2; "
         "write one cell for each column, and text with separators in double quotes"),
        ("mark\n" * 7, "t.csv: 7 rows are too many; write at most 6"),
        ('mark,note\nA,b\nB,"c\nD,e\n', "t.csv row 3: this is no table "
         "(a double quote opens a text there and none closes it); "
         "save the table as text with commas, tabs or semicolons"),
        ('mark,note\nA,"b"c\n', "t.csv row 2: this is no table (',' expected after '\"'); "
         "save the table as text with commas, tabs or semicolons"),
    ],
)  # fmt: skip
def test_what_is_no_table_is_told_with_the_row_in_which_it_begins(text: str, sentence: str) -> None:
    with pytest.raises(SurveyError) as caught:
        rows(text)
    assert str(caught.value) == sentence


def test_lines_inside_a_cell_are_joined_where_that_is_asked_for_and_else_refused() -> None:
    text = 'mark,note\nA1,"one\r\ntwo"\n'
    assert rows(text, joined=True)[0].text("note") == "one two"
    with pytest.raises(SurveyError, match=r"row 2, note: .* is not one short line; write at most 120 characters"):
        rows(text)[0].text("note")


def test_a_cell_of_the_longest_length_is_read_and_one_longer_is_refused() -> None:
    assert len(rows(f"mark,note\nA1,{'x' * 120}\n")[0].text("note")) == 120
    with pytest.raises(SurveyError, match="at most 120 characters"):
        rows(f"mark,note\nA1,{'x' * 121}\n")[0].text("note")


def test_a_row_of_another_width_is_told_with_its_number_below_a_line_for_the_separator() -> None:
    with pytest.raises(SurveyError, match=r"t\.csv row 4: it has 1 cell and the header 2"):
        rows("sep=;\nmark;note\nA;b\nC\n")


def test_lines_that_begin_with_the_comment_are_passed_over_and_keep_their_number() -> None:
    assert [row.number for row in rows('mark,note\n"# a, b"\nA1,x\n', comment="# ")] == [3]


@pytest.mark.parametrize(
    ("cell", "value"), [("2.5", 2.5), (".5", 0.5), ("3.", 3.0), ("-1", -1.0), ("", None), ("\u22121", -1.0)]
)
def test_a_number_reads_as_people_write_it(cell: str, value: float | None) -> None:
    assert rows(f"mark,size\nA1,{cell}\n")[0].number_or_none("size", -2, 9, "in.") == value


@pytest.mark.parametrize(
    ("cell", "sentence"),
    [
        ("1e3", 't.csv row 2, size: "1e3" is not a number; write 0 to 9 in.'),
        ("nan", 't.csv row 2, size: "nan" is not a number; write 0 to 9 in.'),
        ("9.01", 't.csv row 2, size: "9.01" is out of range; write 0 to 9 in.'),
        ("", "t.csv row 2, size: the cell is empty; write 0 to 9 in."),
    ],
)
def test_a_number_that_is_none_is_told_with_its_bounds(cell: str, sentence: str) -> None:
    with pytest.raises(SurveyError) as caught:
        rows(f"mark,size\nA1,{cell}\n")[0].needed("size", 0, 9, "in.")
    assert str(caught.value) == sentence


def test_the_nearest_word_is_named_whatever_its_case() -> None:
    assert nearest("Nots", KNOWN) == "note"
    assert nearest("x", ()) == "none"
