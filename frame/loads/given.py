"""A pressure given in place of the standard's: the standard's winds at its share of their size."""

from collections.abc import Sequence
from dataclasses import dataclass

from frame.loads.wind import DIRECTIONALITY, GUST_EFFECT, monoslope_coefficients
from frame.loads.wording import BACK, FRONT

LEAST_OF_OTHER = 0.5
"""What the standard presses with is taken as at least so much of what it lifts with, and the
other way round: behind blocked air it hardly presses on flat tilts, and no pattern of it may be
blown up without end to do so all the same (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WindShare:
    """Wind counted over that of the standard [1], where it is `pressing` and where `lifting`."""

    pressing: float = 1.0
    lifting: float = 1.0

    def at(self, coefficient: float) -> float:
        """Return the share that belongs to a net pressure coefficient, positive pressing."""
        return self.pressing if coefficient > 0 else self.lifting

    def counted(self, coefficient: float) -> float:
        """Return a net pressure coefficient at this share of the standard's."""
        return self.at(coefficient) * coefficient


WHOLE = WindShare()
"""The standard's winds as they are."""


def given_share(
    pressure: float, map_pressure: float, tilt: float, flows: Sequence[str]
) -> WindShare:
    """Share of the standard's winds that a pressure given for the panels at a `tilt` [rad] is.

    `pressure` [Pa]: net, square to the panels, the mean over all of them, whole at the map gust,
    pressing as well as lifting; `map_pressure` qh [Pa] of that gust, without Kd. The hardest wind
    across the beam of each sense in ASCE/SEI 7-22 Fig. 27.3-4 then has just that mean. A number
    for all panels says nothing of how it lies on them, of single panels, of wind along the beam
    or of pipes: what the standard has of those keeps its proportion (judgement).
    """
    means = [
        sum(monoslope_coefficients(tilt, direction, case, flow)) / 2
        for flow in flows
        for direction in (FRONT, BACK)
        for case in "AB"
    ]
    press, lift = max(*means, 0.0), max(*(-m for m in means), 0.0)
    at_one = map_pressure * DIRECTIONALITY * GUST_EFFECT
    return WindShare(
        pressing=pressure / (at_one * max(press, LEAST_OF_OTHER * lift)),
        lifting=pressure / (at_one * max(lift, LEAST_OF_OTHER * press)),
    )
