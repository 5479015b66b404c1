"""Time of the anchor plan's two files for a house of about 1,000 anchors, every sheet of both sizes included.

    python tests/benchmarks/sheets.py

Beside it stands a reference measured in the same run: ezdxf alone writing as many block inserts with attributes.
Times are processor seconds, the least of three. Ends with code 1 over the limit.
"""

from __future__ import annotations

import io
import sys
import time
from collections.abc import Callable

import ezdxf

from export.anchor_plan.dxf import anchor_plan_dxf
from export.anchor_plan.pdf import anchor_plan_pdf
from export.anchor_plan.sheets import anchor_plan_sheets
from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan_file import plan_from_text
from framing.run import Run, make_run

LIMIT_S = 6.0
HALL = """
[walls]
outline = [[0, 0], [400, 0], [400, 90], [0, 90]]
[roof]
type = "hip"
pitch = "5:12"
[wind]
speed = 150
exposure = "C"
[trusses]
spacing = "12\\""
"""


def least_s(work: Callable[[], object]) -> float:
    """The least of three timings, nothing remembered from one to the next."""
    taken = []
    for _ in range(3):
        anchor_plan_sheets.cache_clear()
        start = time.process_time()
        work()
        taken.append(time.process_time() - start)
    return min(taken)


def both_files(run: Run) -> None:
    anchor_plan_dxf(run)
    anchor_plan_pdf(run)


def bare_inserts(n: int) -> None:
    """What the DXF library needs for the inserts alone."""
    doc = ezdxf.new("R2010")
    block = doc.blocks.new("ANCHOR")
    block.add_circle((0, 0), 3)
    for tag in "ABCDEFG":
        block.add_attdef(tag, (0, 0))
    for i in range(n):
        doc.modelspace().add_blockref("ANCHOR", (i, 0)).add_auto_attribs(dict.fromkeys("ABCDEFG", str(i)))
    doc.write(io.StringIO())


def main() -> int:
    """Print the times; 1 over the limit."""
    run = make_run(plan_from_text(HALL, "hall.toml"), shipped_catalogue())
    n = len(run.schedule.marks)
    taken_s = least_s(lambda: both_files(run))
    reference_s = least_s(lambda: bare_inserts(n))
    print(f"anchor-plan.dxf and .pdf, {n} anchors: {taken_s:.2f} s (limit {LIMIT_S:.0f} s)")
    print(f"the DXF library's own time for {n} inserts with attributes: {reference_s:.2f} s")
    return int(taken_s > LIMIT_S)


if __name__ == "__main__":
    sys.exit(main())
