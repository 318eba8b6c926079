"""How unevenly a gust strikes: more on one half of the beam, more on one half of the slope."""

from dataclasses import dataclass

from frame.loads.wording import EVEN, LEFT, RIGHT

ONE_SIDED = 0.2
"""Resultant of a one-sided gust off centre, over the length of the beam, at unchanged total.
Judgement after case B of ASCE/SEI 7-22 Fig. 29.3-1 for signs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unevenness:
    """How unevenly a gust strikes.

    `one_sided`: its resultant off centre over the length of the beam, left or right; `case_b`: the
    share taken of case B's off-centre of ASCE/SEI 7-22 Fig. 27.3-4, up and down the slope.
    """

    one_sided: float = ONE_SIDED
    case_b: float = 1.0

    def shares(self, side: str) -> tuple[float, float]:
        """Shares of the left and right half [1], halves' middles a quarter off centre."""
        more = 4 * self.one_sided
        return {EVEN: (1.0, 1.0), LEFT: (1 + more, 1 - more), RIGHT: (1 - more, 1 + more)}[side]

    def pair(self, pair: tuple[float, float], case: str) -> tuple[float, float]:
        """Coefficients of the windward and the leeward half [1] from those of the standard."""
        if case != "B":
            return pair
        middle, off = (pair[0] + pair[1]) / 2, self.case_b * (pair[0] - pair[1]) / 2
        return middle + off, middle - off


CODED = Unevenness()
