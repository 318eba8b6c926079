"""Where the rack stands: wind, exposure, ground."""

from dataclasses import dataclass

from frame.tables.soils import Soil


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """The site.

    `map_gust` [m/s]: 3-second gust in open ground, strength level, from the code's map.
    `exposure` "B", "C" or "D"; `elevation` of the ground [m]; `hill_factor` Kzt [1]; `flow` under
    the panels: "clear", "obstructed" or "both"; `service_gust` [m/s] for sway and swing.
    """

    map_gust: float
    exposure: str
    elevation: float
    hill_factor: float
    flow: tuple[str, ...]
    service_gust: float
    soil: Soil
