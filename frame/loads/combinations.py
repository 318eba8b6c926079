"""How loads are combined: factors on dead load, wind and one other action.

Allowable stress design for the code's margin; the whole wind for what lets go.
"""

from dataclasses import dataclass

from frame.named.load_kind import LoadKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Combination:
    """Factors on dead load, wind and one other action of a `kind` (see ActionCase).

    `code` is False for the whole wind, which has no code's margin.
    """

    name: str
    words: str
    dead: float
    wind: float
    code: bool = True
    kind: LoadKind | None = None
    other: float = 0.0


WEIGHT_ONLY = Combination(name="D", words="weight only, no wind", dead=1.0, wind=0.0)
LEANING = Combination(
    name="D", words="weight only, no wind", dead=1.0, wind=0.0, kind=LoadKind.LEANING, other=1.0
)
"""Weight on a rack set a little out of plumb; the level push comes as an action."""
ASD = (
    LEANING,
    Combination(name="D + 0.6W", words="weight and the code's wind", dead=1.0, wind=0.6),
    Combination(
        name="0.6D + 0.6W",
        words="the code's wind, only six tenths of the weight holding it down",
        dead=0.6,
        wind=0.6,
    ),
)
"""Combinations 1, 5 and 7 of ASCE/SEI 7-22 2.4.1, those with dead load and wind alone."""
ASD_WINDY = tuple(c for c in ASD if c.wind)
"""Those with wind."""
ASD_SNOW = (
    Combination(
        name="D + 0.7S", words="weight and snow", dead=1.0, wind=0.0, kind=LoadKind.SNOW, other=0.7
    ),
    Combination(
        name="D + 0.75(0.6W) + 0.75(0.7S)",
        words="weight, three quarters of the code's wind and of the snow",
        dead=1.0,
        wind=0.45,
        kind=LoadKind.SNOW,
        other=0.525,
    ),
)
"""Combinations 3 and 6 of ASCE/SEI 7-22 2.4.1 with the strength-level snow of that edition."""
SNOW_AND_WIND = tuple(c for c in ASD_SNOW if c.wind)
ASD_WORKER = (
    Combination(
        name="D + Lr",
        words="weight and a worker",
        dead=1.0,
        wind=0.0,
        kind=LoadKind.WORKER,
        other=1.0,
    ),
)
"""Combination 3 of ASCE/SEI 7-22 2.4.1; nobody works on the rack in a storm."""
ASD_ICE = (
    Combination(
        name="D + 0.7Di", words="weight and ice", dead=1.0, wind=0.0, kind=LoadKind.ICE, other=0.7
    ),
)
"""ASCE/SEI 7-22 2.4.3 (from memory of the standard) without wind, see `ASD_ICE_AND_WIND`."""
WHOLE_WIND = (
    Combination(name="D + W", words="weight and the whole wind", dead=1.0, wind=1.0, code=False),
    Combination(
        name="0.6D + W",
        words="the whole wind, only six tenths of the weight holding it down",
        dead=0.6,
        wind=1.0,
        code=False,
    ),
)
