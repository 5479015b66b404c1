"""What counts as nothing, as the same and as square: every tolerance of the geometry and the sums, with its reason.

Lengths that the trade or a rule of the plan sets (a jog, the smallest bay, a sixteenth of an inch) are no tolerances:
they stand where they are used.
"""

from __future__ import annotations

from fractions import Fraction

# Corners as near to square as this are square: half an inch in 50 ft, less than a wall is laid out to.
SQUARE_DEG = 0.05

# Lengths, heights and areas as near as this are the same: five thousand times finer than the sixteenth that people
# read, ten thousand times coarser than what rounding leaves on a house. Ties in the layout are decided by it, and
# overlays of polygons are snapped to it, so that edges which rounding has parted join again.
TIE_FT = 1e-6
TIE_FT2 = 1e-6

# Two directions are one where the sine or the cosine between them is as near as this.
TIE_SINE = 1e-6

# Halves of a sixteenth are rounded up from this little below, because 1/32 in. has no exact place in decimal feet.
TIE_SIXTEENTHS = Fraction(1, 10**6)

# Coordinates stand on this grid: sums and halves of binary fractions are exact, so that 45 degree lines which should
# meet do.
GRID_FT = 2.0**-33

# Edges that lie almost on one another upset an exact intersection, which is then made again on this grid: a thousand
# times finer than a tie, so that it moves nothing that the layout tells apart.
FINE_GRID_FT = 1e-9

# What rounding leaves of a sum or a product that should be 0, or of a whole that should be 1.
ROUNDING = 1e-9

# Of a face, a patch or a strip less than this is no roof but what rounding left between edges: a tie's width, an inch
# long.
SLIVER_FT2 = 1e-7

# Below this a cut has left a point or a line, not an area.
SPECK_FT2 = 1e-10

# How far beside a line the roof on its two sides is looked at: over every tie, under every part of a roof. Shorter
# lines are none.
PROBE_FT = 1e-3

# Pressures are the same where they agree in this many decimals.
SAME_PSF_DECIMALS = 9

# A whole table of reactions out of order counts as this much of a foot when its rows are matched: over a tie, under
# every difference that people type, so that it only tells apart rows that are alike in everything else.
OUT_OF_ORDER_FT = 1e-4
