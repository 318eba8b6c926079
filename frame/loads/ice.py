"""Freezing rain on guys and pipes, and the wind on them, ASCE/SEI 7-22 chapter 10."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from frame.loads.cases import ACROSS, ALONG, ActionCase, WindCase
from frame.loads.combinations import Combination
from frame.named.load_kind import LoadKind
from frame.units import PCF

Numbers = float | npt.NDArray[np.float64]

ICE = 56 * PCF
"""Weight of glaze ice [N/m3], ASCE/SEI 7-22 10.4.1 (from memory of the standard)."""
ICE_LOAD = "ice"
ICED_DRAG = {ACROSS: "drag across, iced", ALONG: "drag along, iced"}
"""Unit load of the drag on iced parts, by that on bare ones."""
SHARE = 0.7
ASD_ICE_AND_WIND = (
    Combination(
        name="D + 0.7Di + 0.7Wi + S",
        words="weight, ice, snow, and the wind that comes with ice",
        dead=1.0,
        wind=SHARE,
        kind=LoadKind.ICE_AND_SNOW,
        other=SHARE,
    ),
    Combination(
        name="0.6D + 0.7Di + 0.7Wi",
        words="ice and the wind that comes with it, six tenths of the weight",
        dead=0.6,
        wind=SHARE,
        kind=LoadKind.ICE,
        other=SHARE,
    ),
)
"""Combinations 3 and 7 of ASCE/SEI 7-22 2.4.1 as 2.4.3 changes them (from memory of the standard).

Snow counts whole there; should that edition mean its own strength-level snow, 0.7 S would do.
"""


def ice_cases(snows: Sequence[ActionCase]) -> tuple[ActionCase, ...]:
    """Ice all over, and the same with each way that snow lies on it, if it snows at all.

    The unit load "ice" is the whole ice. Snow is put up by 1 / 0.7, since these combinations take
    it whole beside 0.7 of the ice.
    """
    all_over = ((ICE_LOAD, 1.0),)
    ice = ActionCase(name="ice", words="ice all over", kind=LoadKind.ICE, factors=all_over)
    both = tuple(
        ActionCase(
            name=f"ice, {snow.name}",
            words=f"ice all over, {snow.words}",
            kind=LoadKind.ICE_AND_SNOW,
            factors=(*ice.factors, *((name, value / SHARE) for name, value in snow.factors)),
        )
        for snow in snows
    )
    return (ice, *(both or (replace(ice, kind=LoadKind.ICE_AND_SNOW),)))


def iced(winds: Sequence[WindCase]) -> tuple[WindCase, ...]:
    """Return the same winds, striking pipes, rails and edges that ice has made thicker."""
    return tuple(
        replace(w, coefficients=tuple((ICED_DRAG.get(n, n), v) for n, v in w.coefficients))
        for w in winds
    )


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
