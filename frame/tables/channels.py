"""Strut channel: sections, what a channel nut holds, and lateral twist of long spans."""

from dataclasses import dataclass
from functools import cache

import numpy as np

from frame.tables.lookup import entry_called, plain_name
from frame.tables.reader import rows, si

COMMON = "1-5/8 x 1-5/8 in 12 ga"
"""The channel of rails that a file does not name, and that its price of rails is for."""


@dataclass(frozen=True, slots=True)
class Channel:
    """A strut channel, slotted face up.

    `depth` square to the slot face, `width` across it, `wall` [m]; `area` [m2]; `weight` [N/m];
    `I1` [m4] and `S1` [m3] about axis 1-1 (bending toward or away from the slot face), `I2`, `S2`
    about axis 2-2 (sideways); `J` [m4] of the open section, sum of b t^3 / 3; `lip`: how far a lip
    turns in [m]; `doubled`: two channels back to back. Where two published values differ the
    smaller is listed.
    """

    name: str
    depth: float
    width: float
    wall: float
    area: float
    weight: float
    I1: float
    S1: float
    I2: float
    S2: float
    J: float
    source: str
    lip: float = 0.0
    doubled: bool = False

    @property
    def side_middle(self) -> float:
        """Middle of the side walls of the channel that lies on the beam, over the beam [m].

        Of two back to back that is a quarter of both: at half the depth the backs meet.
        """
        return self.depth / (4 if self.doubled else 2)


@dataclass(frozen=True, slots=True)
class ChannelNut:
    """Working loads of one channel nut, safety factor 3 in it: `slip`, `pull_out` [N]."""

    name: str
    channel: str
    diameter: float
    slip: float
    pull_out: float
    source: str


@cache
def channels() -> tuple[Channel, ...]:
    """Return every channel listed."""
    return tuple(_channel(row) for row in rows("channels"))


@cache
def channel_nuts() -> tuple[ChannelNut, ...]:
    """Return the channel nuts listed."""
    return tuple(
        ChannelNut(
            name=row["name"],
            channel=row["channel"],
            diameter=si(row, "diameter_in"),
            slip=si(row, "slip_lb"),
            pull_out=si(row, "pull_out_lb"),
            source=row["source"],
        )
        for row in rows("channel_nuts")
    )


def find(name: str) -> Channel:
    """Return a channel by name, for example "1-5/8 x 1-5/8 in 12 ga"."""
    words = (
        w for w in plain_name(name).split() if w not in ("strut", "channel", "by", "x", "single")
    )
    spelt = " ".join(words).replace("gauge", "ga").replace("gage", "ga").replace("12ga", "12 ga")
    others = {plain_name(c.name).replace(" x ", " "): c.name for c in channels()}
    return entry_called(others.get(spelt.replace("14ga", "14 ga"), name), channels(), "channel")


def find_nut(channel: Channel, diameter: float) -> ChannelNut | None:
    """Return the largest nut listed for a channel up to `diameter` [m]; None below the least."""
    nuts = (nut for nut in channel_nuts() if nut.channel == channel.name)
    fitting = (nut for nut in nuts if nut.diameter <= diameter * 1.001)
    return max(fitting, key=lambda nut: nut.diameter, default=None)


def unbraced_factor(span: float) -> float:
    """Share [1] of a channel's bending strength left on an unbraced `span` [m] (open section).

    Trade table for the 1-5/8 in 12 ga single channel, used for all single ones and for both signs;
    the listed span at or above `span` decides, the last row beyond the table.
    """
    table = _unbraced()
    return next((factor for length, factor in table if span <= length * 1.001), table[-1][1])


def unbraced_middle(span: float) -> float:
    """Return the share of `unbraced_factor` by a straight line between the listed spans."""
    spans, shares = np.array(_unbraced()).T
    return float(np.interp(span, spans, shares))


def longest_unbraced() -> float:
    """Longest span of the trade's table [m]."""
    return max(length for length, _ in _unbraced())


@cache
def _unbraced() -> tuple[tuple[float, float], ...]:
    """Spans [m] and shares [1] of the trade's table, the shortest first."""
    return tuple((si(row, "span_ft"), float(row["factor"])) for row in rows("channel_unbraced"))


def _channel(row: dict[str, str]) -> Channel:
    wall, area = si(row, "wall_in"), si(row, "area_in2")
    return Channel(
        name=row["name"],
        depth=si(row, "depth_in"),
        width=si(row, "width_in"),
        wall=wall,
        area=area,
        weight=si(row, "weight_lb_per_ft"),
        I1=si(row, "I1_in4"),
        S1=si(row, "S1_in3"),
        I2=si(row, "I2_in4"),
        S2=si(row, "S2_in3"),
        J=area * wall**2 / 3,
        source=row["source"],
        lip=si(row, "lip_in"),
        doubled=row["doubled"] == "yes",
    )
