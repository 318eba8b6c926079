"""What the rack has stood: the strongest gust it has lived through, and what moved in it."""

from dataclasses import dataclass

NOTHING, TURNED, TILTED, LEANED = "nothing", "turned", "tilted", "leaned"
MOVED = (NOTHING, TURNED, TILTED, LEANED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """A gust the rack has stood: `gust` [m/s], 3 seconds at the rack, at `tilt` [rad].

    `fitted` names the bracing that was on it then (`Rack.bracing_names`), `panels_on` tells
    whether the panels hung, `moved` what gave: "nothing", "turned" (the beam on the post, or the
    post in the ground), "tilted" (the panels about the beam) or "leaned" (the post; sunk or lifted
    too).
    """

    gust: float
    tilt: float
    fitted: tuple[str, ...]
    panels_on: bool
    moved: str
