"""Load cases as short vectors of factors over unit loads.

Left is x < 0, right x > 0, seen standing in front of the low edge; wind "from the left" blows
towards +x. Unit loads of the panels are 1 Pa pressing on the top face.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.loads.combinations import Combination
from frame.loads.uneven import CODED, Unevenness
from frame.loads.wind import (
    DIRECTIONALITY,
    GUST_EFFECT,
    along_beam_coefficients,
    monoslope_coefficients,
)
from frame.loads.wording import BACK, CLEAR, EVEN, FRONT, LEFT, RIGHT, join, wind_name, wind_words
from frame.named.load_kind import LoadKind

Coefficients = tuple[tuple[str, float], ...]
DEAD = ("steel weight", "panel weight")
ACROSS, ALONG = "drag across", "drag along"
SIDES = (EVEN, LEFT, RIGHT)
QUARTER_LOADS = tuple(
    f"panels, {half} {side}" for half in ("lower", "upper") for side in (LEFT, RIGHT)
)
"""Unit loads of 1 Pa on each quarter of the panels, in the order of the frame's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WindCase:
    """One wind: `coefficients` of unit loads per Pa of velocity pressure qh (without Kd).

    They include Kd, G and CN; of the pipes' drag Kd and G only, Cf is in the unit load. Where
    `fixed`, they are pressures [Pa] that do not grow with the gust.
    """

    name: str
    words: str
    direction: str
    case: str
    flow: str
    side: str
    coefficients: Coefficients
    fixed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ActionCase:
    """One way snow, ice or a worker may lie on the rack, or the rack lean: full-size `factors`.

    `kind` says which combinations take it.
    """

    name: str
    words: str
    kind: LoadKind
    factors: Coefficients


def wind_cases(
    tilt: float, flows: Sequence[str], strips: int, uneven: Unevenness = CODED
) -> tuple[WindCase, ...]:
    """Every wind of the standard at one tilt [rad]: 16 cases for each flow.

    `flows`: "clear", "obstructed" or both. `strips`: 1 to 3, how many of the strips 0-h, h-2h,
    beyond 2h the panels' spread reaches. `uneven`: how unevenly the gusts strike.
    """
    cases = []
    for flow in flows:
        for direction in (FRONT, BACK):
            for case in "AB":
                pair = monoslope_coefficients(tilt, direction, case, flow)
                cases += [_across(direction, case, flow, side, pair, uneven) for side in SIDES]
        cases += [
            _along(direction, case, flow, strips) for direction in (LEFT, RIGHT) for case in "AB"
        ]
    return tuple(cases)


def pressure_cases(pressure: float, name: str, uneven: Unevenness = CODED) -> tuple[WindCase, ...]:
    """Return the cases of a given pressure [Pa] square to the panels, pressing and lifting.

    For a pressure given in place of a standard, and for the least pressure of ASCE/SEI 7-22
    27.1.5 (on the area seen along the wind; square to the panels its level part is the same and
    the upright part comes on top: the safe side). The pipes take it too. Even and one-sided.
    """
    return tuple(
        WindCase(
            name=wind_name(direction, name, side, CLEAR),
            words=join(wind_words(direction, "", side, CLEAR), f"{name} pressure"),
            direction=direction,
            case="",
            flow=CLEAR,
            side=side,
            coefficients=(
                *_quarters(sense * pressure, sense * pressure, uneven.shares(side)),
                (ACROSS, sense * pressure),
            ),
            fixed=True,
        )
        for direction, sense in ((FRONT, 1.0), (BACK, -1.0))
        for side in SIDES
    )


