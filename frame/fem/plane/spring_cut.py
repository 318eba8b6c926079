"""Where a rotational spring is cut into the member of a plane frame that ends at it."""

from dataclasses import dataclass

import numpy as np

from frame.fem.plane.diagram import Loads
from frame.fem.plane.model import BEAM, TRUSS, Array, PlaneFrame

SPRING_LENGTH = 1 / 1024
"""Length [m] of the short element that stands for a rotational spring, about its place.

It ends half its length past that place, whence a rigid element comes back: so the spring turns by
the moment there, not near it. A shear there shifts it too, by the square of this
length; much shorter, and single precision of the places would tell.
"""


@dataclass(frozen=True)
class SpringCut:
    """How a spring between nodes `low` and `high` is cut into the member that ends at `low`."""

    low: int
    high: int
    member: int
    k: float
    below: tuple[float, float]
    above: tuple[float, float]


def single_length(
    first: tuple[float, float] | Array, second: tuple[float, float] | Array
) -> float:
    """Find the length of an element as anastruct's single-precision vertices have it [m]."""
    ends = np.asarray(first, dtype=np.float32), np.asarray(second, dtype=np.float32)
    return float(np.linalg.norm(ends[1].astype(float) - ends[0].astype(float)))


def plain_point(at: Array) -> tuple[float, float]:
    """Return a place as a pair of plain floats."""
    return float(at[0]), float(at[1])


def cut_spring(frame: PlaneFrame, ends: tuple[int, int], k: float) -> SpringCut:
    """Cut a spring into the one beam that ends at one of its nodes."""
    for low, high in (ends, ends[::-1]):
        found = [i for i, m in enumerate(frame.members) if low in m.ends and m.kind != TRUSS]
        if len(found) == 1 and frame.members[found[0]].kind == BEAM:
            along, _ = frame.line(found[0])
            out = along * (1 if frame.members[found[0]].ends[1] == low else -1) * SPRING_LENGTH / 2
            at = np.array(frame.nodes[low].at)
            return SpringCut(low, high, found[0], k, plain_point(at - out), plain_point(at + out))
    names = " and ".join(frame.nodes[i].name for i in ends)
    raise ValueError(f"spring between {names}: neither ends just one beam")


def onto_springs(springs: tuple[SpringCut, ...], loads: Loads) -> Array:
    """Return node loads (n, 3) with forces on a spring's low node put on its high one.

    Moments stay below; the spring also bears what load the piece cut out of the member had.
    """
    total = loads.nodes.copy()
    for spring in springs:
        total[spring.high, :2] += (
            total[spring.low, :2] + SPRING_LENGTH / 2 * loads.members[spring.member]
        )
        total[spring.low, :2] = 0.0
    return total
