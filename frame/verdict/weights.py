"""What lies on a rack beside the wind: its own weight, snow, ice, a worker."""

import math
from dataclasses import dataclass

from frame.changes.cost import beam_weight, posts_weight, rail_length, sleeves_weight
from frame.idealize.deck import Slope
from frame.idealize.surcharge import plate_ice
from frame.loads.snow import roof_snow
from frame.loads.worker import WORKER
from frame.rack.rack import Rack

CODED = "ASCE/SEI 7-22"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lying:
    """One thing that weighs on the rack: `total` [N], on panels per area too, `pressure` [Pa].

    Snow's is per level area, all else's along the slope; None where it does not lie on panels.
    `tilt` [rad] where it depends on that, else None. Whole, before any combination.
    """

    words: str
    tilt: float | None
    pressure: float | None
    total: float
    source: str


def lying(rack: Rack) -> tuple[Lying, ...]:
    """Return the rack's own weight, bare, then what its site and people add.

    Snow ps = Cs 0.7 Ce Ct pg of ASCE/SEI 7-22 Eq. 7.3-1 and 7.4-1, all over; it may lie on one
    half alone too. Of ice what the panels carry: pipes and guys carry some besides.
    """
    panels, found = rack.panels, list[Lying]()
    number = panels.across * panels.up
    own = number * panels.weight
    found.append(
        Lying(words="panels", tilt=None, pressure=own / panels.area, total=own, source="the file")
    )
    rails = rack.rails.channel.weight * rail_length(rack)
    steel = posts_weight(rack) + sleeves_weight(rack) + beam_weight(rack) + rails
    found.append(
        Lying(
            words="steel, bare, post to its foot",
            tilt=None,
            pressure=None,
            total=steel,
            source="the file's pipe and rails",
        )
    )
    for tilt in rack.tilts:
        slope = Slope(tilt)
        if rack.site.snow > 0:
            pressure = roof_snow(rack.site.snow, tilt)
            total = pressure * panels.area * math.cos(tilt)
            source = f"{CODED} Eq. 7.3-1, 7.4-1, of level area"
            found.append(
                Lying(words="snow", tilt=tilt, pressure=pressure, total=total, source=source)
            )
        if rack.site.ice > 0:
            pressure = plate_ice(rack, slope)
            found.append(
                Lying(
                    words="ice on the panels",
                    tilt=tilt,
                    pressure=pressure,
                    total=pressure * panels.area,
                    source=f"{CODED} 10.4; pipes and guys have more",
                )
            )
    source = f"{CODED} Table 4.3-1, from memory; in still air"
    found.append(
        Lying(
            words="a worker at a beam end", tilt=None, pressure=None, total=WORKER, source=source
        )
    )
    return tuple(found)
