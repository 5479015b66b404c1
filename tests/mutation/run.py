"""Change one thing at a time in a module or a table of figures and see whether a test notices.

    python tests/mutation/run.py framing/anchors/schedule.py [framing/asce7/data/X.csv ...] [--most 12] [--only X]

Each change is made in a copy of `framing` outside the repository and met by those tests of its line in TESTS that enter
the changed function, in a process of its own that inherits the libraries already loaded. What no test notices is
printed, but for what harmless.csv gives a reason for. Of each function (or table column) at most `--most` changes are
tried, evenly spread; 0 tries all; `--only` tries those alone whose printed line holds the pattern.
"""

from __future__ import annotations

import argparse
import compileall
import csv
import os
import re
import resource
import shutil
import sys
import tempfile
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from changes import code_changes, spread, table_changes

ROOT = Path(__file__).parents[2]
HARMLESS = Path(__file__).with_name("harmless.csv")
LIMIT_S, LEAST_LIMIT_S, TIMES_LIMIT = 240, 10, 1.5
QUIET = ("-x", "-q", "-p", "no:cacheprovider", "--hypothesis-profile=mutation")
REWRITE = ("-W", "ignore::pytest.PytestAssertRewriteWarning")  # the libraries are loaded before pytest looks at them
LIBRARIES = ("numpy", "shapely", "hypothesis", "pydantic.main", "pydantic.types", "pytest", "typer", "ezdxf", "pyogrio")

