"""Snow on the panels, ASCE/SEI 7-22 chapter 7: pressures on the level area [Pa]."""

import numpy as np
import numpy.typing as npt

from frame.loads.cases import ActionCase
from frame.loads.wording import LEFT, RIGHT
from frame.named.load_kind import LoadKind
from frame.units import PSF

Numbers = float | npt.NDArray[np.float64]

OPEN_AIR = 1.2
"""Ct of unheated and open-air structures, ASCE/SEI 7-22 Table 7.3-2."""
PARTLY_EXPOSED = 1.0
"""Ce, ASCE/SEI 7-22 Table 7.3-1; a fully exposed rack in open ground may take 0.9."""
LEAST_CAP = 30 * PSF
"""Most that the low-slope minimum asks for, risk category II, ASCE/SEI 7-22 7.3.3 (from memory of
the standard)."""
QUARTERS = tuple((half, side) for half in ("lower", "upper") for side in (LEFT, RIGHT))


def slope_factor(tilt: Numbers, *, slides: bool = False) -> Numbers:
    """Cs [1] at `tilt` [rad], Ct = 1.2, ASCE/SEI 7-22 Fig. 7.4-1 (from memory of the standard).

    `slides`: bare glass whose snow can run off the low edge and fall clear. Where it cannot, and
    by default, the curve for all other surfaces holds: the safe side.
    """
    degrees = np.degrees(tilt)
    start = 15.0 if slides else 45.0
    return np.clip((70 - degrees) / (70 - start), 0.0, 1.0)


def roof_snow(
    ground_snow: float, tilt: float, exposure: float = PARTLY_EXPOSED, *, slides: bool = False
) -> float:
    """Snow on the panels [Pa of level area] for `ground_snow` pg [Pa] of the 2022 maps.

    ps = Cs 0.7 Ce Ct pg, ASCE/SEI 7-22 Eq. 7.3-1, 7.4-1; under 15 deg at least the smaller of pg
    and 30 psf (7.3.3). pg of older editions is not strength level: with the factor 0.7 on S it
    would be too little by 1.6.
    """
    sloped = float(slope_factor(tilt, slides=slides)) * 0.7 * exposure * OPEN_AIR * ground_snow
    return max(sloped, min(ground_snow, LEAST_CAP)) if np.degrees(tilt) < 15 else sloped


def snow_cases(pressure: float) -> tuple[ActionCase, ...]:
    """Cases of snow of `pressure` ps [Pa of level area] on the quarters of the panels.

    Whole; slid to the lower half (all of it, none above: judgement); on half the beam, the other
    half bare (judgement; ASCE/SEI 7-22 7.5 leaves half on the other).
    Unit loads "snow, lower left" and so on: 1 Pa of level area, downwards.
    """
    return (
        _case("snow", "snow all over", pressure, dict.fromkeys(QUARTERS, 1.0)),
        _case(
            "snow slid down",
            "snow slid to the lower half",
            pressure,
            {q: 2.0 for q in QUARTERS if q[0] == "lower"},
        ),
        *(
            _case(
                f"snow {side}",
                f"snow on the {side} half only",
                pressure,
                {q: 1.0 for q in QUARTERS if q[1] == side},
            )
            for side in (LEFT, RIGHT)
        ),
    )


def _case(
    name: str, words: str, pressure: float, shares: dict[tuple[str, str], float]
) -> ActionCase:
    factors = tuple((f"snow, {h} {s}", pressure * share) for (h, s), share in shares.items())
    return ActionCase(name=name, words=words, kind=LoadKind.SNOW, factors=factors)
