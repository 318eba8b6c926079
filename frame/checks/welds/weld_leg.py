"""How small and how large a fillet may be: AISC 360-22 J2.2b, from memory of the standard."""

import numpy as np

from frame.checks.check import Numbers
from frame.units import INCH

CYCLIC_LEG = INCH * 3 / 16
SMALLEST_LEG = ((INCH / 2, CYCLIC_LEG), (INCH * 3 / 4, INCH / 4))
LARGEST_MINIMUM = INCH * 5 / 16
"""AISC 360-22 Table J2.4: thickness up to, smallest leg [m]; beyond the last, the largest.

Its 1/8 in up to 1/4 in is less than cyclic load allows, which is told in its place.
"""


def smallest_leg(thinner: Numbers, thicker: Numbers, *, low_hydrogen: bool = True) -> Numbers:
    """Smallest leg [m] by thickness: AISC 360-22 Table J2.4 (from memory of the standard).

    By the thinner part; by the thicker one where the rod is not low-hydrogen and the steel is not
    preheated (AWS D1.1), but never more than the thinner part is thick. A rack rocks in the wind:
    3/16 in is the least for cyclic load where the wall allows it.
    """
    by = np.asarray(thinner if low_hydrogen else thicker, dtype=float)
    steps = [by <= upto * (1 + 1e-9) for upto, _ in SMALLEST_LEG]
    by_table = np.select(steps, [leg for _, leg in SMALLEST_LEG], LARGEST_MINIMUM)
    leg: Numbers = np.minimum(by_table, thinner)
    return leg
