"""The four sides of the frame that a house is laid out in: what walls, wings, cells and slopes face."""

from __future__ import annotations

from enum import IntEnum

from framing.plan import Point


class FrameSide(IntEnum):
    """A side of the outline's frame, numbered so that arrays can hold it."""

    X_LOW = 0
    X_HIGH = 1
    Y_LOW = 2
    Y_HIGH = 3

    @property
    def axis(self) -> int:
        """The axis that the side is square to: 0 for x, 1 for y."""
        return self.value // 2

    @property
    def along(self) -> int:
        """The axis that the side runs along."""
        return 1 - self.value // 2

    @property
    def is_high(self) -> bool:
        """Whether it is the high side of its axis."""
        return self.value % 2 == 1

    @property
    def opposite(self) -> FrameSide:
        """The other side of its axis."""
        return FrameSide(self.value ^ 1)

    @property
    def inward(self) -> int:
        """The direction along its axis into the house: +1 from a low side, -1 from a high one."""
        return -1 if self.is_high else 1

    @property
    def outward(self) -> Point:
        """The unit vector away from the house."""
        return ((-1.0, 0.0), (1.0, 0.0), (0.0, -1.0), (0.0, 1.0))[self.value]


SIDES = tuple(FrameSide)


def sides_of(axis: int) -> tuple[FrameSide, FrameSide]:
    """The low and the high side of an axis."""
    return (FrameSide(2 * axis), FrameSide(2 * axis + 1))
