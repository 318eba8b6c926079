"""Wind on single panels, clamps and rails: local gusts stronger than the rack's average."""

import math
from dataclasses import dataclass
from functools import cache

import numpy as np

from frame.idealize.actions import wind_height
from frame.idealize.deck import Slope
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
    on dead load [1]; `which` of the `flows`, empty for a given pressure or no wind.
    """

    pressure: FloatArray
    dead: FloatArray
    flows: tuple[str, ...]
    which: np.ndarray

    def coefficients(
        self, tilt: float, zone: str, area: float, edge: float
    ) -> tuple[FloatArray, FloatArray]:
        """CN pressing (positive) and lifting (negative) in a `zone`, (n,) each.

        Cases of a given pressure (no flow) take it as it stands, 1 and -1.
        """
        pairs = [_table(tilt, zone, area, edge, f) if f else (1.0, -1.0) for f in self.flows]
        press, lift = np.array(pairs)[self.which].T
        return press, lift


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
    )
