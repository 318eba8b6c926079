"""Freezing rain on guys and pipes, ASCE/SEI 7-22 chapter 10."""

import numpy as np
import numpy.typing as npt

from frame.units import PCF

Numbers = float | npt.NDArray[np.float64]

ICE = 56 * PCF
"""Weight of glaze ice [N/m3], ASCE/SEI 7-22 10.4.1 (from memory of the standard)."""


def design_thickness(nominal: float, height: float, hill_factor: float = 1.0) -> float:
    """Thickness td [m] at `height` [m] from the map's `nominal` t [m] of the 2022 maps.

    td = t fz Kzt^0.35, fz = (z/10 m)^0.10 up to 275 m, ASCE/SEI 7-22 Eq. 10.4-3 to 10.4-5 (from
    memory of the standard).
    """
    return nominal * float((min(height, 275.0) / 10) ** 0.10) * float(hill_factor**0.35)


def ice_weight(diameter: Numbers, thickness: Numbers) -> Numbers:
    """Weight of ice per length [N/m] all round a wire or pipe of `diameter` [m].

    pi td (D + td) times the weight of ice, ASCE/SEI 7-22 Eq. 10.4-1.
    """
    return ICE * np.pi * thickness * (np.asarray(diameter) + thickness)
