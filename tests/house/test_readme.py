"""The README: one paragraph that states the job first, and no command or file that is not there."""

from __future__ import annotations

import csv
import re
import shlex
from collections.abc import Iterator

import pytest
import typer

from export.cli import app
from framing.anchors.catalogue_columns import MEANINGS
from framing.deck.approvals import ITEMS
from framing.run import CAUTION
from house.project import ROOT, tracked_files

README = (ROOT / "README.md").read_text(encoding="utf-8")
COMMAND = typer.main.get_command(app)


def plain(markdown: str) -> str:
    """The words without the marks of quotes and emphasis."""
    return " ".join(re.sub(r"^> ?|\*\*|`", "", markdown, flags=re.MULTILINE).split())


def calls(text: str) -> Iterator[list[str]]:
    """Every call of strapline that the text shows, as words."""
    shown = re.findall(r"`(strapline [^`]+)`", text) + re.findall(
        r"strapline (?:new|check|build|view|quick)[^\n&`]*", text
    )
    for line in shown:
        words = shlex.split(re.sub(r"[\[\]]", " ", line).split(" # ")[0])
        yield words[words.index("strapline") + 1 :] if "strapline" in words else words


def test_the_readme_begins_with_one_paragraph_that_states_the_job() -> None:
    first, second = README.split("\n\n")[:2]
    assert not first.startswith(("#", ">", "!", "-"))
    assert len(first.split()) > 60
    assert plain(second) == CAUTION


def test_the_readme_ends_with_the_list_of_changes() -> None:
    headings = re.findall(r"^# (.+)$", README, flags=re.MULTILINE)
    assert headings[-1] == "List of changes"


def test_the_readme_sets_up_builds_and_tests_by_one_command_each() -> None:
    blocks = re.findall(r"```sh\n(.*?)```", README, flags=re.DOTALL)
    assert [block.count("\n") for block in blocks[:3]] == [1, 1, 1]
    assert "strapline build sample_plans/" in blocks[0]
    assert "python -m pytest" in blocks[1]
    assert "-m full" in blocks[2]


@pytest.mark.parametrize("words", list(calls(README)), ids=" ".join)
def test_every_call_in_the_readme_is_one_that_the_program_knows(words: list[str]) -> None:
    if words[0].startswith("--"):
        assert words[0] in {option for param in COMMAND.params for option in param.opts} | {"--help"}
        return
    known = COMMAND.commands[words[0]]
    options = {option for param in known.params for option in param.opts} | {"--help"}
    assert {word for word in words[1:] if word.startswith("-")} <= options


def test_every_command_of_the_program_is_in_the_readme() -> None:
    assert set(COMMAND.commands) == {words[0] for words in calls(README) if not words[0].startswith("-")}


@pytest.mark.parametrize("name", sorted(COMMAND.commands))
def test_every_command_explains_itself_with_one_example(name: str) -> None:
    text = COMMAND.commands[name].help or ""
    text += COMMAND.commands[name].epilog or ""
    assert re.search(rf"strapline {name}\b", text)


def test_everything_unconfirmed_in_the_standard_is_told_with_its_mark() -> None:
    table = (ROOT / "framing" / "asce7" / "data" / "unconfirmed.csv").read_text(encoding="utf-8").splitlines()
    rows = csv.DictReader(line for line in table if not line.startswith("#"))
    told = set(re.findall(r"^\| (.+?) \| (.+?) \| (.+?) \|$", README, flags=re.MULTILINE))
    assert {(row["item"], row["where_used"], row["mark"]) for row in rows} <= told


def test_every_command_has_one_row_in_the_table_of_commands() -> None:
    rows = re.findall(r"^\| `strapline (\w+)", README, flags=re.MULTILINE)
    assert sorted(rows) == sorted(COMMAND.commands)


def test_every_column_of_the_user_s_tables_has_a_row_with_what_it_says() -> None:
    for column, what in MEANINGS.items():
        assert re.search(rf"^\| `{column}`[^|]*\| {re.escape(what)} \|$", README, re.MULTILINE), column
    for item, (low, high, unit, what) in ITEMS.items():
        assert f"| `{item}` | {unit or '-'} | {low:g} to {high:g} | {what} |" in README


def test_every_file_that_the_readme_points_at_is_there() -> None:
    linked = set(re.findall(r"\]\(([^)#:]+)\)", README))
    linked |= set(re.findall(r"(?:sample_plans|tests|framing)/[\w/]+\.\w+", README))
    assert linked <= {path.as_posix() for path in tracked_files()}
