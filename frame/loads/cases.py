"""Load cases as short vectors of factors over unit loads.

Left is x < 0, right x > 0, seen standing in front of the low edge; wind "from the left" blows
towards +x. Unit loads of the panels are 1 Pa pressing on the top face.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.loads.combinations import Combination
from frame.loads.given import WHOLE, WindShare
from frame.loads.uneven import CODED, Unevenness
from frame.loads.wind import (
    DIRECTIONALITY,
    GUST_EFFECT,
    Pair,
    along_beam_coefficients,
    monoslope_coefficients,
)
from frame.loads.wording import BACK, EVEN, FRONT, LEFT, RIGHT, join, wind_name, wind_words
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
    `fixed`, they are pressures [Pa] that do not grow with the gust, the same on every part.
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
    tilt: float,
    flows: Sequence[str],
    strips: int,
    uneven: Unevenness = CODED,
    share: WindShare = WHOLE,
) -> tuple[WindCase, ...]:
    """Every wind of the standard at one tilt [rad]: 16 cases for each flow.

    `flows`: "clear", "obstructed" or both. `strips`: 1 to 3, how many of the strips 0-h, h-2h,
    beyond 2h the panels' spread reaches. `uneven`: how unevenly the gusts strike; `share`: of the
    standard's size. Wind from a quarter is not run: the figures of 27.3.2 have it square to the
    beam and along it only; the gust on one half of the panels stands for it (judgement).
    """
    cases = []
    for flow in flows:
        for direction in (FRONT, BACK):
            for case in "AB":
                pair = monoslope_coefficients(tilt, direction, case, flow)
                cases += [_across(direction, case, flow, s, pair, uneven, share) for s in SIDES]
        cases += [
            _along(direction, case, flow, strips, share)
            for direction in (LEFT, RIGHT)
            for case in "AB"
        ]
    return tuple(cases)


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
    pair: Pair,
    uneven: Unevenness,
    share: WindShare,
) -> WindCase:
    windward, leeward = uneven.pair((share.counted(pair[0]), share.counted(pair[1])), case)
    lower, upper = (windward, leeward) if direction == FRONT else (leeward, windward)
    factor = DIRECTIONALITY * GUST_EFFECT
    drag = factor * share.at(sum(pair))
    return WindCase(
        name=wind_name(direction, case, side, flow),
        words=wind_words(direction, case, side, flow),
        direction=direction,
        case=case,
        flow=flow,
        side=side,
        coefficients=(
            *_quarters(factor * lower, factor * upper, uneven.shares(side)),
            (ACROSS, drag if direction == FRONT else -drag),
        ),
    )


def _along(direction: str, case: str, flow: str, strips: int, share: WindShare) -> WindCase:
    factor = DIRECTIONALITY * GUST_EFFECT
    zones = along_beam_coefficients(case, flow)[:strips]
    drag = factor * share.at(zones[0])
    return WindCase(
        name=wind_name(direction, case, EVEN, flow),
        words=wind_words(direction, case, EVEN, flow),
        direction=direction,
        case=case,
        flow=flow,
        side=EVEN,
        coefficients=(
            *(
                (f"strip {i} from {direction}", factor * share.counted(c))
                for i, c in enumerate(zones, start=1)
            ),
            (ALONG, drag if direction == LEFT else -drag),
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
