"""The anchor catalogue: what it may say, and the sentence for each thing it may not."""

from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from framing.anchors.catalogue import AnchorKind
from framing.anchors.catalogue_columns import COLUMNS, MEANINGS, empty_catalogue
from framing.anchors.catalogue_file import SAMPLE_NAME, catalogue_of, read_catalogue, shipped_catalogue
from framing.anchors.interaction import Interaction
from framing.anchors.sample_rule import SHIPPED, sample_catalogue
from framing.errors import CatalogueError, PlanError
from framing.plan_file import plan_from_text

HEADER = "id,count,plies,allowable_uplift_lb"
GOOD = f"{HEADER}\nsmall,1,1,750\nlarge,1,2,1850.5\n"
PLAN = """
walls.outline = [[0, 0], [30, 0], [30, 20], [0, 20]]
roof = { type = "hip", pitch = "5:12" }
wind = { speed = 150, exposure = "B" }
"""


def said_of(folder: Path, text: str | bytes) -> str:
    path = folder / "mine.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    with pytest.raises(CatalogueError) as caught:
        read_catalogue(path)
    return str(caught.value)


def test_a_catalogue_of_the_needed_columns_reads_in_file_order(tmp_path: Path) -> None:
    path = tmp_path / "mine.csv"
    path.write_text(GOOD)
    catalogue = read_catalogue(path)
    assert [(a.id, a.name, a.count, a.plies, a.allowable_uplift_lb, a.order) for a in catalogue.anchors] == [
        ("small", "small", 1, 1, 750.0, 0),
        ("large", "large", 1, 2, 1850.5, 1),
    ]
    assert catalogue.anchors[0].allowable_parallel_lb is None
    assert (catalogue.name, catalogue.invented) == ("mine.csv", False)


def test_a_spreadsheet_s_own_csv_reads_the_same(tmp_path: Path) -> None:
    path = tmp_path / "mine.csv"
    path.write_bytes(
        b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").replace("id,count", " ID , count").encode() + b",,,\r\n"
    )
    anchors = read_catalogue(path).anchors
    path.write_text(GOOD)
    assert anchors == read_catalogue(path).anchors


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"], ids=["unix", "windows", "old mac"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"], ids=["plain", "byte-order mark"])
def test_a_catalogue_has_the_same_print_however_its_lines_end(tmp_path: Path, end: str, mark: bytes) -> None:
    path = tmp_path / "mine.csv"
    path.write_bytes(GOOD.encode())
    plain = read_catalogue(path)
    path.write_bytes(mark + GOOD.replace("\n", end).encode())
    assert read_catalogue(path) == plain
    path.write_bytes(GOOD.replace("750", "751").encode())
    assert read_catalogue(path).sha256 != plain.sha256


@pytest.mark.parametrize("separator", ["\t", ";"])
def test_columns_may_be_parted_by_tabs_or_semicolons(tmp_path: Path, separator: str) -> None:
    path = tmp_path / "mine.csv"
    path.write_text(GOOD.replace(",", separator))
    anchors = read_catalogue(path).anchors
    path.write_text(GOOD)
    assert anchors == read_catalogue(path).anchors


def test_a_row_may_say_its_rule_of_interaction_its_distances_and_that_it_is_put_on_afterwards(tmp_path: Path) -> None:
    path = tmp_path / "mine.csv"
    more = "interaction,spacing_in,end_in,edge_in,f_c_psi,minutes,kind"
    path.write_text(f"{HEADER},{more}\na,1,1,900,each 0.75,6,4.5,2,3000,6.5,retrofit\nb,1,1,950,,,,,,,\n")
    a, b = read_catalogue(path).anchors
    assert (a.interaction, a.kind) == (Interaction.EACH, AnchorKind.RETROFIT)
    assert (a.spacing_in, a.end_in, a.edge_in, a.f_c_psi, a.minutes) == (6.0, 4.5, 2.0, 3000.0, 6.5)
    assert (b.interaction, b.kind) == (Interaction.SUM, AnchorKind.CAST)
    assert (b.spacing_in, b.end_in, b.edge_in, b.f_c_psi, b.minutes) == (None,) * 5