@dataclass(frozen=True)
class CaseTable:
    """Factors over the unit loads of every combination and wind.

    `labels` name the cases as the standard writes them, `words` say them plainly. `combinations`
    and `winds` (None without wind) are their parts. Factors are `steady + q per_pressure`, both
    (cases, unit loads), read-only, with q the velocity pressure [Pa].
    """

    labels: tuple[str, ...]
    words: tuple[str, ...]
    combinations: tuple[Combination, ...]
    winds: tuple[WindCase | None, ...]
    steady: npt.NDArray[np.float64]
    per_pressure: npt.NDArray[np.float64]

    def at(self, pressure: float) -> npt.NDArray[np.float64]:
        """Factors (cases, unit loads) at velocity pressure `pressure` [Pa]."""
        return self.steady + pressure * self.per_pressure


def case_table(
    combinations: Sequence[Combination],
    winds: Sequence[WindCase],
    unit_loads: Sequence[str],
    actions: Sequence[ActionCase] = (),
) -> CaseTable:
    """Cross combinations with winds and with the actions of their kind.

    A combination without wind takes no wind, one with a kind of action stays out where `actions`
    has none of it. `unit_loads`: names in the order of the columns, each once. A case on a unit
    load not listed is an error; unit loads that no case names keep factor 0.
    """
    column = {name: i for i, name in enumerate(unit_loads)}
    parts: list[tuple[Combination, WindCase | None, ActionCase | None]] = [
        (c, w, a)
        for c in combinations
        for w in (winds if c.wind else (None,))
        for a in ([a for a in actions if a.kind == c.kind] if c.kind else (None,))
    ]
    steady = np.zeros((len(parts), len(column)))
    per_pressure = np.zeros_like(steady)
    for i, (combination, wind, action) in enumerate(parts):
        for name in DEAD:
            steady[i, column[name]] = combination.dead
        if wind is not None:
            target = steady if wind.fixed else per_pressure
            for name, value in wind.coefficients:
                target[i, column[name]] += combination.wind * value
        for name, value in action.factors if action else ():
            steady[i, column[name]] += combination.other * value
    steady.setflags(write=False)
    per_pressure.setflags(write=False)
    return CaseTable(
        labels=tuple(join(c.name, *(x.name for x in (w, a) if x)) for c, w, a in parts),
        words=tuple(_words(c, w, a) for c, w, a in parts),
        combinations=tuple(c for c, _, _ in parts),
        winds=tuple(w for _, w, _ in parts),
        steady=steady,
        per_pressure=per_pressure,
    )


def _across(
    direction: str,
    case: str,
    flow: str,
    side: str,
    pair: tuple[float, float],
    uneven: Unevenness,
) -> WindCase:
    windward, leeward = uneven.pair(pair, case)
    lower, upper = (windward, leeward) if direction == FRONT else (leeward, windward)
    factor = DIRECTIONALITY * GUST_EFFECT
    return WindCase(
        name=wind_name(direction, case, side, flow),
        words=wind_words(direction, case, side, flow),
        direction=direction,
        case=case,
        flow=flow,
        side=side,
        coefficients=(
            *_quarters(factor * lower, factor * upper, uneven.shares(side)),
            (ACROSS, factor if direction == FRONT else -factor),
        ),
    )


def _along(direction: str, case: str, flow: str, strips: int) -> WindCase:
    factor = DIRECTIONALITY * GUST_EFFECT
    zones = along_beam_coefficients(case, flow)[:strips]
    return WindCase(
        name=wind_name(direction, case, EVEN, flow),
        words=wind_words(direction, case, EVEN, flow),
        direction=direction,
        case=case,
        flow=flow,
        side=EVEN,
        coefficients=(
            *((f"strip {i} from {direction}", factor * c) for i, c in enumerate(zones, start=1)),
            (ALONG, factor if direction == LEFT else -factor),
        ),
    )


def _quarters(lower: float, upper: float, shares: tuple[float, float]) -> Coefficients:
    return tuple(
        (f"panels, {half} {name}", value * share)
        for half, value in (("lower", lower), ("upper", upper))
        for name, share in zip((LEFT, RIGHT), shares, strict=True)
    )


def _words(combination: Combination, wind: WindCase | None, action: ActionCase | None) -> str:
    cause = join(*(x.words for x in (wind, action) if x))
    return f"{cause} ({combination.words})" if cause else combination.words
