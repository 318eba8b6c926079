"""The values of the unknowns that explain the readings best, and how sure they are.

Bayes with normal distributions: the most likely values by least squares (Gauss-Newton, trust
region, scipy), their covariance from the Jacobian there (Laplace's approximation: Gelman and
others, Bayesian Data Analysis, 3rd ed., sec. 4.1, from memory). Every unknown is in standard
deviations of what is thought of it beforehand.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.diagnosis.forward import Forward
from frame.diagnosis.predict import PREDICTED, Yard
from frame.diagnosis.unknowns import REST, REST_UNLOADED, FitUnknown
from frame.rack.measured import Reading

FloatArray = npt.NDArray[np.float64]
MODEL = 0.03
"""How far the frame itself may be off, as a share of what it predicts (judgement)."""
STEP = 0.01
"""Step of the differences, in standard deviations."""
SURE = 1.959964
"""Standard deviations either side of a band of 19 in 20."""
OVER = 0.02
"""Tilt beyond the stops of the play that counts as one standard deviation, over the slop [1]."""
INSIDE = 0.3
"""How far inside its bounds every unknown starts, in standard deviations."""
FARTHEST = 6.0
"""Standard deviations from what was thought beforehand that no unknown goes beyond."""


@dataclass(frozen=True)
class Fit:
    """Values that explain the readings best.

    `place` (k,) and `covariance` (k, k) of the `unknowns` in standard deviations of what was
    thought of each beforehand; `jacobian` (n, k) of the readings, and their errors `sigma` (n,)
    [SI] (standard deviations); `misses` (n,) reading less prediction, over sigma.
    """

    forward: Forward
    unknowns: tuple[FitUnknown, ...]
    readings: tuple[Reading, ...]
    place: FloatArray
    covariance: FloatArray
    jacobian: FloatArray
    sigma: FloatArray
    misses: FloatArray

    @property
    def values(self) -> dict[str, float]:
        """Most likely value of every unknown, SI or 1."""
        return values_at(self.unknowns, self.place)

    def spread(self, key: str) -> float:
        """Return the standard deviation of an unknown on its own scale, see `FitUnknown`."""
        i = self.index(key)
        return float(np.sqrt(self.covariance[i, i])) * self.unknowns[i].spread

    def band(self, key: str) -> tuple[float, float]:
        """Values that an unknown lies between in 19 of 20 [SI or 1]."""
        i = self.index(key)
        unknown, half = self.unknowns[i], SURE * self.spread(key)
        middle = unknown.middle + unknown.spread * float(self.place[i])
        low, high = (max(middle + sign * half, unknown.least) for sign in (-1.0, 1.0))
        return unknown.value(low), unknown.value(high)

    def index(self, key: str) -> int:
        """Position of an unknown."""
        return next(i for i, u in enumerate(self.unknowns) if u.key == key)

    def learned(self, key: str) -> float:
        """Share of the variance of an unknown that the readings took away [1]."""
        i = self.index(key)
        return float(1.0 - self.covariance[i, i])

    @property
    def yard(self) -> Yard:
        """The rack at the most likely values."""
        return Yard(self.forward, self.values)

    def draws(self, count: int) -> FloatArray:
        """Values (count, k) drawn from the fit on the unknowns' own standardised scale.

        The same every time; what no value may be below is cut off.
        """
        rng = np.random.default_rng(20)
        root = np.linalg.cholesky(self.covariance + 1e-12 * np.eye(len(self.place)))
        found = self.place + rng.standard_normal((count, len(self.place))) @ root.T
        least = [(u.least - u.middle) / u.spread for u in self.unknowns]
        cut: FloatArray = np.maximum(found, least)
        return cut


def values_at(unknowns: Sequence[FitUnknown], place: FloatArray) -> dict[str, float]:
    """Value of every unknown [SI or 1] at a place in standard deviations."""
    return {
        u.key: u.value(max(u.middle + u.spread * float(x), u.least))
        for u, x in zip(unknowns, place, strict=True)
    }


def fit(forward: Forward, unknowns: tuple[FitUnknown, ...], readings: Sequence[Reading]) -> Fit:
    """Fit the unknowns to the readings that somebody could take."""
    from scipy.optimize import least_squares

    told = tuple(r for r in readings if r.value is not None)
    least = np.array([max((u.least - u.middle) / u.spread, -FARTHEST) for u in unknowns])
    start = np.maximum(np.zeros(len(unknowns)), least + INSIDE)
    sigma = reading_errors(Yard(forward, values_at(unknowns, start)), told)

    def misfit(x: FloatArray) -> FloatArray:
        yard = Yard(forward, values_at(unknowns, x))
        data = (predicted(yard, told) - observed(told)) / sigma
        return np.concatenate([data, x, beyond_stops(yard)])

    def slopes(x: FloatArray) -> FloatArray:
        here = misfit(x)
        return np.stack([(misfit(x + step) - here) / STEP for step in STEP * np.eye(len(x))], 1)

    for _ in range(2):
        start = np.clip(start, least + 1e-6, FARTHEST - 1e-6)
        found = least_squares(
            misfit, start, slopes, bounds=(least, FARTHEST), xtol=1e-4, ftol=1e-6, max_nfev=20
        )
        start = found.x
        sigma = reading_errors(Yard(forward, values_at(unknowns, start)), told)
    count, k = len(told), len(unknowns)
    J = slopes(start)[:count] * sigma[:, None]
    scaled = J / sigma[:, None]
    return Fit(
        forward=forward,
        unknowns=unknowns,
        readings=told,
        place=start,
        covariance=np.asarray(np.linalg.inv(np.eye(k) + scaled.T @ scaled), dtype=float),
        jacobian=J,
        sigma=sigma,
        misses=-misfit(start)[:count],
    )


def predicted(yard: Yard, readings: Sequence[Reading]) -> FloatArray:
    """Return what the readings would be (n,) [SI]."""
    return np.array([PREDICTED[r.key](yard) for r in readings])


def observed(readings: Sequence[Reading]) -> FloatArray:
    """Return what was read (n,) [SI]."""
    return np.array([r.value for r in readings], dtype=float)


def reading_errors(yard: Yard, readings: Sequence[Reading]) -> FloatArray:
    """Return the standard deviation of readings less predictions (n,) [SI]: tool's and model's."""
    within = np.array([r.within for r in readings])
    found: FloatArray = np.hypot(within, MODEL * predicted(yard, readings))
    return found


def beyond_stops(yard: Yard) -> FloatArray:
    """How far the beam rests beyond the stops of its play (2,), nil between them."""
    slop = yard.slop
    scale = OVER * max(slop, 1e-4)
    over = [max(0.0, abs(yard.values[key]) - slop) / scale for key in (REST, REST_UNLOADED)]
    return np.array(over)
