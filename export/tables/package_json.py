"""Run -> what run.json says of the truss engineer's package."""

from __future__ import annotations

from framing.anchors.schedule import Mark
from framing.run import Run


def package_plain(run: Run) -> dict[str, object] | None:
    """The truss engineer's table that governs; None where none does."""
    found = run.reconciled
    if found is None:
        return None
    return {
        "file": found.package.name,
        "revision": found.package.revision,
        "sha256": found.package.sha256,
        "marks_by_package": found.n_governed,
        "marks_by_ours": found.n_ours,
        "words": found.words,
        "read": list(found.package.said),
    }


def stated_plain(m: Mark) -> dict[str, object]:
    """What the package has at a mark, and ours beside it."""
    return {
        "package_mark": m.stated.mark if m.stated else None,
        "package_uplift_lb": m.stated.theirs_lb if m.stated else None,
        "our_uplift_lb": None if m.alone else m.stated.ours_lb if m.stated else m.uplift_lb,
        "package_down_lb": m.stated.down_lb if m.stated else None,
        "our_down_lb": m.stated.ours_down_lb if m.stated else m.down_lb,
    }
