"""What is expected to let go at which gust: one record for its gusts, its kind and its words."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from frame.checks.check import Check, Kind
from frame.named.aim import Key
from frame.named.limit_state import LimitState
from frame.named.part import Part

GRAVE = (Kind.TILTS, Kind.BREAKS)
"""Kinds before which panels come off or go low; the others leave the rack standing."""


class Shift(NamedTuple):
    """How ln(gust) shifts with one uncertain input, by its `key`, at its low and high end."""

    key: str
    low: float
    high: float

    @property
    def down(self) -> float:
        """Largest shift down, nil or less."""
        return min(self.low, self.high, 0.0)

    @property
    def up(self) -> float:
        """Largest shift up, nil or more."""
        return max(self.low, self.high, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Going:
    """A check of a part that is expected to go, by the median model.

    `gust` [m/s] the median, `low` to `high` the 10 to 90 range, nil in still air; the `case`, its
    wind in `words` and the `tilt` [rad] that do it; `shifts` of ln(gust) that make up the range;
    `hand` the check in that case; `guessed` the median gust before what the rack has stood told
    better, None where it told nothing.
    """

    part: Part
    check: LimitState
    kind: Kind
    gust: float
    low: float
    high: float
    case: str
    words: str
    tilt: float
    shifts: tuple[Shift, ...]
    hand: Check
    guessed: float | None = None

    @property
    def key(self) -> Key:
        """Which check of which part it is."""
        return self.part, self.check

    @property
    def grave(self) -> bool:
        """Whether it tilts or breaks, so that panels come off or go low before it."""
        return self.kind in GRAVE

    @property
    def slips(self) -> bool:
        """Whether it turns, tilts or leans: it gives way without breaking."""
        return self.kind is not Kind.BREAKS


def least_low(found: Iterable[Going]) -> Going | None:
    """Return what tilts or breaks at the least low end, to act before; None where nothing does.

    One further up may be surer of its middle and less of its end.
    """
    return min((g for g in found if g.grave), key=lambda g: g.low, default=None)
