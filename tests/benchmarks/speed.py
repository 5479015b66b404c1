"""Time against size: from the outline to the anchors in one process, and `build` of a sample from the shell.

    python tests/benchmarks/speed.py

Beside each time stands a reference measured in the same run, so that figures from different machines compare: a
dense solve of as many unknowns as there are bearings, and an interpreter that only imports what `build` imports.
Times are processor time, the least of several, so that a busy machine stretches them little; the exponent is the
slope of log time on log bearings. `build` is also taken by the clock, since it works on two cores: ahead of all other
work where the system allows it (root on Linux), else that figure needs an idle machine; and as a second build finds
things, with the modules compiled by the first. Ends with code 1 over a limit.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path

import numpy as np

from export.anchor_plan.sheets import anchor_plan_sheets
from export.commands.run_of_plan import load_run
from export.outputs import OUTPUTS, made
from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan_file import plan_from_text
from framing.run import make_run
from viewer.scene import build_scene

SAMPLE = Path(__file__).parents[2] / "sample_plans" / "garage_wing.toml"
LIMITS_S = {150: 0.15, 2000: 1.5}
LIMIT_EXPONENT = 1.2
LIMIT_CORNERS_S = 0.6
LIMIT_BUILD_S = 1.5


def comb_house(n_teeth: int, spacing_in: int) -> str:
    """A plan of a long wing 28 ft wide with wings 22 ft wide and 20 ft long along its one side. Invented."""
    pitch, tooth, depth = 44.0, 22.0, 20.0
    corners = [(0.0, 0.0), (pitch * n_teeth, 0.0), (pitch * n_teeth, 28.0)]
    for n in reversed(range(n_teeth)):
        left = pitch * n + 11.0
        corners += [(left + tooth, 28.0), (left + tooth, 28.0 + depth), (left, 28.0 + depth), (left, 28.0)]
    return hip_house((*corners, (0.0, 28.0)), spacing_in)


def many_corners() -> str:
    """A plan with 40 corners: a wing 128 ft by 32 ft with nine bays of different sizes along its sides. Invented."""
    south = ((8, 20, 8), (30, 46, 14), (56, 66, 6), (78, 98, 18), (108, 120, 10))  # from, to, how far out
    north = ((122, 100, 12), (88, 70, 20), (58, 40, 9), (28, 12, 16))
    corners = [(0.0, 0.0)]
    for wall_ft, toward, bays in ((0.0, -1, south), (32.0, 1, north)):
        for a, b, out in bays:
            far = wall_ft + toward * out
            corners += [(a, wall_ft), (a, far), (b, far), (b, wall_ft)]
        corners += [(128.0, 0.0), (128.0, 32.0)] if toward < 0 else [(0.0, 32.0)]
    return hip_house(tuple(corners), 24)


def hip_house(corners: tuple[tuple[float, float], ...], spacing_in: int) -> str:
    """A plan with hips all round."""
    outline = ", ".join(f"[{x}, {y}]" for x, y in corners)
    return (
        f'[walls]\noutline = [{outline}]\n[roof]\ntype = "hip"\npitch = "5:12"\n'
        f'[wind]\nspeed = 150\nexposure = "C"\n[trusses]\nspacing = {spacing_in / 12}\n'
    )


def spent_s() -> float:
    """Processor time of this process and its children so far."""
    children = os.times()  # told on Linux and macOS; elsewhere 0
    return time.process_time() + children.children_user + children.children_system


def least_s(work: Callable[[], object], times: int) -> float:
    """The least processor time of several runs of the same work."""
    taken = []
    for _ in range(times):
        start = spent_s()
        work()
        taken.append(spent_s() - start)
    return min(taken)


def dense_solve_s(n: int) -> float:
    """A dense solve of n unknowns for 32 right-hand sides."""
    rng = np.random.default_rng(0)
    matrix, right = rng.random((n, n)) + n * np.eye(n), rng.random((n, 32))
    return least_s(lambda: np.linalg.solve(matrix, right), 3)


def against_size() -> bool:
    """Print time against bearings; whether every limit holds."""
    sizes, times_s, good = [], [], True
    print(f"{'bearings':>8} {'layout to anchors':>18} {'per bearing':>12} {'dense solve':>12}")
    for n_teeth, spacing_in in ((2, 24), (4, 24), (6, 24), (8, 16), (11, 16), (11, 8)):
        plan = plan_from_text(comb_house(n_teeth, spacing_in), "comb.toml")
        n = len(make_run(plan, shipped_catalogue()).schedule.marks)
        taken = least_s(lambda plan=plan: make_run(plan, shipped_catalogue()), 3)
        sizes.append(n)
        times_s.append(taken)
        print(f"{n:>8} {taken:>16.3f} s {taken / n * 1e6:>9.0f} us {dense_solve_s(n):>10.4f} s")
    exponent, factor = np.polyfit(np.log(sizes), np.log(times_s), 1)
    print(f"time grows as n^{exponent:.2f} (limit {LIMIT_EXPONENT})")
    good &= exponent <= LIMIT_EXPONENT
    for n, limit_s in LIMITS_S.items():
        expected = float(np.exp(factor) * n**exponent)
        print(f"at {n} bearings {expected:.3f} s by the fit (limit {limit_s} s)")
        good &= expected <= limit_s
    return bool(good)


def by_the_clock_s(work: Callable[[], object], times: int) -> float:
    """The least time by the clock of several runs of the same work."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return min(taken)


