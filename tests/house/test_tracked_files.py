"""What may not stand in a tracked file, and what may stand at the top level."""

from __future__ import annotations

import re

from house.project import ROOT, tracked_files

TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "framing", "viewer", "export", "tests", "sample_plans"}
MACHINE_PATH = re.compile(r"(?:^|[^.\w<])/(?:work|farm|root|tmp|home|Users)/")
ADDRESS = re.compile(r"\b(?:https?|ftp|git)://([\w.-]+)")
KNOWN_HOSTS = {"json-schema.org", "www.w3.org"}  # names of a schema and of a picture format, never visited
INDEX_OPTION = re.compile(r"--(?:extra-)?index-url|--find-links|PIP_INDEX_URL")


def text_files() -> dict[str, str]:
    found = {}
    for path in tracked_files():
        data = (ROOT / path).read_bytes()
        if b"\0" not in data[:4096]:
            found[path.as_posix()] = data.decode("utf-8", errors="replace")
    return found


def test_the_top_level_holds_only_what_the_project_is_made_of() -> None:
    assert {path.parts[0] for path in tracked_files() if not path.parts[0].startswith(".")} <= TOP_LEVEL


def test_no_tracked_file_names_a_path_of_one_machine() -> None:
    assert [name for name, text in text_files().items() if MACHINE_PATH.search(text)] == []


def test_no_tracked_file_names_a_host_or_a_package_index() -> None:
    here = "tests/house/test_tracked_files.py"
    named = {
        name: found
        for name, text in text_files().items()
        if (found := sorted(set(ADDRESS.findall(text)) - KNOWN_HOSTS) + INDEX_OPTION.findall(text)) and name != here
    }
    assert named == {}


def test_no_test_folder_is_a_package_or_named_like_one() -> None:
    tests = [path for path in tracked_files() if path.parts[0] == "tests"]
    assert [path for path in tests if path.name == "__init__.py"] == []
    assert {path.parts[1] for path in tests if len(path.parts) > 2} & {"framing", "viewer", "export"} == set()


def test_every_text_file_ends_in_a_line_end() -> None:
    assert [name for name, text in text_files().items() if text and not text.endswith("\n")] == []


def test_no_file_holds_two_sides_of_a_merge() -> None:
    side = re.compile(r"^(?:<{7} |>{7} )", re.MULTILINE)
    assert [name for name, text in text_files().items() if side.search(text)] == []
