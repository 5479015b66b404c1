"""What the truss engineer's package states of one bearing, and what of it stands in place of ours."""

from __future__ import annotations

from dataclasses import dataclass

SAME_LB = 0.5
"""A figure that is ours to the pound is ours: tables are typed in whole pounds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stated:
    """`mark` as the package has it, `source` the words for a case, `theirs_lb` its uplift (None where it gives none),
    `ours_lb` our own beside it, `uplift_lb` the one that governs; all ASD, positive up. `replaces` is False where that
    is ours to the pound: then nothing changes. `along_wall_lb` and `square_lb` are the engineer of record's pushes,
    None where ours stay. `down_lb` is the package's load down, None where it gives none, `ours_down_lb` ours beside it,
    None where there is no arithmetic of ours.
    """

    mark: str
    source: str
    theirs_lb: float | None
    ours_lb: float
    uplift_lb: float
    replaces: bool
    along_wall_lb: float | None
    square_lb: float | None
    down_lb: float | None
    ours_down_lb: float | None

    def governing_down_lb(self, ours_lb: float) -> float:
        """The load down that stands: the package's where it gives one that is not ours to the pound."""
        if self.down_lb is None or (not self.alone and abs(self.down_lb - ours_lb) <= SAME_LB):
            return ours_lb
        return self.down_lb

    @property
    def alone(self) -> bool:
        """Whether no figure of ours stands beside it: marks and lines are the engineer's too."""
        return self.ours_down_lb is None

    @property
    def by_package(self) -> bool:
        """Whether the package's own figure governs, not ours in its place."""
        return self.theirs_lb is not None and self.uplift_lb == self.theirs_lb
