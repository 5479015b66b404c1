"""The sentence for each wrong key and each wrong value in a plan file, whole."""

import pytest

from framing.errors import PlanError
from framing.plan_file import plan_from_text
from parts.plans import LENGTHS, SHORT, with_

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
    "the trade's word for a key": (
        with_("walls", 'slope = "5:12"'),
        "walls slope: unknown key; what it means is written roof.pitch",
    ),
    "a key like one elsewhere": (
        with_("roof", "speeed = 150"),
        "roof speeed: unknown key; the nearest known key is wind.speed",
    ),
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
    "length typo": (with_("walls", 'height = "9\'-4-"'), f'walls height: "9\'-4-" is not a length; {LENGTHS}'),
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
        'trusses spacing: 24 is out of range; write 3" to 8\' (a plain number is in feet), or "24in" if it is inches',
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
    "pitch typo": (SHORT.replace("5:12", "5/10"), 'roof pitch: "5/10" is not a pitch; write "5:12" or "22.6 deg"'),
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
    "hill low": (
        with_("wind", 'topography = { feature = "hill", height = 50, half_length = 99, distance = 0 }').replace(
            '"C"', '"B"'
        ),
        "wind topography height: under 60 ft a rise counts for nothing in Exposure B; leave [wind.topography] out",
    ),
    "hill flat": (
        with_("wind", 'topography = { feature = "hill", height = 50, half_length = 251, distance = 0 }'),
        "wind topography half_length: 50 ft in 251 ft is flatter than 0.2 and counts for nothing; "
        "leave [wind.topography] out",
    ),
    "ridge far": (
        with_("wind", 'topography = { feature = "ridge", height = 50, half_length = 100, distance = -150 }'),
        "wind topography distance: -150 ft from the crest this ridge counts for nothing; leave [wind.topography] out",
    ),
    "a rise of another word": (
        with_("wind", 'topography = { feature = "dune", height = 50, half_length = 100, distance = 0 }'),
        'wind topography feature: "dune" is not known; write "ridge", "escarpment" or "hill"',
    ),
    "a rise without a length": (
        with_("wind", 'topography = { feature = "hill", height = 50, distance = 0 }'),
        'wind topography half_length: missing; write half_length = "200\'"',
    ),
    "a rise too high": (
        with_("wind", 'topography = { feature = "hill", height = 4000, half_length = 100, distance = 0 }'),
        "wind topography height: 4000 is out of range; write 15' to 3000' (a plain number is in feet)",
    ),
    "ground too high": (
        with_("wind", "ground_elevation = 9001"),
        "wind ground_elevation: 9001 is out of range; write -300' to 9000' (a plain number is in feet)",
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
