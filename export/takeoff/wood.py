"""Run -> trusses by profile, hangers, plates under trusses, and the wood of eaves and rakes."""

from __future__ import annotations

from collections.abc import Iterator

from export.takeoff.rows import NO_SOURCE, Row, up, waste
from export.takeoff.truss_profiles import truss_profiles
from framing.loads.hung_ends import HungEnd
from framing.plan import RakeFrame
from framing.roof.lines import LineKind
from framing.run import Run
from framing.units import feet_inches

EDGE_WASTE_PERCENT = 10.0


def wood_rows(run: Run) -> Iterator[Row]:
    """What the truss plant builds and hangs, then what the carpenter cuts."""
    shape = f"heel {feet_inches(run.plan.trusses.heel_ft)}, pitch {12 * run.plan.roof.rise_per_run:g}:12"
    for profile in truss_profiles(run):
        yield Row(
            item=profile.name,
            quantity=len(profile.members),
            unit="each",
            note=f"{profile.words[0].upper()}{profile.words[1:]}; {shape}; webs, chords and plates are the plant's. "
            f"{_listed(profile.members)}",
            key="truss",
        )
    plies = sum(m.plies for m in run.framing.members)
    yield Row(
        item="plies of all members",
        quantity=plies,
        unit="each",
        note="Members x plies; the truss engineer's package governs.",
    )
    yield from _hangers(run)
    yield from _plates(run)
    yield from _edges(run)


def package_truss_rows(run: Run) -> Iterator[Row]:
    """The trusses of an engineer's layout as its table names them; what hangs on what is in the package itself."""
    package = run.reconciled.words if run.reconciled else ""
    yield Row(
        item="truss of the package",
        quantity=len(run.framing.members),
        unit="each",
        note=f"Those with a bearing in the table: {_listed(tuple(m.name for m in run.framing.members))} Trusses and "
        f"hangers are ordered by the package, {package}; deck, edges and hangers are not counted here.",
        key="truss",
    )
    yield from _plates(run)


def _hangers(run: Run) -> Iterator[Row]:
    """Hung ends by what hangs and on what, with the hardest reactions of each kind."""
    groups: dict[tuple[str, int, str, int], list[HungEnd]] = {}
    for e in run.hung:
        member, carrier = run.framing.member(e.member), run.framing.member(e.carrier)
        groups.setdefault((member.kind.value, member.plies, carrier.kind.value, carrier.plies), []).append(e)
    for (kind, plies, onto, carrier_plies), ends in groups.items():
        askew = " at 45 degrees" if "corner jack" in (kind, onto) else ""
        down, up_lb = max(ends, key=lambda e: e.down_lb), max(ends, key=lambda e: e.uplift_lb)
        yield Row(
            item=f"hanger, {kind} of {plies} ply on {onto} of {carrier_plies}",
            quantity=len(ends),
            unit="each",
            note=f"Each end that hangs{askew}: up to {down.down_lb:,.0f} lb down ({down.member} on {down.carrier}) and "
            f"{up_lb.uplift_lb:,.0f} lb up ({up_lb.member} on {up_lb.carrier}), ASD; choose by the plant's package.",
            key="hanger",
        )


def _plates(run: Run) -> Iterator[Row]:
    """A barrier or a treated plate where wood would lie on concrete.

    Source: common practice, no source.
    """
    ends = [b for b in run.framing.bearings if not b.by_engineer]
    if ends:
        yield Row(
            item="barrier or treated plate under a truss",
            quantity=len(ends),
            unit="each",
            note=f"One at every mark on concrete, as wide as the truss's plies ({NO_SOURCE}).",
            key="barrier",
        )


def _edges(run: Run) -> Iterator[Row]:
    """Fascia, drip edge, soffit and outlookers.

    Source: common practice, no source.
    """
    spec, roof = run.plan.trades.takeoff, run.plan.roof
    lengths = {k: sum(line.length_ft for line in run.roof.lines if line.kind is k) for k in LineKind}
    eave, rake = lengths[LineKind.EAVE], lengths[LineKind.RAKE]
    edge_ft = eave + rake
    for item, why in (("fascia", "eaves and rakes"), ("drip edge", "eaves and rakes")):
        factor, words = waste(spec, item, EDGE_WASTE_PERCENT)
        yield Row(
            item=item, quantity=up(edge_ft * factor), unit="ft", note=f"{why}: {edge_ft:.1f} ft, {words}.", key=item
        )
    soffit = eave * roof.overhang_ft + rake * roof.rake_overhang_ft
    if soffit > 0.0:
        factor, words = waste(spec, "soffit", EDGE_WASTE_PERCENT)
        note = f"Under eaves and rakes, {soffit:.0f} sq ft, {words}; corners counted with the eaves."
        yield Row(item="soffit", quantity=up(soffit * factor), unit="sq ft", note=note, key="soffit")
    if rake > 0.0 and roof.rake_overhang_ft > 0.0 and roof.rake_frame is not RakeFrame.LADDER:
        n = up(rake / run.plan.trusses.spacing_ft)
        length = feet_inches(roof.rake_overhang_ft + roof.outlooker_backspan_ft)
        said = "" if roof.rake_frame else " if the rakes are framed with outlookers, which the plan does not say"
        note = f"Along {rake:.1f} ft of rake at the trusses' spacing, {length} long{said} ({NO_SOURCE})."
        yield Row(item="outlooker", quantity=n, unit="each", note=note, key="outlooker")


def _listed(members: tuple[str, ...]) -> str:
    return f"{', '.join(members[:6])}{f' and {len(members) - 6} more' if len(members) > 6 else ''}."
