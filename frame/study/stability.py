"""Second order: how much the axial forces enlarge the sway of the rack and its moments."""

import numpy as np
import numpy.typing as npt

from frame.fem.cases import Answer
from frame.fem.ritz import Ritz

FloatArray = npt.NDArray[np.float64]
ALPHA = 1.6
"""From ASD to strength level, AISC 360-22 C2.1."""
STIFFNESS_LEFT = 0.8
"""Part of the stiffness counted on, AISC 360-22 C2.3."""
SHORT_BY, SHORT = 1.01, 6e-4
"""What 1 / lambda found in a few shapes is multiplied by, and what is added to it.

Measured on four racks, bare and braced in every way, one of them at nine tilts, in gusts up to
200 mph, against the exact factors of 24916 cases and against those in 80 shapes of 237536: made
so, lambda is nowhere above the exact one (errors take up 81 % of what is added at most), and at
most 2.2 % below it up to 20 and 4 % up to 50. Farther up the part added rules (12 % at 200), where
it moves B by 0.2 % at most. Not so in all of some 16000 cases of random racks, up to four posts,
mostly guyed: some that are lifted off, most of them from 70 up, come out too high where the mode
is in none of the typical cases, which lowers B by up to some 2 %.
"""
BUCKLED = 1e6
"""Factor where the rack buckles: large enough to fail every check, yet finite."""


def second_order(shapes: Ritz, answer: Answer) -> FloatArray:
    """Factor on moments, sway and brace forces, (n,); `BUCKLED` where the rack buckles.

    B = 1 / (1 - 1.6 / (0.8 lambda)), AISC 360-22 Eq. A-8-6 with the lowest buckling factor lambda
    of the whole frame under the case's axial forces, guys taut in the case in.
    """
    left = 1.0 - ALPHA / (STIFFNESS_LEFT * buckling_factor(shapes, answer))
    return np.where(left > 1 / BUCKLED, 1.0 / np.maximum(left, 1 / BUCKLED), BUCKLED)


def buckling_factor(shapes: Ritz, answer: Answer) -> FloatArray:
    """Lowest factor on a case's forces at which the rack buckles, (n,), on the safe side.

    At most 1667, for a rack all in tension too.
    """
    found = shapes.factors(answer.factors, answer.tensions, answer.response.slackness)
    lowest: FloatArray = 1.0 / (SHORT_BY / found + SHORT)
    return lowest
