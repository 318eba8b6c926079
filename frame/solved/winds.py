"""Winds on a rack at one tilt, and its weights where it leans a little."""

from dataclasses import replace

from frame.fem.response import Response
from frame.idealize.actions import PUSHES, strip_windows, wind_height
from frame.idealize.deck import Slope
from frame.loads.cases import DEAD, ActionCase, WindCase, pressure_cases, wind_cases
from frame.loads.uneven import CODED, Unevenness
from frame.loads.wording import CLEAR
from frame.named.load_kind import LoadKind
from frame.rack.rack import Rack

NOTIONAL = 0.002
"""Level push per weight of a rack set a little out of plumb, AISC 360-22 C2.2b."""


def winds(
    rack: Rack,
    tilt: float,
    map_pressure: float,
    uneven: Unevenness = CODED,
    *,
    expected: bool = False,
) -> tuple[WindCase, ...]:
    """Every wind on a rack at a `tilt` [rad]: of the standard, or of the pressure in its place.

    A given pressure belongs to the site's map gust, whose velocity pressure is `map_pressure`
    [Pa], and grows with the square of the gust. Where the file leaves open whether air passes
    under the panels, it is `expected` to.
    """
    site = rack.site
    if site.pressure > 0:
        given = pressure_cases(site.pressure / map_pressure, "given", uneven)
        return tuple(replace(w, fixed=False) for w in given)
    windows = strip_windows(rack, wind_height(rack, Slope(tilt)))
    flows = (CLEAR,) if expected and CLEAR in site.flow else site.flow
    return wind_cases(tilt, flows, len(windows) // 2, uneven)


def leaning(response: Response) -> tuple[ActionCase, ...]:
    """Weights on a rack that leans a little: 0.002 of them as a level push, each way."""
    index = response.model.load_index
    weight = sum(response.reactions[index[name], :, 2].sum() for name in DEAD)
    push = float(NOTIONAL * weight)
    return tuple(
        ActionCase(
            name=f"leaning {way}",
            words=f"leaning {way} the beam",
            kind=LoadKind.LEANING,
            factors=((name, push),),
        )
        for name, way in zip(PUSHES, ("along", "across"), strict=True)
    )
