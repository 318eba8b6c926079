"""Winds on a rack at one tilt, and its weights where it leans a little."""

from frame.fem.response import Response
from frame.idealize.actions import PUSHES, strip_windows, wind_height
from frame.idealize.deck import Slope
from frame.loads.cases import DEAD, ActionCase, WindCase, wind_cases
from frame.loads.given import WHOLE, WindShare, given_share
from frame.loads.uneven import CODED, Unevenness
from frame.loads.wording import CLEAR
from frame.named.load_kind import LoadKind
from frame.rack.rack import Rack

NOTIONAL = 0.002
"""Level push per weight of a rack set a little out of plumb, AISC 360-22 C2.2b."""


def counted_share(rack: Rack, tilt: float, map_pressure: float) -> WindShare:
    """Share of the standard's winds that counts at a `tilt` [rad]: all but where one is given.

    `map_pressure` [Pa]: velocity pressure of the site's map gust, to which a given pressure
    belongs; with the gust it grows as the standard's does. It is given for every tilt alike.
    """
    site = rack.site
    if site.pressure <= 0:
        return WHOLE
    return given_share(site.pressure, map_pressure, tilt, site.flow)


def winds(
    rack: Rack,
    tilt: float,
    map_pressure: float,
    uneven: Unevenness = CODED,
    *,
    expected: bool = False,
) -> tuple[WindCase, ...]:
    """Every wind on a rack at a `tilt` [rad], those of the standard at their `counted_share`.

    `map_pressure` [Pa]: velocity pressure of the site's map gust. Where the file leaves open
    whether air passes under the panels, it is `expected` to.
    """
    site = rack.site
    windows = strip_windows(rack, wind_height(rack, Slope(tilt)))
    flows = (CLEAR,) if expected and CLEAR in site.flow else site.flow
    share = counted_share(rack, tilt, map_pressure)
    return wind_cases(tilt, flows, len(windows) // 2, uneven, share)


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
