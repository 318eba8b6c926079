"""The chain from the map gust to the force on the panels, factor by factor."""

import math
from dataclasses import dataclass

from frame.idealize.actions import wind_height
from frame.idealize.deck import Slope
from frame.idealize.surcharge import speed_up
from frame.loads.cases import QUARTER_LOADS, WindCase
from frame.loads.given import WindShare
from frame.loads.uneven import ONE_SIDED
from frame.loads.wind import (
    DIRECTIONALITY,
    GUST_EFFECT,
    elevation_factor,
    exposure_factor,
    velocity_pressure,
)
from frame.loads.wording import BACK, EVEN, FRONT
from frame.rack.rack import Rack
from frame.solved.winds import counted_share, winds


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelForce:
    """What one wind at the map gust does to all panels together, whole, before any combination.

    `low`, `high`: pressure on the half at the low and at the high edge over q Kd G [1], positive
    pressing on the top face: CN of the standard at the share that counts. `square`: force square
    to the panels [N], of which `level` along the wind and `down` [N], negative up. `about_beam`:
    moment about the beam's axis [N m], positive turning the low edge down. `at_grade`: level force
    times the height of the beam, and `about_beam` where it adds [N m], first order, all posts
    together. `swing`: moment about the post of a gust on one half [N m].
    """

    wind: WindCase
    low: float
    high: float
    square: float
    level: float
    down: float
    about_beam: float
    at_grade: float
    swing: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TiltedWind:
    """The chain at one `tilt` [rad].

    Kz `exposure`, Kzt `hill` and Ke `elevation` [1] at the mean `height` of the panels [m], the
    `pressure` q [Pa] of the map gust, without Kd, the `share` of the standard's winds that counts,
    and every wind across the beam: each case with the air below free, and blocked, as it may be.
    """

    tilt: float
    height: float
    exposure: float
    hill: float
    elevation: float
    pressure: float
    share: WindShare
    forces: tuple[PanelForce, ...]


def wind_forces(rack: Rack) -> tuple[TiltedWind, ...]:
    """Return the chain at every tilt of the rack, of winds across the beam.

    ASCE/SEI 7-22 Eq. 26.10-1 and p = qh Kd G CN of 27.3.2; with a pressure that the file gives in
    place of the standard's, `low` and `high` are CN at the share that this comes to.
    """
    return tuple(_tilted(rack, tilt) for tilt in rack.tilts)


def _tilted(rack: Rack, tilt: float) -> TiltedWind:
    site, slope = rack.site, Slope(tilt)
    height, hill = wind_height(rack, slope), speed_up(rack, slope)
    pressure = float(velocity_pressure(site.map_gust, height, site.exposure, site.elevation, hill))
    across = [
        wind
        for wind in winds(rack, tilt, pressure)
        if wind.side == EVEN and wind.direction in (FRONT, BACK)
    ]
    return TiltedWind(
        tilt=tilt,
        height=height,
        exposure=float(exposure_factor(height, site.exposure)),
        hill=hill,
        elevation=float(elevation_factor(site.elevation)),
        pressure=pressure,
        share=counted_share(rack, tilt, pressure),
        forces=tuple(_on_panels(rack, tilt, pressure, wind) for wind in across),
    )


def _on_panels(rack: Rack, tilt: float, pressure: float, wind: WindCase) -> PanelForce:
    panels, named = rack.panels, dict(wind.coefficients)
    halves = [named[name] for name in QUARTER_LOADS[::2]]
    low, high = (half / (DIRECTIONALITY * GUST_EFFECT) for half in halves)
    square = pressure * sum(halves) / 2 * panels.area
    about_beam = pressure * (halves[0] - halves[1]) / 2 * panels.area * panels.chord / 4
    level = square * math.sin(tilt)
    return PanelForce(
        wind=wind,
        low=low,
        high=high,
        square=square,
        level=level,
        down=square * math.cos(tilt),
        about_beam=about_beam,
        at_grade=level * rack.posts.height - about_beam,
        swing=abs(level) * ONE_SIDED * panels.spread,
    )
