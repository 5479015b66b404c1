"""The sentence for each wrong outline, wall, support and file, whole; and good plans damaged at random."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from framing.errors import PlanError
from framing.plan_file import plan_from_text, read_plan
from framing.plan_file.slips import slip_in
from parts.plans import LENGTHS, SHORT, damaged, outlined, with_

WRONG: dict[str, tuple[str, str]] = {
    # outline
    "outline text": (
        outlined('"square"'),
        'walls outline: "square" is not a list of corners; write outline = '
        '[["0\'", "0\'"], ["40\'", "0\'"], ["40\'", "28\'"], ["0\'", "28\'"]]',
    ),
    "two corners": (
        outlined("[[0,0],[40,0]]"),
        "walls outline: 2 corners make no house; write 4 to 200 corners in order",
    ),
    "triangle": (
        outlined("[[0,0],[40,0],[0,30]]"),
        "walls outline: 3 corners make no house; write 4 to 200 corners in order",
    ),
    "corner of three": (
        outlined("[[0,0],[40,0],[40,28,0],[0,28]]"),
        'walls outline corner 3: a point is two lengths; write it like ["0\'", "28\'"]',
    ),
    "corner typo": (
        outlined('[[0,0],[40,0],["40\'","28\'-"],[0,28]]'),
        f'walls outline corner 3: "28\'-" has a dash that joins nothing; {LENGTHS}',
    ),
    "corner nan": (
        outlined("[[0,0],[40,nan],[40,28],[0,28]]"),
        "walls outline corner 2: nan is not a number that can be measured; "
        "write -10000' to 10000' (a plain number is in feet)",
    ),
    "closed outline": (
        outlined("[[0,0],[40,0],[40,28],[0,28],[0,0]]"),
        "walls outline corner 5: repeats corner 1; leave it out, the outline closes by itself",
    ),
    "repeated corner": (
        outlined("[[0,0],[40,0],[40,0],[40,28],[0,28]]"),
        "walls outline corner 3: repeats corner 2; write each corner once",
    ),
    "outline that meets itself": (
        outlined("[[0,0],[20,0],[20,20],[40,20],[40,40],[20,40],[20,20],[0,20]]"),
        "walls outline corner 7: repeats corner 3; write each corner once",
    ),
    "tiny side": (
        outlined('[[0,0],[40,0],[40,28],["1/2\\"",28],["1/2\\"",30],[0,30]]'),
        'walls outline side from corner 5 to corner 6: 0\'-0 1/2" is too short for a side; make it 1" or more, '
        "or write walls straighten larger than it",
    ),
    "self-crossing": (
        outlined("[[0,0],[40,0],[0,28],[40,28]]"),
        "walls outline side from corner 2 to corner 3: it crosses or touches the side from corner 4 to corner 1; "
        "exchange corners 1 and 2, which closes the outline without crossing",
    ),
    "touching": (
        outlined("[[0,0],[40,0],[40,28],[20,28],[20,0],[10,0],[10,28],[0,28]]"),
        "walls outline side from corner 1 to corner 2: it crosses or touches the side from corner 4 to corner 5; "
        "list the corners in order around the house",
    ),
    "spike": (
        outlined("[[0,0],[60,0],[40,0],[40,28],[0,28]]"),
        "walls outline corner 2: the outline runs back over itself; list the corners in order around the house",
    ),
    "too narrow": (
        outlined("[[0,0],[40,0],[40,3],[0,3]]"),
        "walls outline: 3'-0\" is out of range for a side of the house; write 4'-0\" to 500'-0\"",
    ),
    "too long": (
        outlined("[[0,0],[501,0],[501,30],[0,30]]"),
        "walls outline: 501'-0\" is out of range for a side of the house; write 4'-0\" to 500'-0\"; a number "
        'without quotes is feet, and inches are written "501in"',
    ),
    "millimetres": (
        outlined("[[0,0],[9800,0],[9800,8000],[0,8000]]"),
        "walls outline: 9800'-0\" is out of range for a side of the house; write 4'-0\" to 500'-0\"; a number "
        'without quotes is feet, and millimetres are written "9800mm"',
    ),
    "a corner in millimetres": (
        outlined("[[0,0],[14200,0],[14200,8500],[0,8500]]"),
        "walls outline corner 2: 14200 is out of range; write -10000' to 10000' (a plain number is in feet), or "
        '"14200mm" if it is millimetres',
    ),
    "too many corners": (
        outlined(str([[i, 0] for i in range(201)])),
        "walls outline: 201 corners make no house; write 4 to 200 corners in order",
    ),
    "outline from a drawing": (
        SHORT.replace(SHORT.splitlines()[2], 'outline_dxf = { file = "floor.dxf", layer = "A-WALL" }'),
        "walls outline_dxf: drawings are not read here; write the corners as outline = [...]",
    ),
    # walls named elsewhere
    "start wall": (with_("trusses", 'start = "W5"'), 'trusses start: "W5" is no wall of this house; write W1 to W4'),
    "edge wall": (
        SHORT + '[[roof.edge]]\nwall = "north"\ntype = "gable"\n',
        'roof edge 1 wall: "north" is no wall of this house; write W1 to W4',
    ),
    "single brackets": (
        SHORT + '[roof.edge]\nwall = "W1"\ntype = "gable"\n',
        "roof edge: this is one value where several may stand; write [[roof.edge]] in double brackets",
    ),
    "edge without a type": (SHORT + '[[roof.edge]]\nwall = "W1"\n', 'roof edge 1 type: missing; write type = "gable"'),
    "edge off its wall": (
        SHORT + '[[roof.edge]]\nwall = "W2"\ntype = "gable"\nto = "30\'"\n',
        "roof edge 1: it runs past the end of W2; write stations up to 28'-0\"",
    ),
    "edge the wrong way": (
        SHORT + '[[roof.edge]]\nwall = "W2"\ntype = "gable"\nfrom = "9\'"\nto = "3\'"\n',
        "roof edge 1: it has no length; write a to that is larger than its from",
    ),
    "edges overlap": (
        SHORT + '[[roof.edge]]\nwall = "W2"\ntype = "gable"\n[[roof.edge]]\nwall = "W2"\ntype = "hip"\nfrom = "9\'"\n',
        "roof edge 2: it overlaps roof edge 1 on W2; write each part of a wall once",
    ),
    # supports
    "support kind": (
        SHORT + '[[support]]\nkind = "post"\nfrom = [0, 14]\nto = [40, 14]\n',
        'support 1 kind: "post" is not known; write "bearing wall" or "beam"',
    ),
    "support without an end": (
        SHORT + '[[support]]\nkind = "beam"\nfrom = [0, 14]\n',
        'support 1 to: missing; write to = ["40\'", "14\'"]',
    ),
    "support outside": (
        SHORT + '[[support]]\nkind = "beam"\nfrom = [0, 14]\nto = [60, 14]\n',
        "support 1: it leaves the house; write from and to so that all of it lies inside the walls",
    ),
    "short support": (
        SHORT + '[[support]]\nkind = "beam"\nfrom = [4, 14]\nto = [4, 14]\n',
        "support 1: it is shorter than a foot; write from and to at least 1'-0\" apart",
    ),
    "support tied down in words": (
        SHORT + '[[support]]\nkind = "beam"\nfrom = [0, 14]\nto = [40, 14]\nholds_down = "yes"\n',
        'support 1 holds_down: "yes" is neither; write true or false without quotes',
    ),
    "support that is no section": (
        "support = [4]\n" + SHORT,
        "support 1: 4 is not a section; write [[support]]",
    ),
    # TOML itself
    "broken line": (
        "\nspeed 160\n",
        "house.toml line 2: this is not TOML (expected '=' after a key in a key/value pair); "
        "write each line as [section] or key = value",
    ),
    "inch mark": (
        SHORT.replace('46\'-8\\""', '46\'-8""', 1),
        'house.toml line 3: an inch mark ends the text too soon; write it as \\", for instance "46\'-8\\""',
    ),
    "key twice": (
        SHORT + "speed = 150\n",
        "house.toml line 10: speed is written a second time; keep one of the two",
    ),
    "section twice": (
        SHORT + "[walls]\n",
        "house.toml line 10: [walls] is written a second time; keep one of the two",
    ),
    "length without quotes": (
        with_("walls", "height = 9'4  # floor to beam"),
        'house.toml line 3: height is no plain number and stands in quotes; write height = "9\'4"',
    ),
    "pitch without quotes": (
        SHORT.replace('"5:12"', "5/12"),
        'house.toml line 6: pitch is no plain number and stands in quotes; write pitch = "5/12"',
    ),
    "word without quotes": (
        SHORT.replace('"hip"', "hip"),
        'house.toml line 5: type is no plain number and stands in quotes; write type = "hip"',
    ),
    "number with its unit": (
        SHORT.replace("160", "160 mph"),
        "house.toml line 8: speed is a number without its unit; write speed = 160",
    ),
    "corner without quotes": (
        SHORT.replace('"0\'"', "0'", 1),
        'house.toml line 3: a length with a unit stands in quotes; write such as ["46\'8", "12.2m"], or plain numbers '
        "in feet",
    ),
    "typographic quotes": (
        SHORT.replace('"hip"', "\u201chip\u201d"),
        'house.toml line 5: \u201c is a typographic quotation mark; write the plain one, "',
    ),
    "open quotes": (
        SHORT.replace('"hip"', '"hip'),
        "house.toml line 5: a quotation mark is not closed; write one at each end of the text, an inch mark in it as "
        '\\"',
    ),
    "comma behind a value": (
        SHORT.replace('"hip"', '"hip",'),
        "house.toml line 5: a line with type = ends without a comma; take it away",
    ),
    "colon for equals": (
        SHORT.replace("speed = 160", "speed: 160"),
        "house.toml line 8: a key and its value are joined by =, not by a colon; write such as speed = 160",
    ),
    "section not closed": (
        SHORT.replace("[roof]", "[roof"),
        "house.toml line 4: a section's name stands between brackets; write [roof]",
    ),
    "unclosed list": (
        "walls = [1, 2",
        "house.toml, at its end: this is not TOML (unclosed array); write each line as [section] or key = value",
    ),
    "nested too deep": (
        "x = " + "[" * 5000,
        "house.toml: brackets are nested too deep; close each list where it ends",
    ),
}


@pytest.mark.parametrize("case", WRONG)
def test_each_wrong_shape_is_answered_in_its_own_words(case: str) -> None:
    text, sentence = WRONG[case]
    with pytest.raises(PlanError) as caught:
        plan_from_text(text, "house.toml")
    assert str(caught.value) == sentence


DRAWING = "house.toml: this is a drawing and no plan; strapline outline lists the outlines in it"


@pytest.mark.parametrize("data", [SHORT.encode("utf-16"), SHORT.replace("\n", "\r").encode()])
def test_a_plan_in_utf_16_or_with_the_line_ends_of_old_is_read(tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "house.toml"
    path.write_bytes(data)
    assert read_plan(path) == plan_from_text(SHORT, "house.toml")


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"\x89PNG\r\n\0\0", "{}: this is a binary file; name a plan file, which is plain text in UTF-8"),
        (SHORT.encode("utf-16-le"), "{}: this is a binary file; name a plan file, which is plain text in UTF-8"),
        (b"999\nmade by\n  0\nSECTION\n  2\nHEADER\n", DRAWING),
        (b"  0\r\nSECTION\r\n", DRAWING),
        (SHORT.encode() + b'name = "Ca\xf1on"', "{} line 10: this is not UTF-8 text; save the plan as UTF-8"),
        (b"#" * 2_000_001, "{}: it is larger than 2 MB; name a plan file"),
    ],
)
def test_a_file_that_is_no_plan_is_refused(tmp_path: Path, data: bytes, sentence: str) -> None:
    path = tmp_path / "house.toml"
    path.write_bytes(data)
    with pytest.raises(PlanError) as caught:
        read_plan(path)
    assert str(caught.value) == sentence.format(path)


def test_a_missing_file_a_folder_and_a_device_are_told_apart(tmp_path: Path) -> None:
    for path, what in [
        (tmp_path / "gone.toml", "there is no such file; check the path of the plan"),
        (tmp_path / "a" / "b.toml", "there is no such file; check the path of the plan"),
        (tmp_path, "this is a folder; name the plan file in it"),
        (Path("/dev/null"), "this is not a plain file; name a plan file"),
        (tmp_path / ("n" * 300), "it cannot be read (File name too long); name a plan file that can"),
        (Path("a\0b"), "it cannot be read (the path is not one); name a plan file that can"),
    ]:
        with pytest.raises(PlanError) as caught:
            read_plan(path)
        assert str(caught.value).endswith(f": {what}")
        assert "\n" not in str(caught.value)


@pytest.mark.parametrize("line", ['outline = -\x01 [["0"]]', 'outline = -1 [["0\'"]]', "pitch = 5:\x7f12"])
def test_what_cannot_be_shown_or_is_more_than_one_text_is_not_told_to_stand_in_quotes(line: str) -> None:
    assert "stands in quotes" not in (slip_in(line, "Invalid value (at line 1, column 11)") or "")


@settings(max_examples=400, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.data())
def test_a_damaged_plan_reads_or_is_refused_in_one_line(tmp_path: Path, data: st.DataObject) -> None:
    good = SHORT + '[[roof.edge]]\nwall = "W2"\ntype = "gable"\n[trusses]\nspacing = "24\\""\n'
    path = tmp_path / "house.toml"
    path.write_bytes(damaged(data, good))
    try:
        answer = read_plan(path).project.name
    except PlanError as problem:
        answer = str(problem)
    assert answer.isprintable()
