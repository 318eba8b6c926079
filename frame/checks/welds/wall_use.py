"""What of a pipe's wall is used by what is welded to it, by the code's count and as expected.

What the pipe's own compression leaves of the wall (Qf) and the factors of AISC 360-22 K, from
memory of the standard. Stresses Pa; numbers or arrays.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from frame.checks.check import Numbers, Step

PLASTIFY_FACTOR, PUNCH_FACTOR = 1.67, 1.58
CHORD_LEFT = "max(1 - 0.3*fc/(0.6*Fy)*(1 + fc/(0.6*Fy)), 0)"
"""Step for `chord_factor` at allowable strength."""
CHORD_LEFT_AT_YIELD = "1 - 0.3*min(fc/Fy, 1)*(1 + min(fc/Fy, 1))"
"""Step for `chord_factor` at nominal strength: past its yield the pipe itself has gone."""
OPEN_END = 0.5
"""Share of the wall's strength left at an open pipe end (AISC 360-22 K, connections near an
uncapped end are reduced by half; from memory of the standard)."""

Shares = tuple[Numbers, Numbers]
"""Shares of the nominal strengths that count [1]: against yielding and against punching."""


@dataclass(frozen=True, slots=True)
class WallUse:
    """Demand, allowable and nominal [1] of a wall as a check has them, and the `use` at `shares`.

    `left` by the pipe's own compression [1]; `expected`, tested over nominal strength [1], None
    by the code's count.
    """

    demand: Numbers
    allowable: Numbers
    nominal: Numbers
    use: Numbers
    left: Numbers
    shares: Shares
    expected: Numbers | None

    @property
    def left_step(self) -> Step:
        """Step of what the pipe's compression `fc` [Pa] leaves at the yield stress `Fy` [Pa]."""
        factor = CHORD_LEFT if self.expected is None else CHORD_LEFT_AT_YIELD
        return Step("Q", "share left by it", factor, self.left, "", "K2-4")

    @property
    def tested_steps(self) -> tuple[Step, ...]:
        """Step of what is expected over nominal strength; none by the code's count."""
        if self.expected is None:
            return ()
        return (Step("m", "tested over nominal strength", "", self.expected, "", "judgement"),)

    @property
    def share_steps(self) -> tuple[Step, ...]:
        """Steps that lead from `left` to the share against yielding."""
        word, formula = "share allowed", f"Q/{PLASTIFY_FACTOR}"
        if self.expected is not None:
            word, formula = "share expected", "m*Q"
        return *self.tested_steps, Step("k", word, formula, self.shares[0], "")


def wall_use(
    together: Callable[[Shares], Numbers],
    stress: Numbers,
    yield_stress: Numbers,
    expected: Numbers | None = None,
) -> WallUse:
    """Return what loads use of a wall, given their sum `together` at shares of its strengths [1].

    `stress`: compression of the pipe there [Pa], tension as nil. Without `expected` the shares are
    Qf / 1.67 and 1 / 1.58; with it, tested over nominal strength [1], they are Qf and 1 times
    that, Qf at yield, and there is no safety factor.
    """
    at_yield = chord_factor(stress, yield_stress, most=1.0)
    if expected is not None:
        shares = at_yield * expected, expected
        use = together(shares)
        three: tuple[Numbers, Numbers, Numbers] = use, 1.0, 1.0
        left = at_yield
    else:
        left = chord_factor(stress, 0.6 * np.asarray(yield_stress))
        shares = left / PLASTIFY_FACTOR, 1 / PUNCH_FACTOR
        use = together(shares)
        three = _of_both_uses(use, together((at_yield, 1.0)))
    return WallUse(*three, use=use, left=left, shares=shares, expected=expected)


def chord_factor(stress: Numbers, full: Numbers, most: float = np.inf) -> Numbers:
    """Qf [1]: what the chord's own compression leaves, 1 - 0.3 U (1 + U), U = stress / full.

    AISC Eq. K2-4 with `full` = 0.60 Fy at allowable, Fy at nominal strength; 1 in tension, never
    below 0. U counts the more compressed side of the joint, the standard the less compressed one,
    and is held to `most`.
    """
    U = np.minimum(np.maximum(stress, 0.0) / full, most)
    factor: Numbers = np.maximum(1 - 0.3 * U * (1 + U), 0.0)
    return factor


def _of_both_uses(use: Numbers, gone: Numbers) -> tuple[Numbers, Numbers, Numbers]:
    """Demand, allowable and nominal of a sum from its `use` at allowable and `gone` at nominal.

    Where nothing is allowed the use is endless and the nominal use stands for itself.
    """
    some = np.isfinite(use)
    with np.errstate(divide="ignore", invalid="ignore"):
        nominal = np.where(some & (np.asarray(gone) > 0), np.divide(use, gone), PLASTIFY_FACTOR)
    return np.where(some, use, gone), np.where(some, 1.0, 0.0), np.where(some, nominal, 1.0)
