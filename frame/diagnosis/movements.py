"""Each movement in its shares: what the fitted rack owes to pipe, play, ground and the rest.

Elastic shares are by virtual work: a movement is homogeneous of degree -1 in the stiffnesses, so
that its derivatives by their logarithms, with the sign turned, add up to it (Euler's theorem; what
the second order adds is shared out alike).
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from frame.diagnosis.fit import Fit, values_at
from frame.diagnosis.forward import Moved
from frame.diagnosis.predict import stiffness_of
from frame.diagnosis.stiffness import BEAM, GROUND, GUYS, PARTS, POST, SLEEVE, Stiffness, tube_of
from frame.diagnosis.unknowns import (
    BEAM_WALL,
    GUY_GIVE,
    LEAN_ALONG,
    POST_WALL,
    REST,
    SKEW,
    TURN,
)
from frame.diagnosis.unknowns import BOW as BOW_AT
from frame.diagnosis.unknowns import GROUND as GROUND_FACTOR
from frame.diagnosis.unknowns import SLEEVE as SLEEVE_FACTOR

FloatArray = npt.NDArray[np.float64]
DROOP, SWAY, SWING = "droop", "sway", "swing"
PLAY, BOW, LEAN, LOCK, REMAINDER = "play", "bow", "lean", "lock", "rest"
DRAWS = 2000
NUDGE = 1.01
"""Factor on a stiffness for the derivative of a movement."""
HARDLY = 1e-3
"""Movement [m] that is always normal (judgement)."""
ABNORMAL = 1.5
"""How much more than the high end of what is normal needs a cause of its own (judgement)."""
NAMED = 0.75
"""Least chance with which a cause is named (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What a movement owes to a part: most likely `size` [m], `low` to `high` in 19 of 20.

    `normal` [m]: what such a rack owes to it where it is as its file says and well made.
    """

    part: str
    size: float
    low: float
    high: float
    normal: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MovementFound:
    """A movement `kind`, at the beam end of `side` for droop (0 left, 1 right).

    `size` [m] as fitted, `surely` no less than the low end of its band; `normal` 10, 50 and 90 %
    [m] of a well-made rack of its kind; `limit` [m] of the file, 0 where it has none. `causes`:
    chance of each part to be the cause, largest first; `read`: whether a reading tells of it.
    """

    kind: str
    side: int
    size: float
    surely: float
    normal: tuple[float, float, float]
    limit: float
    shares: tuple[Share, ...]
    causes: tuple[tuple[str, float], ...]
    read: bool

    @property
    def beyond_normal(self) -> float:
        """How far it is surely beyond what is normal, over that: over 1 is not normal [1]."""
        return self.surely / max(self.normal[2], HARDLY)

    @property
    def cause(self) -> str | None:
        """The part that is the cause, None where the readings can't tell."""
        part, chance = self.causes[0]
        return part if chance >= NAMED else None


TELLING = {
    DROOP: ("droop_left", "droop_right", "unloaded_left", "unloaded_right"),
    SWAY: ("top_moved", "shakes"),
    SWING: ("end_moved", "end_stayed"),
}
"""Readings that tell of each movement."""


def movements(found: Fit) -> tuple[MovementFound, ...]:
    """Tell the droop of the worse beam end, the sway under the pull, the swing under the push."""
    yard = found.yard
    drops = [abs(yard.droop(side, loaded=True)) for side in (0, 1)]
    side = int(drops[1] > drops[0] + 1e-9)
    kinds = [(DROOP, side), (SWAY, 0), (SWING, 1)][: 3 if yard.single else 2]
    return tuple(_movement(found, kind, side) for kind, side in kinds)


def chief(told: Sequence[MovementFound]) -> MovementFound:
    """Return the movement that is asked about: of those read the one most out of what is normal.

    Where all are normal, the droop.
    """
    read = [m for m in told if m.read] or list(told)
    worst = max(read, key=lambda m: m.beyond_normal)
    return worst if worst.beyond_normal > 1 else next((m for m in read if m.kind == DROOP), worst)


Elastic = Callable[[Moved], float]
Plain = dict[str, tuple[tuple[str, float], ...]]
"""Shares that are sums of unknowns times a length or angle: by part, keys and those factors."""


def _terms(found: Fit, kind: str, side: int) -> tuple[Elastic, Plain]:
    """Return how a movement follows from the frame, and from unknowns by themselves."""
    measured, rack = found.forward.measured, found.forward.rack
    if kind == SWAY:
        return lambda m: measured.pull * m.pulled, {}
    if kind == SWING:
        return lambda m: measured.push * m.pushed, {LOCK: ((TURN, rack.arms[1]),)}
    sign = (1.0, -1.0)[side]
    tilted = sign * rack.arms[side] * found.yard.single
    plain: Plain = {
        PLAY: ((REST, tilted),),
        BOW: ((BOW_AT, 1.0), (SKEW, sign)),
        LEAN: ((LEAN_ALONG, tilted),),
    }
    return lambda m: m.droop[side], plain


def _movement(found: Fit, kind: str, side: int) -> MovementFound:
    elastic, plain = _terms(found, kind, side)
    rack = found.forward.rack
    limit = rack.arms[side] * rack.limits.sag_per_arm if kind == DROOP else 0.0
    here = shares_of(found, found.place, elastic)
    names = [*here, *plain]
    parts = _sizes(found, found.draws(DRAWS), here, found.values, plain)
    prior = np.zeros(len(found.place))
    before = shares_of(found, prior, elastic)
    rng = np.random.default_rng(10)
    draws = rng.standard_normal((DRAWS, len(prior)))
    values = values_at(found.unknowns, prior)
    made_well = _sizes(found, draws, before, values, {}).sum(axis=1)
    low, middle, high = (float(x) for x in np.quantile(np.abs(made_well), (0.1, 0.5, 0.9)))
    normal = {name: before.get(name, 0.0) for name in names}
    sizes = _sizes(found, found.place[None], here, found.values, plain)[0]
    return MovementFound(
        kind=kind,
        side=side,
        size=float(sizes.sum()),
        surely=float(np.quantile(np.abs(parts.sum(axis=1)), 0.025)),
        normal=(low, middle, high),
        limit=limit,
        shares=tuple(
            Share(
                part=name,
                size=float(sizes[i]),
                low=float(np.quantile(parts[:, i], 0.025)),
                high=float(np.quantile(parts[:, i], 0.975)),
                normal=normal[name],
            )
            for i, name in enumerate(names)
        ),
        causes=_causes(names, parts, np.array([normal[n] for n in names]), high),
        read=any(r.key in TELLING[kind] for r in found.readings),
    )


def _causes(
    names: Sequence[str], parts: FloatArray, normal: FloatArray, high: float
) -> tuple[tuple[str, float], ...]:
    """Chance of each part to be the cause, by draws (n, parts) of its share.

    The cause is the part with the largest excess over what is normal where the whole is much
    more than that, else the largest part.
    """
    whole = parts.sum(axis=1, keepdims=True)
    sign = np.where(whole < 0, -1.0, 1.0)
    against = np.where(np.abs(whole) > ABNORMAL * high, normal, 0.0)
    most = np.argmax(sign * parts - against, axis=1)
    chances = np.bincount(most, minlength=len(names)) / len(parts)
    ranked = sorted(zip(names, map(float, chances), strict=True), key=lambda c: -c[1])
    return tuple(ranked)


def cause_contrast(found: Fit, movement: MovementFound) -> FloatArray:
    """Gradient (k,) [m] of what it owes more to its likeliest cause than to the next."""
    kind, side = movement.kind, movement.side
    elastic, plain = _terms(found, kind, side)
    here = shares_of(found, found.place, elastic)
    names = [*here, *plain]
    first, second = (names.index(name) for name, _ in movement.causes[:2])
    places = np.vstack([found.place, found.place + 0.1 * np.eye(len(found.place))])
    sizes = _sizes(found, places, here, found.values, plain)
    difference = sizes[:, first] - sizes[:, second]
    gradient: FloatArray = (difference[1:] - difference[0]) / 0.1
    return gradient


def shares_of(found: Fit, place: FloatArray, elastic: Elastic) -> dict[str, float]:
    """Elastic share of every group of the frame [m] at a place of the unknowns."""
    forward, at = found.forward, stiffness_of(values_at(found.unknowns, place))
    whole = elastic(forward.moved(at))
    shares = {}
    for part in PARTS:
        ends = (_nudged(at, part, factor) for factor in (NUDGE, 1 / NUDGE))
        stiff, soft = (elastic(forward.moved(end)) for end in ends)
        shares[part] = -(stiff - soft) / (2 * math.log(NUDGE))
    shares[REMAINDER] = whole - sum(shares.values())
    if forward.rack.bracing_names and forward.measured.fitted:
        return shares
    some = sum(shares[p] for p in PARTS)
    spread = whole / some if abs(some) > 1e-9 else 1.0
    return {part: shares[part] * spread for part in PARTS if part != GUYS}


def _nudged(at: Stiffness, part: str, factor: float) -> Stiffness:
    return replace(at, more=((part, factor),))


def _sizes(
    found: Fit,
    draws: FloatArray,
    elastic: dict[str, float],
    values: dict[str, float],
    plain: Plain,
) -> FloatArray:
    """Size of every share (n, shares) [m] at places (n, k); elastic ones go with 1 / stiffness.

    `elastic` is told where the unknowns have `values`.
    """
    columns = []
    for part, size in elastic.items():
        columns.append(size / _stiffer(found, draws, part, values))
    for terms in plain.values():
        column = np.zeros(len(draws))
        for key, times in terms:
            i = found.index(key)
            unknown = found.unknowns[i]
            column += times * (unknown.middle + unknown.spread * draws[:, i])
        columns.append(column)
    return np.stack(columns, axis=1)


def _stiffer(found: Fit, draws: FloatArray, part: str, values: dict[str, float]) -> FloatArray:
    """Stiffness of a group (n,) at places (n, k), over that at `values`."""
    keys = {
        GROUND: GROUND_FACTOR,
        SLEEVE: SLEEVE_FACTOR,
        BEAM: BEAM_WALL,
        POST: POST_WALL,
        GUYS: GUY_GIVE,
    }
    names = [u.key for u in found.unknowns]
    key = keys.get(part, "")
    if key not in names:
        return np.ones(len(draws))
    i = names.index(key)
    unknown = found.unknowns[i]
    ratio: FloatArray = np.exp(unknown.middle + unknown.spread * draws[:, i]) / values[key]
    if part not in (BEAM, POST):
        return ratio
    rack = found.forward.rack
    pipe = rack.beam.pipe if part == BEAM else rack.posts.pipe
    here = tube_of(pipe, values[key]).second_moment
    ends = [tube_of(pipe, values[key] * f).second_moment / here for f in (1.05, 1 / 1.05)]
    power = math.log(ends[0] / ends[1]) / (2 * math.log(1.05))
    raised: FloatArray = ratio**power
    return raised