CLAUSES = """
published/test_asce_7_16_hips_over_27_degrees published/test_structure_magazine_overhang parts/test_wind_figures
parts/test_asce7_zones published/test_asce_7_16_end_values
published/test_asce_7_16_audit published/test_asce_7_22_fig_28_3_1 published/test_asce_7_fig_27_3_1
published/test_calculated_not_published published/test_nch_432_2025 published/test_structuraltools_asce
published/test_xc_windASCE7 published/test_bnbc_2020_overhangs parts/test_asce7_limits parts/test_asce7_tables
parts/test_asce7_topography parts/test_asce7_directional parts/test_asce7_clause_rules parts/test_asce7_properties
published/test_asce_7_table_26_13_1 statics/test_wind_on_a_house parts/test_directional statics/test_sideways
"""
MIRROR = "invariants/test_houses.py::test_mirroring_the_plan_and_its_start_changes_no_reaction"
MIRRORED = " ".join(f"{MIRROR}[{house}]" for house in ("mixed_gable_hip", "bay_and_corners", "7"))
COMBINATIONS = "parts/test_asce7_tables parts/test_asce7_clause_rules statics/test_before_the_covering"
WEIGHTS = "parts/test_dead_loads parts/test_plan_file statics/test_before_the_covering parts/test_quick"
WIND = f"""
statics/test_cases_by_hand parts/test_envelope statics/test_wind_on_a_house parts/test_directional
statics/test_before_the_covering published/test_asce_7_table_26_13_1 published/test_common_practice
{MIRRORED} parts/test_porches parts/test_wind_cases
"""
REACTIONS = f"""
parts/test_reactions statics/test_cases_by_hand statics/test_closed_forms statics/test_before_the_covering
statics/test_against_frame_solver statics/test_continuous_beam {MIRRORED}
"""
LATERAL = """
statics/test_wall_strips statics/test_sideways statics/test_sideways_by_sampling statics/test_interaction
parts/test_trace_sideways statics/test_beam_sideways statics/test_sideways_by_hand statics/test_sideways_of_an_l_by_hand
statics/test_cladding_walls
"""
ANCHORS = "statics/test_interaction parts/test_anchors"
CONCRETE = "parts/test_beam_strength published/test_tie_beam_tables published/test_ufc_3_310_05a"
GROUND = f"""
parts/test_over_openings parts/test_filled_cells parts/test_weights parts/test_ground_sentences parts/test_ground_bounds
statics/test_tie_beam statics/test_strap_pulls
{CONCRETE}
"""
ROOF = f"""
parts/test_roof_wings parts/test_layout_facts parts/test_layout_angled parts/test_layout_turned parts/test_roof_lines
parts/test_layout_members parts/test_layout_sentences parts/test_angled_walls invariants/test_roof_surface
invariants/test_skeleton parts/test_porches {MIRRORED}
"""
LAYOUT = f"""
parts/test_layout_records parts/test_layout_shared_lines parts/test_layout_facts parts/test_layout_angled
parts/test_cell_sides parts/test_strap_stands parts/test_layout_turned parts/test_layout_members parts/test_layout_seams
parts/test_layout_sentences parts/test_supports parts/test_straps parts/test_angled_walls parts/test_porches
parts/test_porch_sentences statics/test_closed_forms parts/test_demand parts/test_roof_lines parts/test_layout_ends
invariants/test_outlines invariants/test_straps {MIRRORED}
"""
DECK = """
statics/test_deck statics/test_covering parts/test_approvals published/test_panel_strengths
published/test_nds_2018_nails_of_the_deck published/test_deck_and_tile_tables
"""
TESTS = {
    "framing/layout": LAYOUT,
    "framing/roof": ROOF,
    "framing/ground/reinforced_concrete.py": CONCRETE,
    "framing/ground/beam_strength.py": f"{CONCRETE} parts/test_ground_sentences",
    "framing/ground/beam_on_cells.py": f"statics/test_tie_beam {CONCRETE}",
    "framing/ground/filled_cells.py": "parts/test_filled_cells parts/test_over_openings",
    "framing/ground/beam_stretches.py": "parts/test_filled_cells",
    "framing/ground/cell_spacing.py": "parts/test_filled_cells",
    "framing/ground/weights.py": "parts/test_weights",
    "framing/ground/tie_beam.py": "parts/test_over_openings parts/test_filled_cells invariants/test_ground",
    "framing/ground/beam_sideways.py": "statics/test_beam_sideways",
    "framing/ground": GROUND,
    "framing/anchors/in_the_beam.py": "parts/test_in_the_beam",
    "framing/explain/component_pressures.py": "parts/test_hand_over",
    "framing/explain/hand_over.py": "parts/test_hand_over parts/test_hand_over_levels",
    "framing/asce7/chapter2.py": COMBINATIONS,
    "framing/asce7/data/chapter2_": COMBINATIONS,
    "framing/asce7": CLAUSES,
    "framing/quick": "parts/test_quick statics/test_truss_section",
    "framing/explain/wind_cases.py": "parts/test_wind_cases parts/test_trace",
    "framing/wind/figures.py": "parts/test_wind_figures",
    "framing/loads/continuous_beam.py": "statics/test_continuous_beam",
    "framing/anchors/schedule.py": "statics/test_interaction parts/test_anchors parts/test_schedule",
    "framing/anchors/choice.py": "statics/test_interaction parts/test_anchors parts/test_schedule",
    "framing/anchors/demands.py": f"statics/test_sideways_by_hand statics/test_sideways {ANCHORS}",
    "framing/explain/sideways.py": "parts/test_trace_sideways",
    "framing/explain/coefficients.py": "parts/test_coefficients_behind",
    "framing/anchors/interaction.py": ANCHORS,
    "framing/loads/rake_frames.py": "statics/test_closed_forms published/test_irc_2018_r802_11_house",
    "framing/plan_file/enclosure.py": "parts/test_wind_doubts",
    "framing/plan_file/coverings.py": WEIGHTS,
    "framing/plan_file/coverings.csv": WEIGHTS,
    "framing/loads/load_path.py": REACTIONS,
    "framing/loads/reactions.py": REACTIONS,
    "framing/walls/held_lengths.py": LATERAL,
    "framing/sideways": LATERAL,
    "framing/deck": DECK,
    "framing/asbuilt": "parts/test_asbuilt_file parts/test_asbuilt_judge parts/test_asbuilt_patterns",
    "framing/table_file.py": "parts/test_table_file parts/test_catalogue_file",
    "framing/anchors/catalogue_file.py": "parts/test_catalogue_file",
    "framing/anchors/sample_rule.py": "parts/test_catalogue_file",
    "framing/anchors/strap_room.py": "parts/test_straps invariants/test_straps parts/test_anchors",
    "framing/anchors": "parts/test_anchors parts/test_schedule parts/test_layout_sentences statics/test_hung_ends",
    "framing/explain/trace": "parts/test_trace parts/test_porches",
    "framing/explain/wall_lines.py": "parts/test_hand_over",
    "framing/explain/wall_bases.py": "parts/test_wall_bases",
    "framing": WIND,
}


@dataclass(kw_only=True)
class TestFile:
    """A file of tests: what it costs, the functions that it enters (file and name), how many changes it noticed."""

    name: str
    seconds: float
    enters: frozenset[str]
    noticed: int = 0


def make_ready() -> None:
    """Load what every process of tests needs once, before the first of them branches off."""
    os.chdir(ROOT)
    sys.dont_write_bytecode = True
    for library in LIBRARIES:
        __import__(library)