def test_a_rule_that_is_none_and_a_decimal_comma_are_refused_with_their_place(tmp_path: Path) -> None:
    assert said_of(tmp_path, f"{HEADER},interaction\na,1,1,900,square\n") == (
        'mine.csv row 2, interaction: "square" is not known; write "sum" or "each 0.75", or leave the cell empty'
    )
    decimal_comma = f"{HEADER}\na,1,1,900.5\n".replace(",", ";").replace(".", ",")
    assert said_of(tmp_path, decimal_comma) == (
        'mine.csv row 2, allowable_uplift_lb: "900,5" is not a number; write 1 to 100000 lb'
    )


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "mine.csv row 1: the column id is missing; write id, count, plies, allowable_uplift_lb"),
        (HEADER, "mine.csv: there is no anchor in it; write a row for each anchor below the header"),
        ("id,count,plies\n", "mine.csv row 1: the column allowable_uplift_lb is missing; "
         "write id, count, plies, allowable_uplift_lb"),
        ("id,count,plys\n", 'mine.csv row 1: unknown column "plys"; the nearest known is plies'),
        (f"{HEADER},id\n", "mine.csv row 1: the column id is there twice; write each column once"),
        (f"{HEADER}\na,1,1\n", "mine.csv row 2: it has 3 cells and the header 4; "
         "write one cell for each column, and text with separators in double quotes"),
        (f"{HEADER}\na,1,1,1,900\n", "mine.csv row 2: it has 5 cells and the header 4; "
         "write one cell for each column, and text with separators in double quotes"),
        (f"{HEADER}\n\n,1,1,900\n", "mine.csv row 3, id: the cell is empty; write the anchor's name or number"),
        (f"{HEADER}\na,,1,900\n", "mine.csv row 2, count: the cell is empty; write 1 to 2"),
        (f"{HEADER}\na,1,,900\n", "mine.csv row 2, plies: the cell is empty; write 1 to 6"),
        (f"{HEADER}\na,1,1,\n", "mine.csv row 2, allowable_uplift_lb: the cell is empty; write 1 to 100000 lb"),
        (f"{HEADER}\na,1,1,much\n",
         'mine.csv row 2, allowable_uplift_lb: "much" is not a number; write 1 to 100000 lb'),
        (f"{HEADER}\na,1,1,nan\n", 'mine.csv row 2, allowable_uplift_lb: "nan" is not a number; write 1 to 100000 lb'),
        (f"{HEADER}\na,1,1,-5\n", 'mine.csv row 2, allowable_uplift_lb: "-5" is out of range; write 1 to 100000 lb'),
        (f'{HEADER}\na,1,1,"1,900"\n',
         'mine.csv row 2, allowable_uplift_lb: "1,900" is not a number; write 1 to 100000 lb'),
        (f"{HEADER}\na,3,1,900\n", 'mine.csv row 2, count: "3" is out of range; write 1 to 2'),
        (f"{HEADER}\na,1,1.5,900\n", 'mine.csv row 2, plies: "1.5" is not a whole number; write 1 to 6'),
        (f"{HEADER}\na,1,9,900\n", 'mine.csv row 2, plies: "9" is out of range; write 1 to 6'),
        (f"{HEADER},allowable_parallel_lb\na,1,1,9,0\n",
         'mine.csv row 2, allowable_parallel_lb: "0" is out of range; write 1 to 100000 lb'),
        (f"{HEADER},allowable_perpendicular_lb\na,1,1,9,x\n",
         'mine.csv row 2, allowable_perpendicular_lb: "x" is not a number; write 1 to 100000 lb'),
        (f"{HEADER},embedment_in\na,1,1,9,50\n",
         'mine.csv row 2, embedment_in: "50" is out of range; write 0 to 48 in.'),
        (f"{HEADER},length_in\na,1,1,9,-1\n", 'mine.csv row 2, length_in: "-1" is out of range; write 0 to 120 in.'),
        (f"{HEADER},n_nails\na,1,1,9,2.5\n", 'mine.csv row 2, n_nails: "2.5" is not a whole number; write 0 to 500'),
        (f"{HEADER},price\na,1,1,9,free\n", 'mine.csv row 2, price: "free" is not a number; write 0 to 100000'),
        (f"{HEADER},approval\na,1,1,9,{'x' * 121}\n",
         f'mine.csv row 2, approval: "{"x" * 37}..." is not one short line; write at most 120 characters'),
        (f"{HEADER}\na,1,1,9\nb,1,1,9\na,1,1,8\n",
         "mine.csv row 4, id: repeats row 2; write one row for each id, count and plies"),
        (f'{HEADER}\n"a,1,1,9\n', "mine.csv row 2: this is no table "
         "(a double quote opens a text there and none closes it); "
         "save the table as text with commas, tabs or semicolons"),
        ("\n" * 6000, "mine.csv row 1: the column id is missing; write id, count, plies, allowable_uplift_lb"),
        (HEADER + "\n" * 6000, "mine.csv: 6000 rows are too many; write at most 5000"),
    ],
)  # fmt: skip
def test_a_wrong_table_is_answered_with_row_and_column(tmp_path: Path, text: str, sentence: str) -> None:
    assert said_of(tmp_path, text).replace(f"{tmp_path}/", "") == sentence


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"\x89PNG\0\0", "{}: this is a binary file; name a catalogue file, which is plain text in UTF-8"),
        (b"id,count\nna\xefve,1", "{} line 2: this is not UTF-8 text; save the catalogue as UTF-8"),
        (b"x" * 2_000_001, "{}: it is larger than 2 MB; name a catalogue file"),
    ],
)
def test_a_file_that_is_no_table_is_refused(tmp_path: Path, data: bytes, sentence: str) -> None:
    assert said_of(tmp_path, data) == sentence.format(tmp_path / "mine.csv")


def test_a_plan_s_catalogue_lies_beside_the_plan_and_the_sample_stands_in_for_none(tmp_path: Path) -> None:
    (tmp_path / "mine.csv").write_text(GOOD)
    plan = plan_from_text(PLAN, "house.toml")
    mine = replace(plan, anchors=replace(plan.anchors, catalogue="mine.csv"))
    assert catalogue_of(plan, tmp_path) == shipped_catalogue()
    assert catalogue_of(mine, tmp_path) == read_catalogue(tmp_path / "mine.csv")


