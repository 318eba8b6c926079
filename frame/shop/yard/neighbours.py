"""Several racks: do they reach each other when turned, do their guys cross or stand in the way."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import product

import numpy as np

from frame.rack.rack import Rack
from frame.shop.yard.lines import GuyLine
from frame.units import FT, INCH

ROOM = FT
"""Room kept between what turns, and round guys [m] (judgement)."""
CROSSING = 6 * INCH
"""Guys nearer than this to one another are said to cross [m] (judgement)."""
STEP = INCH
POINTS = 61


@dataclass(frozen=True, slots=True, kw_only=True)
class Neighbours:
    """Racks side by side along the beam or one behind the other, post to post [m].

    `turning`: radius that the rack sweeps about its post, 0 on several posts, which do not turn;
    `beside`, `behind`: least distances at which nothing is in the way; `given`: as asked for, and
    `faults`: what is wrong at that.
    """

    turning: float
    beside: float
    behind: float
    given: tuple[float, float] | None = None
    faults: tuple[str, ...] = ()


def reach(rack: Rack) -> tuple[float, float]:
    """Half of what the rack covers along its beam and across it, over all its tilts [m]."""
    along = max(rack.beam.length, rack.panels.spread) / 2
    half = max(rack.panels.chord, rack.rails.length) / 2
    off = rack.stand_off + rack.rails.channel.depth / 2 + rack.panels.thickness
    across = max(half * math.cos(t) + off * math.sin(t) for t in rack.tilts)
    return along, across


def lowest_edge(rack: Rack) -> float:
    """Height of the lowest corner of rails and panels over all tilts [m]."""
    half = max(rack.panels.chord, rack.rails.length) / 2
    return min(
        rack.posts.height + rack.stand_off * math.cos(t) - half * math.sin(t) for t in rack.tilts
    )


def neighbours(
    rack: Rack, lines: tuple[GuyLine, ...], given: tuple[float, float] | None
) -> Neighbours:
    """Look at two equal racks; `given` is how far the second stands along and behind [m]."""
    one = len(rack.posts.positions) == 1
    turning = math.hypot(*reach(rack)) if one else 0.0

    def wrong(along: float, behind: float) -> tuple[str, ...]:
        return faults(rack, lines, turning, np.array([along, behind, 0.0]))

    return Neighbours(
        turning=turning,
        beside=_least(rack, lines, lambda d: wrong(d, 0.0)),
        behind=_least(rack, lines, lambda d: wrong(0.0, d)),
        given=given,
        faults=wrong(*given) if given else (),
    )


def _least(
    rack: Rack, lines: tuple[GuyLine, ...], wrong: Callable[[float], tuple[str, ...]]
) -> float:
    """Return the least distance from which on nothing is wrong any more [m]."""
    far = [float(np.abs(line.anchor[:2]).max()) for line in lines]
    start = 2 * max(*reach(rack), math.hypot(*reach(rack)), *far, 0.0) + 2 * ROOM
    steps = math.ceil(start / STEP)
    bad = next((n for n in range(steps, 0, -1) if wrong(n * STEP)), 0)
    return (bad + 1) * STEP


def faults(
    rack: Rack, lines: tuple[GuyLine, ...], turning: float, away: np.ndarray
) -> tuple[str, ...]:
    """Say what two racks do to each other, the second `away` from the first [m]."""
    found = []
    apart = float(np.hypot(away[0], away[1]))
    along, across = reach(rack)
    if turning and apart < 2 * turning + ROOM:
        found.append("they reach each other when turned")
    elif not turning and abs(away[0]) < 2 * along + ROOM and abs(away[1]) < 2 * across + ROOM:
        found.append("the panels of one are in the way of the other's")
    here = [(line.eye.point, line.anchor) for line in lines]
    there = [(a + away, b + away) for a, b in here]
    if any(gap(*p, *q) < CROSSING for p, q in product(here, there)):
        found.append("guys of one cross guys of the other")
    low = lowest_edge(rack) - CROSSING
    if any(_enters(p, np.zeros(3), turning, low) for p in there) or any(
        _enters(p, away, turning, low) for p in here
    ):
        found.append("guys of one stand where the other's panels turn")
    return tuple(found)


def _enters(
    line: tuple[np.ndarray, np.ndarray], post: np.ndarray, turning: float, low: float
) -> bool:
    """Whether a guy comes into the circle of another rack's panels, at their height."""
    part = np.linspace(0.0, 1.0, POINTS)[:, None]
    points = line[0] + part * (line[1] - line[0])
    inside = np.hypot(points[:, 0] - post[0], points[:, 1] - post[1]) < turning + CROSSING
    return bool(np.any(inside & (points[:, 2] > low)))


def gap(a: np.ndarray, b: np.ndarray, c: np.ndarray, d: np.ndarray) -> float:
    """Least distance between two straight pieces, from a to b and from c to d [m].

    Exact: the nearest points of the two lines, held to the pieces, each in turn (Ericson,
    Real-Time Collision Detection, 5.1.9; from memory).
    """
    u, v, w = b - a, d - c, a - c
    uu, vv, uv, uw, vw = u @ u, v @ v, u @ v, u @ w, v @ w
    denominator = uu * vv - uv * uv
    s = np.clip((uv * vw - uw * vv) / denominator, 0, 1) if denominator > 1e-12 * uu * vv else 0.0
    t = (uv * s + vw) / vv
    if not 0 <= t <= 1:
        t = np.clip(t, 0, 1)
        s = np.clip((uv * t - uw) / uu, 0, 1)
    return float(np.linalg.norm(w + s * u - t * v))