def run_tests(scratch: Path, names: list[str], limit_s: int, told: Path | None = None) -> tuple[int, float]:
    """Each file in turn in a process of its own that ends at the first failure: the place from 1 of the file that
    failed, else 0, and the processor's seconds, `limit_s` at most. The functions of the copy that were entered are
    written to `told`.
    """
    child = os.fork()
    if child:
        _, status, used = os.wait4(child, 0)
        return os.waitstatus_to_exitcode(status), used.ru_utime + used.ru_stime
    resource.setrlimit(resource.RLIMIT_CPU, (limit_s, limit_s))
    quiet = os.open(os.devnull, os.O_WRONLY)
    os.dup2(quiet, 1)
    os.dup2(quiet, 2)
    sys.path.insert(0, str(scratch))
    import pytest
    from hypothesis import settings

    settings.register_profile("mutation", derandomize=True, database=None, deadline=None)
    settings.load_profile("mutation")
    entered: set[tuple[str, str]] = set()
    if told:
        sys.settrace(lambda frame, *_: entered.add((frame.f_code.co_filename, frame.f_code.co_qualname)))
    failed = 0
    for n, test in enumerate(names):
        if pytest.main([*QUIET, *REWRITE, f"tests/{test}" if "::" in test else f"tests/{test}.py"]):
            failed = n + 1
            break
    sys.settrace(None)
    if told:
        here = [(Path(file), name.replace("<locals>.", "")) for file, name in entered if file.startswith(str(scratch))]
        told.write_text("\n".join(f"{file.relative_to(scratch)} {name}" for file, name in here), encoding="utf-8")
    os._exit(failed)


@cache
def test_file(name: str) -> TestFile:
    """A file of tests as it is without a change."""
    with tempfile.TemporaryDirectory() as folder:
        scratch, told = Path(folder), Path(folder) / "entered"
        shutil.copytree(ROOT / "framing", scratch / "framing")
        failed, seconds = run_tests(scratch, [name], LIMIT_S, told)
        if failed:
            raise SystemExit(f"{name}: it fails without a change")
        return TestFile(name=name, seconds=seconds, enters=frozenset(told.read_text("utf-8").splitlines()))


def unnoticed(scratch: Path, tests: list[TestFile]) -> bool:
    """Whether the tests pass; those that cost little for what they noticed so far are met first."""
    order = sorted(tests, key=lambda t: t.seconds / (1 + t.noticed))
    limit_s = round(LEAST_LIMIT_S + TIMES_LIMIT * sum(t.seconds for t in order))  # what never ends, ends here
    failed, _ = run_tests(scratch, [t.name for t in order], limit_s)
    if failed:
        order[max(0, failed - 1)].noticed += 1
    return failed == 0


def mutate(target: str, most: int, only: str) -> None:
    """Try the changes of one file and tell those that went unnoticed."""
    source = (ROOT / target).read_text(encoding="utf-8")
    table = target.endswith(".csv")
    found = list((table_changes if table else code_changes)(source))
    tests = [test_file(t) for t in next(names for start, names in TESTS.items() if target.startswith(start)).split()]
    known = {(r["file"], r["where"], r["change"]) for r in csv.DictReader(HARMLESS.read_text("utf-8").splitlines())}
    for file, where, what in sorted(known):
        if file == target and (where, what) not in {(c.where, c.what) for c in found}:
            print(f"{target} {where}: {what}: harmless.csv knows it, and there is no such change")
    tried = [c for c in spread(found, most) if re.search(only, f"{target}:{c.line} {c.where}: {c.what}")]
    asked = [c for c in tried if (target, c.where, c.what) not in known]
    with tempfile.TemporaryDirectory() as name:
        copy = Path(name) / target
        shutil.copytree(ROOT / "framing", Path(name) / "framing")
        compileall.compile_dir(name, quiet=1)
        for stale in (copy.parent / "__pycache__").glob(f"{copy.stem}.*"):
            stale.unlink()
        alive = 0
        for change in asked:
            copy.write_text(change.text, encoding="utf-8")
            inside = f"{target} {change.where or '<module>'}"
            if unnoticed(Path(name), [t for t in tests if table or inside in t.enters]):
                alive += 1
                print(f"{target}:{change.line} {change.where}: {change.what}", flush=True)
    told = f"{len(asked) - alive} noticed, {len(tried) - len(asked)} known as harmless, {alive} unnoticed"
    print(f"{target}: {len(found)} changes, {len(tried)} tried: {told}", flush=True)


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("targets", nargs="+")
    parser.add_argument("--most", type=int, default=12)
    parser.add_argument("--only", default="")
    asked = parser.parse_args()
    make_ready()
    for one in asked.targets:
        mutate(one, asked.most, asked.only)