def test_a_catalogue_that_is_not_there_is_named(tmp_path: Path) -> None:
    plan = plan_from_text(PLAN + '[anchors]\ncatalogue = "gone.csv"\n', "house.toml")
    with pytest.raises(CatalogueError) as caught:
        catalogue_of(plan, tmp_path)
    assert str(caught.value) == f"{tmp_path / 'gone.csv'}: there is no such file; check the path of the catalogue"


def test_a_house_minimum_that_the_catalogue_has_not_names_the_nearest(tmp_path: Path) -> None:
    plan = plan_from_text(PLAN + '[anchors]\nminimum = "slendr"\n', "house.toml")
    with pytest.raises(PlanError) as caught:
        catalogue_of(plan, tmp_path)
    assert str(caught.value) == (
        'anchors minimum: "slendr" is not in sample_anchors.csv; the nearest id there is "slender" '
        '(or write pounds, such as "900 lb")'
    )


def test_the_shipped_sample_says_on_every_row_that_it_is_invented() -> None:
    sample = (files("framing.anchors") / SAMPLE_NAME).read_text(encoding="utf-8").splitlines()
    assert sample[0].startswith("note,")
    assert all(line.startswith("invented,") for line in sample[1:])
    assert shipped_catalogue().invented


SAMPLES = Path(__file__).parents[2] / "sample_plans"
BY_THE_RULE = {
    "hip_house": sample_catalogue({"slim": 8, "plain": 17, "wide": 26, "great": 44}),
    "cottage": sample_catalogue({"thin": 8, "fair": 14, "thick": 21}),
    "garage_wing": sample_catalogue(
        {"slight": 7, "plain": 12, "stout": 19, "great": 44}, retrofit={"added": 22, "added wide": 36}
    ),
    "long_girder": sample_catalogue(
        {"lean": 7, "usual": 12, "sturdy": 19, "great": 43}, pairs_of=("lean", "usual", "sturdy")
    ),
}


def test_the_shipped_sample_is_the_rule_s() -> None:
    """Renew it with: python -P -m framing.anchors.sample_rule > framing/anchors/sample_anchors.csv."""
    assert (files("framing.anchors") / SAMPLE_NAME).read_text(encoding="utf-8") == sample_catalogue(SHIPPED)


@pytest.mark.parametrize("name", BY_THE_RULE)
def test_the_catalogues_of_the_sample_plans_are_the_rule_s(name: str) -> None:
    assert (SAMPLES / f"{name}_anchors.csv").read_text(encoding="utf-8") == BY_THE_RULE[name]


def test_a_pair_of_the_shipped_sample_takes_more_than_one_and_less_than_two() -> None:
    singles = {(a.id, a.plies): a.allowable_uplift_lb for a in shipped_catalogue().anchors if a.count == 1}
    pairs = {(a.id, a.plies): a.allowable_uplift_lb for a in shipped_catalogue().anchors if a.count == 2}
    assert set(pairs) == set(singles)
    assert all(singles[key] < lb < 2 * singles[key] for key, lb in pairs.items())
    assert {plies for _, plies in singles} == {1, 2, 3}


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_a_damaged_catalogue_reads_or_is_refused_in_one_line(tmp_path: Path, data: st.DataObject) -> None:
    good = (files("framing.anchors") / SAMPLE_NAME).read_bytes()
    at = data.draw(st.integers(0, len(good)))
    cut = data.draw(st.integers(0, 40))
    path = tmp_path / "damaged.csv"
    path.write_bytes(good[:at] + data.draw(st.binary(max_size=8)) + good[at + cut :])
    try:
        answer = read_catalogue(path).name
    except CatalogueError as problem:
        answer = str(problem)
    assert answer
    assert answer.isprintable()


def test_the_empty_catalogue_tells_every_column_and_reads_once_a_row_stands_in_it(tmp_path: Path) -> None:
    empty = empty_catalogue()
    assert (
        said_of(tmp_path, empty) == "mine.csv: there is no anchor in it; write a row for each anchor below the header"
    )
    for column, what in MEANINGS.items():
        assert f"# {column}" in empty
        assert what in empty
    filled = {"id": "mine", "count": "2", "plies": "1", "allowable_uplift_lb": "900", "end_in": "6"}
    path = tmp_path / "mine.csv"
    path.write_text(empty + ",".join(filled.get(column, "") for column in COLUMNS) + "\n")
    (anchor,) = read_catalogue(path).anchors
    assert (anchor.id, anchor.count, anchor.allowable_uplift_lb, anchor.end_in) == ("mine", 2, 900.0, 6.0)


def test_every_number_in_the_catalogue_tells_its_unit() -> None:
    units = {"_lb": "lb", "_in": "in.", "_psi": "psi", "minutes": "minutes"}
    for column, what in MEANINGS.items():
        for end, unit in units.items():
            assert not column.endswith(end) or f"{unit}" in what, column
