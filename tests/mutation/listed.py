"""Draw a list of changes first, spread evenly over the functions of some folders or files, and try it in parts.

    python tests/mutation/listed.py draw changes.csv --seed 7 --most 320 framing/layout framing/roof
    python tests/mutation/listed.py try changes.csv --minutes 30

`draw` writes the list: one change of each function in turn, drawn by the seed, until there are enough. `try` meets each
that has no result yet with the tests of its file, as run.py does, and writes the result beside it at once: `noticed`,
`harmless` (harmless.csv says why) or `unnoticed`. Stopped, or out of minutes, it goes on where it was; what each file
of tests costs and enters, which takes minutes to find, is kept beside the list. At the end it prints the share that was
noticed, the time and the survivors.
"""

from __future__ import annotations

import argparse
import compileall
import csv
import json
import random
import shutil
import tempfile
import time
from collections import defaultdict
from functools import cache
from itertools import zip_longest
from pathlib import Path

from changes import Change, code_changes
from run import HARMLESS, ROOT, TESTS, TestFile, make_ready, test_file, unnoticed

COLUMNS = ("number", "file", "place", "line", "where", "change", "result", "seconds")


@cache
def changes_of(target: str) -> tuple[Change, ...]:
    """Every change of a module, in the order in which a list counts them."""
    return tuple(code_changes((ROOT / target).read_text(encoding="utf-8")))


def draw(path: Path, folders: list[str], seed: int, most: int) -> None:
    """Write the list: a change of each function in turn until there are enough."""
    dice = random.Random(seed)
    of_function: dict[tuple[str, str], list[int]] = defaultdict(list)
    for folder in folders:
        for file in sorted((ROOT / folder).glob("*.py")) or [ROOT / folder]:
            target = file.relative_to(ROOT).as_posix()
            for place, change in enumerate(changes_of(target)):
                of_function[target, change.where].append(place)
    functions = list(of_function.items())
    dice.shuffle(functions)
    drawn = [[(target, place) for place in dice.sample(places, len(places))] for (target, _), places in functions]
    turns = [one for turn in zip_longest(*drawn) for one in turn if one is not None][:most]
    rows = []
    for number, (target, place) in enumerate(turns, start=1):
        change = changes_of(target)[place]
        rows.append((number, target, place, change.line, change.where, change.what, "", ""))
    with path.open("w", encoding="utf-8", newline="") as out:
        csv.writer(out).writerows([COLUMNS, *rows])
    print(f"{len(rows)} of {sum(map(len, of_function.values()))} changes in {len(functions)} functions, seed {seed}")


def try_list(path: Path, minutes: float) -> None:
    """Give each change of the list that has none its result, as long as there is time."""
    with path.open(encoding="utf-8", newline="") as told:
        rows = list(csv.DictReader(told))
    until = time.monotonic() + 60.0 * minutes
    known = {(r["file"], r["where"], r["change"]) for r in csv.DictReader(HARMLESS.read_text("utf-8").splitlines())}
    with tempfile.TemporaryDirectory() as name:
        scratch = Path(name)
        shutil.copytree(ROOT / "framing", scratch / "framing")
        compileall.compile_dir(name, quiet=1)
        for row in rows:
            if row["result"] or time.monotonic() > until:
                continue
            started = time.monotonic()
            harmless = (row["file"], row["where"], row["change"]) in known
            row["result"] = "harmless" if harmless else _result(scratch, row, path.with_suffix(".tests.json"))
            row["seconds"] = f"{time.monotonic() - started:.1f}"
            _write(path, rows)
    _tell(rows)


@cache
def _kept(beside: Path, name: str) -> TestFile:
    """A file of tests as it is without a change, found once and kept beside the list."""
    known = json.loads(beside.read_text(encoding="utf-8")) if beside.exists() else {}
    if name not in known:
        found = test_file(name)
        known[name] = {"seconds": found.seconds, "enters": sorted(found.enters)}
        beside.write_text(json.dumps(known), encoding="utf-8")
    return TestFile(name=name, seconds=known[name]["seconds"], enters=frozenset(known[name]["enters"]))


def _result(scratch: Path, row: dict[str, str], beside: Path) -> str:
    target, change = row["file"], changes_of(row["file"])[int(row["place"])]
    if (change.where, change.what) != (row["where"], row["change"]):
        raise SystemExit(f"{target} has changed since the list was drawn; draw it anew")
    names = next(names for start, names in TESTS.items() if target.startswith(start)).split()
    inside = f"{target} {change.where or '<module>'}"
    tests = [t for t in (_kept(beside, n) for n in names) if inside in t.enters]
    copy = scratch / target
    try:
        for stale in (copy.parent / "__pycache__").glob(f"{copy.stem}.*"):
            stale.unlink()
        copy.write_text(change.text, encoding="utf-8")
        return "unnoticed" if unnoticed(scratch, tests) else "noticed"
    finally:
        shutil.copyfile(ROOT / target, copy)


def _write(path: Path, rows: list[dict[str, str]]) -> None:
    fresh = path.with_suffix(".part")
    with fresh.open("w", encoding="utf-8", newline="") as out:
        writer = csv.DictWriter(out, COLUMNS)
        writer.writeheader()
        writer.writerows(rows)
    fresh.replace(path)


def _tell(rows: list[dict[str, str]]) -> None:
    done = [r for r in rows if r["result"]]
    alive = [r for r in done if r["result"] == "unnoticed"]
    harmless = sum(r["result"] == "harmless" for r in done)
    spent = sum(float(r["seconds"]) for r in done) / 60.0
    for r in alive:
        print(f"{r['number']}: {r['file']}:{r['line']} {r['where']}: {r['change']}")
    share = (len(done) - len(alive)) / max(len(done), 1)
    print(
        f"{len(done)} of {len(rows)} tried in {spent:.0f} min: {len(alive)} unnoticed, {harmless} harmless; "
        f"{share:.1%} noticed or harmless"
    )


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    verbs = parser.add_subparsers(dest="verb", required=True)
    drawing = verbs.add_parser("draw")
    drawing.add_argument("list", type=Path)
    drawing.add_argument("folders", nargs="+")
    drawing.add_argument("--seed", type=int, required=True)
    drawing.add_argument("--most", type=int, default=320)
    trying = verbs.add_parser("try")
    trying.add_argument("list", type=Path)
    trying.add_argument("--minutes", type=float, default=1e9)
    given = parser.parse_args()
    if given.verb == "draw":
        draw(given.list, given.folders, given.seed, given.most)
    else:
        given.list = given.list.resolve()
        make_ready()
        try_list(given.list, given.minutes)
