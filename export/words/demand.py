"""What a bearing asks of its anchor, in words, and why no anchor holds it."""

from __future__ import annotations

from framing.anchors.catalogue import AnchorKind, Catalogue
from framing.anchors.schedule import Mark


def demand_words(mark: Mark) -> str:
    """All that counts, allowable-stress level: `1234 lb up, 20 lb along the wall and 280 lb square to it`."""
    sideways = ((mark.parallel_lb, "along the wall"), (mark.perpendicular_lb, "square to it"))
    *others, last = [f"{mark.uplift_lb:.0f} lb up", *(f"{lb:.0f} lb {way}" for lb, way in sideways if lb is not None)]
    return f"{', '.join(others)} and {last}" if others else last


def source_words(mark: Mark) -> str:
    """Whose uplift it is, where the truss engineer's package gives it; '' where it is ours."""
    stated = mark.stated
    if stated is None or not stated.by_package:
        return ""
    return f" by the {stated.source}{'' if stated.alone else f', ours {stated.ours_lb:,.0f} lb up'}"


def demand_lines(mark: Mark) -> tuple[str, ...]:
    """The same where room is short, a line each: `up 1,234 lb`, `along 20 lb`, `across 280 lb` (across its wall)."""
    parts = (("up", mark.uplift_lb), ("along", mark.parallel_lb), ("across", mark.perpendicular_lb))
    return tuple(f"{way} {lb:,.0f} lb" for way, lb in parts if lb is not None)


def unresolved_words(mark: Mark, catalogue: Catalogue) -> str:
    """Why an unresolved mark is one: its whole demand is too much for each anchor, or none is listed for its plies."""
    plies = f"{mark.bearing.plies} {'ply' if mark.bearing.plies == 1 else 'plies'}"
    listed = any(a.plies == mark.bearing.plies and a.kind is AnchorKind.CAST for a in catalogue.anchors)
    why = "with each the ratio by its rule is over 1.0" if listed else f"none is listed at {plies}"
    if mark.beam_refuses:
        why = f"the tie beam cannot hold {mark.beam_refuses}"
    return f"no anchor in {catalogue.name} holds {demand_words(mark)} at {plies}: {why}"
