"""Where the rack stands: wind, exposure, ground."""

from dataclasses import dataclass

from frame.tables.soils import Soil


@dataclass(frozen=True, slots=True, kw_only=True)
class Hill:
    """A rise of the ground and the rack's place on it.

    `shape` "ridge", "escarpment" or "hill"; `height` of the crest over the land around,
    `half_length` level from the crest to where the ground is half of that lower, `distance` of
    the rack from the crest [m].
    """

    shape: str
    height: float
    half_length: float
    distance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """The site.

    `map_gust` [m/s]: 3-second gust in open ground, strength level, from the code's map.
    `exposure` "B", "C" or "D"; `elevation` of the ground [m]; `hill_factor` Kzt [1]; `flow` under
    the panels: "clear", "obstructed" or "both"; `service_gust` [m/s] for sway and swing.
    A `hill` takes the place of `hill_factor`. `snow` on the ground [Pa] and `ice` thickness [m] of
    the code's maps, 0 for none; `pressure` [Pa] net and square to the panels, their mean at the
    map gust, to which the standard's winds are scaled, 0 where they are used as they are. `frost`:
    depth it reaches [m], 0 if not given.
    `ice_gust` [m/s]: the 3-second gust that comes with the ice, 0 where there is none.
    """

    map_gust: float
    exposure: str
    elevation: float
    hill_factor: float
    flow: tuple[str, ...]
    service_gust: float
    soil: Soil
    hill: Hill | None = None
    snow: float = 0.0
    ice: float = 0.0
    ice_gust: float = 0.0
    pressure: float = 0.0
    frost: float = 0.0
