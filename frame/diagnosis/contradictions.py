"""Do the readings agree with one another, and if not, which one to take again?"""

from dataclasses import dataclass

import numpy as np

from frame.diagnosis.fit import Fit
from frame.diagnosis.unknowns import SCALES

DOUBT = 3.0
"""How much more than beforehand is left open, so that readings are held against one another."""
UNLIKELY = 0.01
"""Chance below which readings are said to contradict (judgement)."""


@dataclass(frozen=True, slots=True)
class Consistency:
    """How likely readings as far apart as these are by chance [1].

    `suspect`: key of the reading that fits the others least, where they contradict.
    """

    chance: float
    suspect: str | None


def consistency(found: Fit) -> Consistency:
    """Test the readings against one another.

    Before they are taken, readings scatter about their prediction with S = J J' + diag(sigma2),
    J for unknowns that may be `DOUBT` times as far out as was thought. With d the distance from
    it, d' S^-1 d is a chi square with as many degrees as readings; leaving out reading i lowers it
    by (S^-1 d)_i2 / (S^-1)_ii, one of a single degree (normal regression; derived by the inverse
    of a partitioned matrix). Of the whole the readings contradict below `UNLIKELY`; one of n
    readings by itself below a n-th of that.
    """
    from scipy.stats import chi2

    count = len(found.readings)
    if not count:
        return Consistency(1.0, None)
    J = found.jacobian / found.sigma[:, None]
    off = found.misses + J @ found.place
    doubt = np.array([1.0 if u.key in SCALES else DOUBT for u in found.unknowns])
    wide = J * doubt
    inverse = np.linalg.inv(np.eye(count) + wide @ wide.T)
    pulled = inverse @ off
    alone = pulled**2 / np.diag(inverse)
    whole = float(chi2.sf(off @ pulled, count))
    worst = int(np.argmax(alone))
    single = count * float(chi2.sf(alone[worst], 1))
    chance = min(whole, single)
    return Consistency(chance, found.readings[worst].key if chance < UNLIKELY else None)
