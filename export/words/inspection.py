"""What the inspector comes for, in words: the wind that was reckoned with, the anchors, how near a strap must stand."""

from __future__ import annotations

from framing.anchors.catalogue import Anchor
from framing.package.rows import Package
from framing.run import Run
from framing.units import feet_inches, inches

Row = tuple[str, ...]
ANCHOR_HEAD = ("anchor", "plies", "embed", "length", "nails", "up", "along", "across", "approval")
ANCHOR_NOTE = "Inches and pounds, allowable stress; loads of a pair are both straps'. '-': the catalogue does not say."
NOT_SAID = "-"
PRACTICE = "(common practice, no source)"


def wind_rows(run: Run) -> tuple[tuple[str, str], ...]:
    """What and how much, each once: speed, risk category, exposure, enclosure, internal pressure, height, edition."""
    if run.reconciled is not None and run.reconciled.lays_out:
        return _package_wind(run.reconciled.package)
    wind = run.plan.wind
    figures = {f.symbol: f.value for f in run.wind}
    enclosure = wind.enclosure.value + ("" if wind.enclosure_typed else " (assumed)")
    return (
        ("wind speed", f"{wind.speed_mph:g} mph"),
        ("risk category", "II (assumed)"),
        ("exposure", wind.exposure.value),
        ("enclosure", enclosure),
        ("internal pressure", f"GCpi {figures['GC_pi +']:+.2f}, {figures['GC_pi -']:+.2f}"),
        ("mean roof height", feet_inches(figures["h"])),
        ("edition", wind.edition.value),
    )


def _package_wind(package: Package) -> tuple[tuple[str, str], ...]:
    """The wind that an engineer's layout states, for which its reactions are."""
    wind = package.wind
    said = (
        ("wind speed", f"{wind.speed_mph:g} mph" if wind.speed_mph else ""),
        ("exposure", wind.exposure or ""),
        ("enclosure", wind.enclosure or ""),
        ("edition", wind.edition or ""),
    )
    return tuple((f"package's {what}", value or "not stated") for what, value in said)


def wind_line(run: Run) -> str:
    """The same in one line."""
    if run.by_engineer:
        told = (f"{what} {value}" for what, value in wind_rows(run))
        return ", ".join(told).replace(", package's ", ", ")
    said = dict(wind_rows(run))
    said["internal pressure"] = said["internal pressure"].replace(", ", "/")
    plain = {"wind speed": "Wind ", "enclosure": "", "internal pressure": "", "edition": ""}
    return ", ".join(f"{plain.get(what, f'{what} ')}{value}" for what, value in said.items())


def anchor_rows(run: Run) -> tuple[Row, ...]:
    """Every catalogue row that the house uses, in the catalogue's order, under `ANCHOR_HEAD`."""
    used = {(m.anchor.order, m.anchor) for m in run.schedule.marks if m.anchor}
    return tuple(_anchor_row(a) for _, a in sorted(used, key=lambda pair: pair[0]))


def _anchor_row(a: Anchor) -> Row:
    pair = " (pair)" if a.count > 1 else ""
    loads = (a.allowable_uplift_lb, a.allowable_parallel_lb, a.allowable_perpendicular_lb)
    return (
        a.id + pair,
        str(a.plies),
        *(NOT_SAID if size is None else f"{size:g}" for size in (a.embedment_in, a.length_in)),
        f"{a.n_nails}: {a.fasteners}" if a.fasteners else str(a.n_nails),
        *(NOT_SAID if load is None else f"{load:,.0f}" for load in loads),
        a.approval or NOT_SAID,
    )


def placing_words(run: Run) -> tuple[str, ...]:
    """How near its truss a strap must stand, as the plan file has it in force."""
    a = run.plan.anchors
    bands = (a.gap_good_ft, a.gap_filler_ft, a.gap_ask_ft, a.face_band_ft, a.along_band_ft)
    good, filler, ask, face, along = (inches(v).removeprefix("0 ") for v in bands)
    return (
        f"Gap between strap and truss: up to {good} good; up to {filler} a filler; over that ask the engineer; "
        f"over {ask} out of reach.",
        "A strap that stands into its truss: the truss must shift by as much; ask before it is set.",
        f"In from the wall's face: within {face} of the figure, else of mid-thickness; along a truss that runs along "
        f"its wall: within {along} of the mark.",
        f"These bands are the plan's own (anchors.gap_good, gap_filler, gap_ask, face_band, along_band) {PRACTICE}; "
        "embedment, end and edge distances are the anchor approval's.",
    )


WRONG_STRAP = (
    "Before the concrete is hard: set the missing one, move the wrong one to its mark, to the embed line, flat face to "
    "the truss's side, and work the concrete close round it again.",
    "After it is hard: leave it as it stands. Do not bend it over, cut it or drill beside it. Write down the mark, "
    "what is wrong and by how much, and ask the engineer: a filler block, a second strap or a retrofit anchor by "
    "letter.",
    f"A strap that is missing or wrong is never counted as set {PRACTICE}.",
)


def dated(run: Run) -> str:
    """The date of the plan, or that it has none."""
    date = run.plan.project.date
    return date.isoformat() if date else "NOT DATED"


REVISION_HEAD = ("revision", "date", "plan", "supersedes", "by")


def revision_rows(run: Run) -> tuple[Row, ...]:
    """The sheet's own revision, which takes the place of each one before it, and a line for the next."""
    own = (run.plan.project.revision or "__", dated(run), run.fingerprint, "every sheet of an earlier one", "")
    return (own, ("", "", "", "", ""))
