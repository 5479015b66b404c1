"""The sentence for each mistake in a plan file, whole."""

import string
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from framing.errors import PlanError
from framing.plan_file import plan_from_text, read_plan

SHORT = """
[walls]
outline = [["0'", "0'"], ["46'-8\\"", "0'"], ["46'-8\\"", "28'"], ["0'", "28'"]]
[roof]
type = "hip"
pitch = "5:12"
[wind]
speed = 160
exposure = "C"
"""
LENGTHS = 'write 12\'-4 1/2", 12ft 4in, 24" or plain feet such as 12.375'


def with_(section: str, lines: str) -> str:
    """The short plan with lines added to a section, or a new section at its end."""
    head = f"[{section}]\n"
    return SHORT.replace(head, head + lines + "\n") if head in SHORT else f"{SHORT}{head}{lines}\n"


OUTLINE = SHORT.splitlines()[2]


def outlined(corners: str) -> str:
    return SHORT.replace(OUTLINE, f"outline = {corners}")


WRONG: dict[str, tuple[str, str]] = {
    "empty": ("", "walls: the section is missing; write [walls] with outline"),
    "no wind": (SHORT.partition("[wind]")[0], "wind: the section is missing; write [wind] with speed and exposure"),
    "no pitch": (SHORT.replace('pitch = "5:12"\n', ""), 'roof pitch: missing; write pitch = "5:12"'),
    "no speed": (SHORT.replace("speed = 160\n", ""), "wind speed: missing; write speed = 160"),
    "not a section": ("walls = 3\n" + SHORT.replace("[walls]", "[roof.x]"), "walls: 3 is not a section; write [walls]"),
    "two wind sections": (
        SHORT.replace("[wind]", "[[wind]]"),
        "wind: [{'speed': 160, 'exposure': 'C'}] is not a section; write [wind]",
    ),
    # keys
    "unknown key": (
        with_("trusses", 'spacng = "24\\""'),
        "trusses spacng: unknown key; the nearest known key is trusses.spacing",
    ),
    "key of another section": (with_("walls", 'pitch = "5:12"'), "walls pitch: unknown key; it belongs in [roof]"),
    "section inside another": (
        with_("walls", "support = []"),
        "walls support: unknown key; it belongs at the top level of the file",
    ),
    "key at the top": ("speed = 160\n" + SHORT, "speed: unknown key; it belongs in [wind]"),
    "unknown section": (with_("truses", "x = 1"), "truses: unknown section; the nearest known is [trusses]"),
    "unknown top key": ("formatt = 1\n" + SHORT, "formatt: unknown key; the nearest known key is format"),
    "unknown edge key": (
        SHORT + '[[roof.edge]]\nwall = "W1"\ntype = "hip"\nfrm = "1\'"\n',
        "roof edge 1 frm: unknown key; the nearest known key is roof.edge.from",
    ),
    "key with a line break": (
        with_("walls", '"he\\night" = 1'),
        'walls "he?ight": unknown key; the nearest known key is walls.height',
    ),
    # format
    "newer format": (
        "format = 2\n" + SHORT,
        "format: 2 is newer than this program reads; write format = 1, or take a newer program",
    ),
    "format in words": ('format = "one"\n' + SHORT, 'format: "one" is not a whole number; write 1'),
    "negative format": ("format = -1\n" + SHORT, "format: -1 is out of range; write 1"),
    "format yes": ("format = true\n" + SHORT, "format: true is not a whole number; write 1"),
    # project
    "name is a number": (with_("project", "name = 7"), "project name: 7 is not text; write it in double quotes"),
    "name of two lines": (
        with_("project", 'name = "a\\nb"'),
        'project name: "a?b" is not one short line; write at most 120 plain characters',
    ),
    "long revision": (
        with_("project", f'revision = "{"r" * 121}"'),
        f'project revision: "{"r" * 37}..." is not one short line; write at most 120 plain characters',
    ),
    "date in quotes": (
        with_("project", 'date = "today"'),
        'project date: "today" is not a date; write it without quotes, such as 2026-11-25',
    ),
    "date with a time": (
        with_("project", "date = 2026-11-25T08:00:00"),
        "project date: 2026-11-25 08:00:00 is not a date; write it without quotes, such as 2026-11-25",
    ),
    "north in words": (with_("project", 'north = "up"'), 'project north: "up" is not an angle; write "90 deg"'),
    "north too far": (
        with_("project", "north = 720"),
        'project north: 720 is out of range; write "-360 deg" to "360 deg"',
    ),
    "north nan": (
        with_("project", "north = nan"),
        'project north: nan is not a number that can be measured; write "-360 deg" to "360 deg"',
    ),
    # lengths
    "length typo": (with_("walls", 'height = "9\'-4"'), f'walls height: "9\'-4" is not a length; {LENGTHS}'),
    "inches over twelve": (
        with_("walls", 'height = "9\'-14\\""'),
        'walls height: "9\'-14"" has 14 inches beside feet; write 0 to under 12 of them',
    ),
    "height out of range": (
        with_("walls", 'height = "50\'"'),
        "walls height: \"50'\" is out of range; write 4' to 40'",
    ),
    "number in feet": (
        with_("trusses", "spacing = 24"),
        "trusses spacing: 24 is out of range; write 3\" to 8' (a plain number is in feet)",
    ),
    "negative spacing": (
        with_("trusses", 'spacing = "-24\\""'),
        'trusses spacing: "-24"" is out of range; write 3" to 8\'',
    ),
    "zero spacing": (
        with_("trusses", "spacing = 0"),
        "trusses spacing: 0 is out of range; write 3\" to 8' (a plain number is in feet)",
    ),
    "infinite spacing": (
        with_("trusses", "spacing = inf"),
        "trusses spacing: inf is not a number that can be measured; write 3\" to 8' (a plain number is in feet)",
    ),
    "length true": (
        with_("trusses", "heel = true"),
        "trusses heel: true is not a number; write 0\" to 4' (a plain number is in feet)",
    ),
    "length list": (
        with_("trusses", "heel = [1]"),
        "trusses heel: [1] is not a number; write 0\" to 4' (a plain number is in feet)",
    ),
    "huge number": (
        with_("walls", f"height = {10**40}"),
        "walls height: a number beyond all bounds is out of range; write 4' to 40' (a plain number is in feet)",
    ),
    "setback": (with_("trusses", 'setback = "21\'"'), "trusses setback: \"21'\" is out of range; write 2' to 20'"),
    "heel": (with_("trusses", 'heel = "5\'"'), 'trusses heel: "5\'" is out of range; write 0" to 4\''),
    "gable anchors": (
        with_("trusses", 'gable_anchor_spacing = "6\\""'),
        'trusses gable_anchor_spacing: "6"" is out of range; write 1\' to 10\'',
    ),
    "overhang": (with_("roof", 'overhang = "9\'"'), "roof overhang: \"9'\" is out of range; write 0' to 8'"),
    "rake": (with_("roof", 'rake_overhang = "7\'"'), "roof rake_overhang: \"7'\" is out of range; write 0' to 6'"),
    "backspan": (
        with_("roof", 'outlooker_backspan = "0\'"'),
        "roof outlooker_backspan: \"0'\" is out of range; write 1' to 8'",
    ),
    "ground": (
        with_("walls", 'ground_to_floor = "-1\'"'),
        "walls ground_to_floor: \"-1'\" is out of range; write 0' to 20'",
    ),
    "thickness": (with_("walls", 'thickness = "8\'"'), 'walls thickness: "8\'" is out of range; write 4" to 24"'),
    # pitch
    "zero pitch": (SHORT.replace("5:12", "0:12"), 'roof pitch: "0:12" is out of range; write "1:12" to "12:12"'),
    "steep pitch": (SHORT.replace("5:12", "13:12"), 'roof pitch: "13:12" is out of range; write "1:12" to "12:12"'),
    "pitch typo": (SHORT.replace("5:12", "5/12"), 'roof pitch: "5/12" is not a pitch; write "5:12" or "22.6 deg"'),
    "pitch number": (SHORT.replace('"5:12"', "5"), 'roof pitch: 5 is not a pitch; write "5:12" or "22.6 deg"'),
    # words
    "roof type": (SHORT.replace('"hip"', '"flat"'), 'roof type: "flat" is not known; write "gable" or "hip"'),
    "exposure": (SHORT.replace('"C"', '"E"'), 'wind exposure: "E" is not known; write "B", "C" or "D"'),
    "exposure number": (SHORT.replace('"C"', "3"), 'wind exposure: 3 is not known; write "B", "C" or "D"'),
    "enclosure": (
        with_("wind", 'enclosure = "closed"'),
        'wind enclosure: "closed" is not known; write "enclosed", "partially enclosed", "partially open" or "open"',
    ),
    "edition": (
        with_("wind", 'edition = "ASCE 7-10"'),
        'wind edition: "ASCE 7-10" is not known; write "ASCE 7-16" or "ASCE 7-22"',
    ),
    "basis": (with_("wind", 'basis = "both"'), 'wind basis: "both" is not known; write "worse", "mwfrs" or "cladding"'),
    "procedure": (
        with_("wind", 'mwfrs_procedure = "simple"'),
        'wind mwfrs_procedure: "simple" is not known; write "envelope" or "directional"',
    ),
    "covering": (
        with_("roof", 'covering = "thatch"'),
        'roof covering: "thatch" is not known; '
        'write "asphalt shingles", "metal panels", "concrete tile" or "clay tile"',
    ),
    "hip origin": (
        with_("trusses", 'hip_origin = "ridge"'),
        'trusses hip_origin: "ridge" is not known; write "girder" or "corner"',
    ),
    "side": (with_("anchors", 'side = "both"'), 'anchors side: "both" is not known; write "start" or "far"'),
    "catalogue": (with_("anchors", "catalogue = 1"), "anchors catalogue: 1 is not text; write it in double quotes"),
    # numbers
    "text in a number": (
        SHORT.replace("160", '"160"'),
        'wind speed: "160" is text; write a number without quotes, 85 to 250',
    ),
    "nan": (
        SHORT.replace("160", "nan"),
        "wind speed: nan is not a number that can be measured; write 85 to 250 mph",
    ),
    "inf": (
        SHORT.replace("160", "-inf"),
        "wind speed: -inf is not a number that can be measured; write 85 to 250 mph",
    ),
    "slow": (SHORT.replace("160", "84"), "wind speed: 84 is out of range; write 85 to 250 mph"),
    "fast": (SHORT.replace("160", "251"), "wind speed: 251 is out of range; write 85 to 250 mph"),
    "speed true": (SHORT.replace("160", "true"), "wind speed: true is not a number; write 85 to 250 mph"),
    "plies": (with_("trusses", "girder_plies = 5"), "trusses girder_plies: 5 is out of range; write 1 to 4"),
    "half a ply": (
        with_("trusses", "girder_plies = 2.5"),
        "trusses girder_plies: 2.5 is not a whole number; write 1 to 4",
    ),
    "dead load": (with_("dead", "roof_live = 101"), "dead roof_live: 101 is out of range; write 0 to 100 psf"),
    "negative dead load": (
        with_("dead", "top_for_uplift = -1"),
        "dead top_for_uplift: -1 is out of range; write 0 to 100 psf",
    ),
    "uplift weight over gravity's": (
        with_("dead", "top_for_uplift = 16"),
        "dead top_for_uplift: 16 psf is more than top_for_gravity, 15; "
        "write what holds down no larger than what presses down",
    ),
    "bottom uplift weight over gravity's": (
        with_("dead", "bottom_for_gravity = 4"),
        "dead bottom_for_uplift: 5 psf is more than bottom_for_gravity, 4; "
        "write what holds down no larger than what presses down",
    ),
    "tie beam": (
        with_("walls", 'tie_beam = "8 by 16"'),
        'walls tie_beam: "8 by 16" is not a size; write nominal inches, width first, such as "8x16"',
    ),
    "tie beam number": (
        with_("walls", "tie_beam = 8"),
        'walls tie_beam: 8 is not a size; write nominal inches, width first, such as "8x16"',
    ),
    "big tie beam": (
        with_("walls", 'tie_beam = "8x60"'),
        'walls tie_beam: "8x60" is out of range; write "4x4" to "16x48"',
    ),
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
        'walls outline side from corner 5 to corner 6: 0\'-0 1/2" is too short for a side; make it 1" or more',
    ),
    "self-crossing": (
        outlined("[[0,0],[40,0],[0,28],[40,28]]"),
        "walls outline side from corner 2 to corner 3: it crosses or touches the side from corner 4 to corner 1; "
        "list the corners in order around the house",
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
        "walls outline: 501'-0\" is out of range for a side of the house; write 4'-0\" to 500'-0\"",
    ),
    "too many corners": (
        outlined(str([[i, 0] for i in range(201)])),
        "walls outline: 201 corners make no house; write 4 to 200 corners in order",
    ),
    "outline from a drawing": (
        SHORT.replace(OUTLINE, 'outline_dxf = { file = "floor.dxf", layer = "A-WALL" }'),
        "walls outline_dxf: an outline in a DXF file is not read yet; write the corners as outline = [...]",
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
        "house.toml line 10: this is not TOML (cannot overwrite a value); write each line as [section] or key = value",
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
def test_each_mistake_is_answered_in_its_own_words(case: str) -> None:
    text, sentence = WRONG[case]
    with pytest.raises(PlanError) as caught:
        plan_from_text(text, "house.toml")
    assert str(caught.value) == sentence


def test_of_several_mistakes_the_first_in_the_file_is_told() -> None:
    text = SHORT.replace("160", '"fast"').replace('"hip"', '"flat"').replace("speed", "colour = 3\nspeed")
    with pytest.raises(PlanError) as caught:
        plan_from_text(text, "house.toml")
    assert str(caught.value).startswith("roof type:")
    with pytest.raises(PlanError) as caught:
        plan_from_text(text.replace('"flat"', '"hip"'), "house.toml")
    assert str(caught.value).startswith("wind colour:")


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"\x89PNG\r\n\0\0", "{}: this is a binary file; name a plan file, which is plain text in UTF-8"),
        (SHORT.encode("utf-16"), "{}: this is a binary file; name a plan file, which is plain text in UTF-8"),
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


@settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_a_damaged_plan_reads_or_is_refused_in_one_line(data: st.DataObject) -> None:
    """A good plan with bytes cut and put in anywhere, or with one word changed for another."""
    good = SHORT + '[[roof.edge]]\nwall = "W2"\ntype = "gable"\n[trusses]\nspacing = "24\\""\n'
    words = good.split()
    if data.draw(st.booleans()):
        word = data.draw(st.sampled_from(words))
        other = data.draw(st.one_of(st.sampled_from(words), st.text(string.printable, max_size=6)))
        text = good.replace(word, other)
    else:
        at = data.draw(st.integers(0, len(good)))
        text = good[:at] + data.draw(st.text(max_size=6)) + good[at + data.draw(st.integers(0, 30)) :]
    try:
        answer = plan_from_text(text, "house.toml").project.name
    except PlanError as problem:
        answer = str(problem)
    assert answer.isprintable()
