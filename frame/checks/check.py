"""What every check returns: demand, allowable, nominal strength, and the steps by hand."""

from dataclasses import dataclass, field
from enum import StrEnum
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from frame.named.limit_state import LimitState

Numbers = float | npt.NDArray[np.float64]


class Kind(StrEnum):
    """What happens when a strength is reached, the mildest first.

    TURNS: the beam swings on the post, or the post in the ground. TILTS: the panels flop about
    the beam. LEANS: the post leans, sinks or lifts, seen in time. BREAKS: steel, weld, bolt, wire
    or ground fails and a part comes down.
    """

    TURNS = "turns"
    TILTS = "tilts"
    LEANS = "leans"
    BREAKS = "breaks"


class Step(NamedTuple):
    """One line of a check done by hand.

    `formula` is an expression in the symbols of earlier steps that yields `value` when worked out:
    operators + - * / ^ and parentheses, the functions sqrt, exp, sin, cos, tan, abs, min, max,
    the constant pi, and `a if x > y else b`. An input has an empty formula. SI units.
    """

    symbol: str
    meaning: str
    formula: str
    value: Numbers
    unit: str
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One limit state over an array of cases (all arrays broadcast to one shape).

    By the code's model, `demand` stands against `allowable` (ASD, with the safety factor), and
    `nominal` is the strength itself without the factor, every unknown at its worst. By the median
    model `nominal` is the strength expected, and demand at it is where the part is expected to go.
    For an interaction, demand is the sum at allowable strengths, allowable is 1, and nominal is
    scaled so that demand / nominal is the sum at nominal strengths. `covered` is False where the
    inputs lie outside the limits of validity: there the answer is "not covered", never a number.
    `kind`: what happens when the strength is reached.
    """

    name: LimitState
    demand: Numbers
    allowable: Numbers
    nominal: Numbers
    unit: str
    source: str
    steps: tuple[Step, ...] = ()
    covered: bool | npt.NDArray[np.bool_] = True
    note: str = ""
    kind: Kind = Kind.BREAKS
    extra: dict[str, Numbers] = field(default_factory=dict)

    @property
    def utilisation(self) -> npt.NDArray[np.float64]:
        """Demand over allowable [1]; infinite where the allowable is nil; nan if not covered."""
        return self._covered(demand_over(self.demand, self.allowable))

    @property
    def let_go(self) -> npt.NDArray[np.float64]:
        """Demand over nominal strength [1]; at 1 the median model expects the part to go."""
        return self._covered(demand_over(self.demand, self.nominal))

    def _covered(self, use: Numbers) -> npt.NDArray[np.float64]:
        """No number where not covered; what is covered and comes out as no number fails."""
        empty = np.isnan(use)
        real = np.where(empty, np.inf, use) if empty.any() else np.asarray(use)
        return real if self.covered is True else np.where(self.covered, real, np.nan)


def demand_over(demand: Numbers, strength: Numbers) -> Numbers:
    """Demand over strength [1]: 0 without demand, infinite where a demand meets no strength."""
    if isinstance(strength, float) and 0.0 < strength < np.inf:
        plain: Numbers = np.divide(demand, strength) + 0.0  # never a negative nil
        return plain
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio: Numbers = np.where(np.equal(demand, 0), 0.0, np.divide(demand, strength))
    return ratio