@contextmanager
def ahead_of_others() -> Iterator[None]:
    """What is started inside has the processors before all other work, where the system allows it."""
    try:
        os.sched_setscheduler(0, os.SCHED_FIFO, os.sched_param(1))
    except (AttributeError, PermissionError):
        yield
        return
    try:
        yield
    finally:
        os.sched_setscheduler(0, os.SCHED_OTHER, os.sched_param(0))


def against_corners() -> bool:
    """Print the time of the house with 40 corners; whether its limit holds."""
    plan = plan_from_text(many_corners(), "corners.toml")
    n = len(make_run(plan, shipped_catalogue()).schedule.marks)
    taken = least_s(lambda: make_run(plan, shipped_catalogue()), 5)
    print(f"{len(plan.outline_ft)} corners, {n} bearings: {taken:.3f} s (limit {LIMIT_CORNERS_S} s)")
    return taken <= LIMIT_CORNERS_S


def from_the_shell() -> bool:
    """Print the time of one `build` by the clock, of its processor and of its parts; the limit holds?"""
    with tempfile.TemporaryDirectory() as folder:
        command = [sys.executable, "-P", "-m", "export", "build", SAMPLE, "--out", Path(folder) / "out"]
        imports = [sys.executable, "-P", "-c", "import numpy, shapely, pydantic, typer, ezdxf, reportlab, trimesh"]
        kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        shell = partial(subprocess.run, check=True, capture_output=True, env=kept)
        with ahead_of_others():
            taken = by_the_clock_s(lambda: shell(command), 7)
        spent = least_s(lambda: shell(command), 5)
        floor = least_s(lambda: shell(imports), 5)
    print(f"build of {SAMPLE.name} from the shell {taken:.2f} s by the clock (limit {LIMIT_BUILD_S} s on an idle core)")
    print(f"of the processor {spent:.2f} s; its libraries' loading alone {floor:.2f} s")
    run = load_run(SAMPLE)
    for name in OUTPUTS:
        made(name, run)  # loads what it needs
        anchor_plan_sheets.cache_clear()
        build_scene.cache_clear()
        print(f"{name:>18} {least_s(lambda name=name: made(name, run), 1):.3f} s")
    return taken <= LIMIT_BUILD_S


if __name__ == "__main__":
    sys.exit(0 if against_size() & against_corners() & from_the_shell() else 1)
