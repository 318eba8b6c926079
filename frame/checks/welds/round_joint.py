"""A round branch welded to a round chord: sizes, loads, limits of AISC 360-22 K3 and K4."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.checks.check import Numbers
from frame.units import KSI

MOST_YIELD = 52 * KSI
"""Yield stress beyond which the tables do not hold [Pa]."""
STRONG_SHARE = 0.9
"""Share of a higher yield counted on, EN 1993-1-8 7.1.1 (from memory of the standard)."""
SQUARE = 1 - 1e-9
"""Least sine of the angle at which a branch counts as square to its chord."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundJoint:
    """A branch welded to a chord at `angle` between their axes [rad].

    Diameters and walls are those counted on (design wall) [m]. `chord_yield`, `chord_tensile` and
    `branch_yield` [Pa] as counted beside a weld: no more than 35 ksi for steel of unknown make.
    `to_end` is the clear distance from the branch to the open end of the chord [m]. `crossed`:
    another branch pushes from the other side at the same place, so the lesser of the T and the
    cross joint counts.
    """

    chord_od: Numbers
    chord_wall: Numbers
    branch_od: Numbers
    branch_wall: Numbers
    chord_yield: Numbers
    chord_tensile: Numbers
    branch_yield: Numbers
    angle: Numbers = np.pi / 2
    to_end: Numbers = np.inf
    crossed: bool = False

    @property
    def counted(self) -> Numbers:
        """Branch diameter counted on [m]: no more than the chord's."""
        return np.minimum(self.branch_od, self.chord_od)

    @property
    def beta(self) -> Numbers:
        """Branch over chord diameter [1], as counted."""
        return self.counted / self.chord_od

    @property
    def wide(self) -> npt.NDArray[np.bool_]:
        """Whether the branch is wider than the chord."""
        return np.asarray(self.branch_od > self.chord_od)

    @property
    def gamma(self) -> Numbers:
        """Chord radius over its wall [1]."""
        return self.chord_od / (2 * self.chord_wall)


@dataclass(frozen=True, slots=True, kw_only=True)
class BranchLoads:
    """What the branch brings: `axial` [N], moments in and out of the joint's plane [N m].

    `chord_stress` is the chord's own compressive stress at the joint, axial and bending together
    [Pa], the larger side; tension counts as nil.
    """

    axial: Numbers
    in_plane: Numbers
    out_of_plane: Numbers
    chord_stress: Numbers = 0.0


def out_of_plane(moment: Numbers, torque: Numbers, angle: Numbers) -> Numbers:
    """Moment of a branch out of the joint's plane [N m] that bends the chord's wall as both do.

    `moment` out of the plane and `torque` about the branch's own axis [N m], `angle` between the
    axes [rad]. What bends the wall is their part about the chord's own axis, M sin + T cos
    (statics), of which Table K4.1 knows M sin. The rest of the torque turns the branch on the spot
    and shears the wall round its foot, as the metal beside its weld is checked for. Both count as
    turning the same way (safe side; square to the chord the torque is no part of it).
    """
    return np.abs(moment) + np.abs(torque) / np.tan(angle)


def yield_in_tables(yield_stress: Numbers) -> Numbers:
    """Yield stress [Pa] counted on in the tables of walls: no more than steel of 52 ksi has.

    Stronger pipe, as well casing, is no weaker than that: nine tenths of its own yield, 52 ksi at
    most (judgement; EN 1993-1-8 and 1993-1-12 take 0.9 to 0.8 of what the tables give without a
    limit, from memory).
    """
    strong = np.minimum(np.multiply(STRONG_SHARE, yield_stress), MOST_YIELD)
    return np.where(np.greater(yield_stress, MOST_YIELD), strong, yield_stress)


def covered(joint: RoundJoint, young: float = 200e9) -> npt.NDArray[np.bool_]:
    """Whether the joint lies within Tables K3.1A and K4.1A (from memory of the standard).

    30 deg <= angle <= 90 deg; 0.2 < Db/D, above 1 only square to the chord (judgement); D/t <= 50;
    Db/tb <= 50 and <= 0.05 E/Fyb; Fy of the chord <= 52 ksi (a stronger branch spoils nothing:
    judgement); Fy/Fu <= 0.8; distance to the chord's end >= D (1.25 - beta/2).
    """
    slim = joint.branch_od / joint.branch_wall
    inside = (
        (np.sin(joint.angle) >= 0.5 * (1 - 1e-9)),
        (joint.beta > 0.2),
        (~joint.wide | (np.sin(joint.angle) >= SQUARE)),
        (2 * joint.gamma <= 50),
        (slim <= 50),
        (slim <= 0.05 * young / joint.branch_yield),
        np.less_equal(joint.chord_yield, MOST_YIELD),
        (joint.chord_yield <= 0.8 * joint.chord_tensile),
        (joint.to_end >= joint.chord_od * (1.25 - joint.beta / 2)),
    )
    all_hold: npt.NDArray[np.bool_] = np.logical_and.reduce(np.broadcast_arrays(*inside))
    return all_hold
