"""The trusses by profile, each with a small elevation: what a plant quotes from. Webs are left to the plant."""

from __future__ import annotations

from itertools import pairwise

from export.report.markup import esc, paragraph, section
from export.takeoff.truss_profiles import HUNG, TrussProfile, truss_profiles
from framing.run import Run

BOX = (220.0, 64.0)
MARGIN = 10.0


def trusses_by_profile(run: Run) -> str:
    """A figure for each profile, all of a kind to one scale."""
    profiles = truss_profiles(run)
    reach_ft = max(p.one.span_ft + p.one.tail_start_ft + p.one.tail_end_ft for p in profiles)
    scale = (BOX[0] - 2 * MARGIN) / reach_ft
    figures = "".join(
        f'<figure class="truss">{_elevation(p, scale)}<figcaption><b>{esc(p.name)}</b>, {len(p.members)} of them: '
        f"{esc(p.words)}</figcaption></figure>"
        for p in profiles
    )
    return section(
        "trusses",
        "Trusses by profile",
        paragraph(
            "All to one scale. A triangle is an end on the wall, a hook an end that hangs on a member. Chord "
            "sizes, webs, "
            "plates and bracing are the truss plant's; its sealed drawings govern."
        ),
        f'<div class="trusses">{figures}</div>',
    )


def _elevation(profile: TrussProfile, scale: float) -> str:
    """The outline of a truss, its ends and its bottom chord."""
    m = profile.one
    line = [(at, z - m.base_ft) for at, z in m.profile]
    if profile.flipped:
        line = [(m.span_ft - at, z) for at, z in reversed(line)]
    left, low = min(at for at, _ in line), min(0.0, *(z for _, z in line))
    high = max(z for _, z in line)
    width, height = 2 * MARGIN + scale * (line[-1][0] - left), 2 * MARGIN + scale * (high - low)

    def place(at: float, z: float) -> str:
        return f"{MARGIN + scale * (at - left):.1f},{MARGIN + scale * (high - z):.1f}"

    top = " ".join(place(at, z) for at, z in line)
    chord = f"{place(0.0, 0.0)} {place(m.span_ft, 0.0)}"
    ends = "".join(_end(place(at, 0.0), how) for at, how in zip((0.0, m.span_ft), profile.ends, strict=True))
    risers = "".join(f'<polyline points="{place(at, 0.0)} {place(at, _height(line, at))}"/>' for at in (0.0, m.span_ft))
    return (
        f'<svg viewBox="0 0 {width:.0f} {height:.0f}" width="{width:.0f}" height="{height:.0f}" role="img" '
        f'aria-label="{esc(profile.name)}" fill="none" stroke="currentColor" stroke-width="1.5">'
        f'<polyline points="{top}"/><polyline points="{chord}"/>{risers}{ends}</svg>'
    )


def _height(line: list[tuple[float, float]], at: float) -> float:
    """The top line's height at a place along it. [ft]"""
    for (a, z), (b, w) in pairwise(line):
        if a <= at <= b and b > a:
            return z + (w - z) * (at - a) / (b - a)
    return line[-1][1]


def _end(place: str, how: str) -> str:
    """A triangle under an end on the wall, a hook over one that hangs."""
    x, y = (float(v) for v in place.split(","))
    if how == HUNG:
        return f'<path d="M{x - 4:.1f} {y - 6:.1f}v9h8v-9"/>'
    return f'<path d="M{x:.1f} {y:.1f}l4 7h-8z"/>'
