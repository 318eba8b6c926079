"""Strips of panels on the rails, and how hard a local gust strikes each."""

import math
from dataclasses import dataclass

import numpy as np

from frame.idealize.deck import carrying, rail_shares
from frame.loads.cases import QUARTER_LOADS
from frame.loads.wording import EVEN
from frame.parts.rails.local_wind import LocalWind, edge, local_wind
from frame.rack.rack import Rack
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation

Both = tuple[FloatArray, FloatArray]
"""Values pressing and lifting."""
MEMBER, FASTENER = 1 / 3, 0.0
"""Width of an effective wind area over its span, at least: of a member, and of a fastener, which
counts no more than the area that hangs on it (ASCE/SEI 7-22 26.2, from memory)."""


@dataclass(frozen=True, kw_only=True)
class Strips:
    """What each of k unlike rails carries: `width` of panels [m]; `outer`: at the side edges.

    `margin` [m] is the width of the edge zone in plan, `zone` [m] up the slope, `arm` [m] half the
    chord; `tilt` [rad].
    """

    width: FloatArray
    outer: tuple[bool, ...]
    margin: float
    arm: float
    tilt: float

    @property
    def zone(self) -> float:
        """Length of an end zone along the rail [m]."""
        return min(self.margin / math.cos(self.tilt), self.arm)


def strips(rack: Rack, tilt: float) -> Strips:
    """Return the strips of panels on the rails; those within the edge zone of a side are outer.

    Shared by the lever rule as the panels' weight is; rails that carry alike count once.
    """
    rails, margin = np.array(rack.rails.positions), edge(rack, tilt)
    width = np.zeros(len(rails))
    for left, right in rack.panels.column_edges():
        used = carrying(rails, left, right)
        width[used] += rail_shares(rails[used], left, right)
    side = rack.panels.spread / 2 - np.abs(rails) - width / 2
    unlike = sorted(
        {(round(float(w), 6), bool(s < margin)) for w, s in zip(width, side, strict=True) if w > 0}
    )
    return Strips(
        width=np.array([w for w, _ in unlike]),
        outer=tuple(outer for _, outer in unlike),
        margin=margin,
        arm=rack.panels.chord / 2,
        tilt=tilt,
    )


def coefficients(
    wind: LocalWind, on: Strips, length: float, least: float = MEMBER
) -> tuple[Both, Both]:
    """CN pressing and lifting, (n, k) each, in the end zones and on the rest of the rails.

    `length` [m] of rail that one coefficient belongs to; `least` width of its effective wind area
    over that, of a `MEMBER` or a `FASTENER`.
    """
    found = []
    for zones in (("edge", "corner"), ("interior", "edge")):
        each = [
            wind.coefficients(
                on.tilt, zones[outer], max(width, least * length) * length, on.margin
            )
            for width, outer in zip(on.width.tolist(), on.outer, strict=True)
        ]
        found.append((np.stack([p for p, _ in each], 1), np.stack([u for _, u in each], 1)))
    return found[0], found[1]


def struck(now: Situation) -> FloatArray:
    """Share of its forces that a rail takes in each case, (n,): 1, or less in a one-sided gust.

    A one-sided gust stands for a whole half of the rack struck harder, at the coefficients of the
    whole. No rail is struck harder in it than by the local gust on its own area.
    """
    winds = now.table.winds
    sided = np.array([w is not None and w.side != EVEN and not w.fixed for w in winds])[now.case]
    if not sided.any():
        return np.ones(len(now.case))
    index = now.block.frame.ideal.model.load_index
    panels = [index[name] for name in QUARTER_LOADS]
    half = now.pressure * np.abs(now.per_pressure[:, panels]).max(axis=1)
    wind, on = local_wind(now), strips(now.rack, now.block.frame.ideal.tilt)
    (press, lift), _ = coefficients(wind, on, on.arm)
    local = wind.pressure * np.maximum(press, -lift).max(axis=1)
    most = np.divide(local, half, out=np.ones(len(now.case)), where=half > 0)
    return np.where(sided, np.minimum(most, 1.0), 1.0)
