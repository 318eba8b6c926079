"""Wind on single panels, clamps and rails: local gusts stronger than the rack's average."""

import math
from dataclasses import dataclass
from functools import cache

import numpy as np

from frame.checks.fasteners.clamp import WIND
from frame.idealize.actions import wind_height
from frame.idealize.deck import Slope
from frame.loads.given import WHOLE, WindShare
from frame.loads.wind import (
    DIRECTIONALITY,
    GUST_EFFECT,
    component_coefficients,
    edge_width,
    exposure_factor,
)
from frame.rack.rack import Rack
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation


@dataclass(frozen=True)
class LocalWind:
    """Local wind of each case, arrays (n,).

    `pressure` q Kd G with the combination's wind factor [Pa], nil without wind; `dead` the factor
    on dead load [1]; `which` of the `flows`, empty for a pressure that no gust changes or no
    wind; `share` of the standard's winds that counts.
    """

    pressure: FloatArray
    dead: FloatArray
    flows: tuple[str, ...]
    which: np.ndarray
    share: WindShare

    def coefficients(
        self, tilt: float, zone: str, area: float, edge: float
    ) -> tuple[FloatArray, FloatArray]:
        """CN pressing (positive) and lifting (negative) in a `zone`, (n,) each.

        A pressure that no gust changes (no flow) is taken as it stands, 1 and -1.
        """
        pairs = [_table(tilt, zone, area, edge, f) if f else (1.0, -1.0) for f in self.flows]
        counted = [
            tuple(map(self.share.counted, pair)) if f else pair
            for f, pair in zip(self.flows, pairs, strict=True)
        ]
        press, lift = np.array(counted)[self.which].T
        return press, lift

    @property
    def source(self) -> str:
        """Where the coefficients come from."""
        return WIND if self.share == WHOLE else f"{WIND}, at the share of the pressure given"


_table = cache(component_coefficients)


def edge(rack: Rack, tilt: float) -> float:
    """Width of the edge zone of the rack's panels [m]."""
    least = min(rack.panels.spread, rack.panels.chord * math.cos(tilt))
    return edge_width(least, wind_height(rack, Slope(tilt)))


def local_wind(now: Situation) -> LocalWind:
    """Work out local wind pressure, dead factor and flow of every case."""
    table, site, tilt = now.table, now.rack.site, now.block.frame.ideal.tilt
    wind = np.array([c.wind for c in table.combinations])[now.case]
    fixed = np.array(
        [max(abs(v) for _, v in w.coefficients) if w and w.fixed else 0.0 for w in table.winds]
    )[now.case]
    height = wind_height(now.rack, Slope(tilt))
    profile = exposure_factor(height, site.exposure, component=True) / exposure_factor(
        height, site.exposure
    )
    q = now.pressure * profile * DIRECTIONALITY * GUST_EFFECT
    flow = [w.flow if w and not w.fixed else "" for w in table.winds]
    flows = tuple(dict.fromkeys(flow))
    return LocalWind(
        pressure=wind * np.where(fixed > 0, fixed, q),
        dead=np.array([c.dead for c in table.combinations])[now.case],
        flows=flows,
        which=np.array([flows.index(f) for f in flow])[now.case],
        share=now.block.frame.wind_share,
    )
