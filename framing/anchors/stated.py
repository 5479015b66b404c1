"""What the truss engineer's package states of one bearing, and what of it stands in place of ours."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Stated:
    """`mark` as the package has it, `source` the words for a case, `theirs_lb` its uplift (None where it gives none),
    `ours_lb` our own beside it, `uplift_lb` the one that governs; all ASD, positive up. `replaces` is False where that
    is ours to the pound: then nothing changes. `along_wall_lb` and `square_lb` are the engineer of record's pushes,
    None where ours stay.
    """

    mark: str
    source: str
    theirs_lb: float | None
    ours_lb: float
    uplift_lb: float
    replaces: bool
    along_wall_lb: float | None
    square_lb: float | None

    @property
    def by_package(self) -> bool:
        """Whether the package's own figure governs, not ours in its place."""
        return self.theirs_lb is not None and self.uplift_lb == self.theirs_lb
