"""Time and memory against the number of `[[support]]`s and of angled corners: `python tests/benchmarks/growth.py`.

Each house is reckoned in a process of its own, from plan to anchors, by the processor's clock; all are invented.
"""

from __future__ import annotations

import math
import resource
import subprocess
import sys
import time

from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan import Plan
from framing.plan_file import plan_from_text
from framing.run import make_run

SUPPORTS = (0, 10, 20, 40, 80)
CORNERS = (12, 28, 52, 100, 148, 196)
ROUND = (20, 36, 70, 140, 200)
LIMIT_RATIO = 4.0  # 80 supports over none
LIMIT_EXPONENT = 2.0  # of the corners of a house with bays


def plan_of(corners: list[tuple[float, float]], more: str = "") -> Plan:
    """A plan with hips all round."""
    outline = ", ".join(f"[{x:.4f}, {y:.4f}]" for x, y in corners)
    head = f'[walls]\noutline = [{outline}]\n[roof]\ntype = "hip"\npitch = "5:12"\n[wind]\nspeed = 150\n'
    return plan_from_text(f'{head}exposure = "C"\n{more}', "invented")


def with_supports(n: int, long_ft: float) -> Plan:
    """A wide L with so many bearing walls inside, every other one tied down."""
    ell = [(0.0, 0.0), (160.0, 0.0), (160.0, 60.0), (100.0, 60.0), (100.0, 110.0), (0.0, 110.0)]
    rows = []
    for k in range(n):
        x, y = (2.0 + 7.8 * (k % 20), 6.0 + 13.0 * (k // 20)) if long_ft < 10.0 else (5.0, 3.0 + 54.0 / n * k)
        held = "true" if k % 2 == 0 else "false"
        line = f"from = [{x}, {y}]\nto = [{x + long_ft}, {y}]\nholds_down = {held}\n"
        rows.append(f'[[support]]\nkind = "bearing wall"\n{line}')
    return plan_of(ell, "".join(rows))


def with_bays(n: int) -> Plan:
    """A house 30 ft deep with bays of three walls along both its long sides, n corners in all."""
    n_bays = (n - 4) // 8
    long_ft = 14.0 * n_bays
    front = [(14.0 * k + x, y) for k in range(n_bays) for x, y in ((3, 0), (5, -2), (9, -2), (11, 0))]
    back = [(long_ft - x, 30.0 - y) for x, y in front]
    return plan_of([(0.0, 0.0), *front, (long_ft, 0.0), (long_ft, 30.0), *back, (0.0, 30.0)])


def rounded(n: int) -> Plan:
    """A house of n corners on a circle of 120 ft."""
    radius = 60.0
    turns = [2.0 * math.pi * k / n for k in range(n)]
    return plan_of([(radius * (1.0 + math.cos(t)), radius * (1.0 + math.sin(t))) for t in turns])


HOUSES = {
    "short supports": lambda n: with_supports(n, 6.0),
    "long supports": lambda n: with_supports(n, 90.0),
    "bays": with_bays,
    "round": rounded,
}


def one(name: str, n: int) -> None:
    """Print marks, seconds and megabytes of one house."""
    plan, catalogue = HOUSES[name](n), shipped_catalogue()
    start = time.process_time()
    marks = len(make_run(plan, catalogue).schedule.marks)
    taken = time.process_time() - start
    print(marks, taken, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0)


def measured(name: str, sizes: tuple[int, ...]) -> list[float]:
    """The seconds of each house of a kind, printed with marks and memory."""
    out = []
    for n in sizes:
        words = [sys.executable, "-P", __file__, name, str(n)]
        marks, taken, megabytes = subprocess.run(words, check=True, capture_output=True, text=True).stdout.split()
        print(f"{name:>15} {n:>4} {marks:>5} marks {float(taken):>7.2f} s {float(megabytes):>6.0f} MB", flush=True)
        out.append(float(taken))
    return out


def main() -> int:
    """Whether every growth stays within its limit."""
    good = True
    for name in ("short supports", "long supports"):
        times = measured(name, SUPPORTS)
        good &= times[-1] <= LIMIT_RATIO * times[0]
    times = measured("bays", CORNERS)
    exponent = math.log(times[-1] / times[1]) / math.log(CORNERS[-1] / CORNERS[1])
    print(f"with bays time grows as n^{exponent:.2f} (limit {LIMIT_EXPONENT})")
    measured("round", ROUND)
    return 0 if good and exponent <= LIMIT_EXPONENT else 1


if __name__ == "__main__":
    if len(sys.argv) == 3:
        one(sys.argv[1], int(sys.argv[2]))
    else:
        sys.exit(main())
