"""Packages made of our own reactions, for the tests of reconcile."""

from __future__ import annotations

import csv
import io

from framing.package.ours import our_bearings
from framing.package.rows import Package
from framing.run import Run, make_run
from framing.units import feet_inches
from invariants.houses import SAMPLES

HIP, COTTAGE = SAMPLES["hip_house"], SAMPLES["cottage"]
FOLDER = HIP.parent
OF_PACKAGE = ("package_mark", "package_uplift_lb", "package_down_lb", "truss_package", "fingerprint")


def rows_of(data: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline="")))


def without_package(data: bytes) -> list[dict[str, str]]:
    return [{k: v for k, v in row.items() if k not in OF_PACKAGE} for row in rows_of(data)]


def under(run: Run, package: Package) -> Run:
    return make_run(run.plan, run.schedule.catalogue, run.cover.approvals, package)


def exported(run: Run) -> list[dict[str, str]]:
    """Our own reactions as a package would state them, its marks its own."""
    ours = our_bearings(run.plan, run.framing, run.reactions, run.demands)
    return [
        {
            "mark": f"piece {o.bearing.member} at {o.bearing.mark}",
            "wall": o.bearing.wall,
            "station": feet_inches(o.bearing.station_ft),
            "span": feet_inches(o.span_ft),
            "overhang": feet_inches(o.overhang_ft),
            "plies": str(o.bearing.plies),
            "uplift_lb": f"{-o.uplift_lb:.0f}",
        }
        for o in ours
        if o.at < len(run.framing.bearings)
    ]


def text_of(rows: list[dict[str, str]]) -> str:
    out = io.StringIO()
    writer = csv.DictWriter(out, list(rows[0]))
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()
