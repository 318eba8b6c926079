"""The wall of a round pipe under a flat lug welded along it: T, Y and cross connections.

AISC 360-22 Table K2.1, longitudinal plate, limits of Table K2.1A (from memory of the standard; EN
1993-1-8 Table 7.3 has the same axial form). Lengths m, forces N, moments N m, stresses Pa.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.checks.check import Check, Numbers, Step, demand_over
from frame.checks.welds.round_joint import MOST_YIELD
from frame.checks.welds.wall_use import OPEN_END, Shares, wall_use
from frame.named.limit_state import LimitState

SOURCE = "AISC 360-22 Table K2.1 (from memory of the standard); sideways and the sum: judgement"
MOST_SLENDER, MOST_SLENDER_CROSS = 50, 40
MOST_LONG = 4.0
"""Longest lug in diameters."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LugWall:
    """A pipe of `od` and design `wall` with a lug of `length` along it, hole `arm` off it [m].

    `yield_stress`, `tensile` [Pa] as counted beside a weld; `crossed`: another lug pulls from the
    other side at the same place; `open_end`: the lug ends where the pipe does, without a cap.
    """

    od: Numbers
    wall: Numbers
    length: Numbers
    arm: Numbers
    yield_stress: Numbers
    tensile: Numbers
    crossed: bool = False
    open_end: bool = False

    @property
    def share(self) -> float:
        """Share of the strength left [1]."""
        return OPEN_END if self.open_end else 1.0


def covered(at: LugWall) -> npt.NDArray[np.bool_]:
    """Whether Table K2.1A holds: D/t <= 50 (cross 40), lug <= 4 D, Fy <= 52 ksi, Fy/Fu <= 0.8."""
    slender = MOST_SLENDER_CROSS if at.crossed else MOST_SLENDER
    inside = (
        np.divide(at.od, at.wall) <= slender,
        np.divide(at.length, at.od) <= MOST_LONG,
        np.less_equal(at.yield_stress, MOST_YIELD),
        np.less_equal(at.yield_stress, 0.8 * np.asarray(at.tensile)),
    )
    all_hold: npt.NDArray[np.bool_] = np.logical_and.reduce(np.broadcast_arrays(*inside))
    return all_hold


@dataclass(frozen=True, slots=True)
class LugPull:
    """Force [N] at a lug's hole: `normal` to the pipe, `along` it, `side` ways out of the lug."""

    normal: Numbers
    along: Numbers
    side: Numbers


def lug_wall(
    pull: LugPull, at: LugWall, chord_stress: Numbers = 0.0, expected: Numbers | None = None
) -> Check:
    """Check the wall under a lug pulled at its hole.

    Parameters
    ----------
    pull : LugPull
        What pulls on the lug.
    at : LugWall
        Pipe and lug.
    chord_stress : float or array
        Compressive stress of the pipe at the lug [Pa], tension as nil.
    expected : float or array
        Tested over nominal strength [1]: the use is then that of the strength to expect of the
        wall and yield of `at`, without safety factors.

    Returns
    -------
    Check
        normal / P + along x arm / Mi + side x arm / Mo [1], each strength with factor 1.67.

    Notes
    -----
    P = 5.5 Fy t^2 (1 + 0.25 l / D) Qf and Mi = 0.8 l P in the lug's plane, Table K2.1. Out of it
    the table gives none: Mo = Fy t^2 l / 2 of plastic hinges along either side of the lug alone
    (a lower bound, judgement). Half of each at an open end. Added without squares (safe side).
    """
    Fy, t, D, le = at.yield_stress, at.wall, at.od, at.length
    P1 = at.share * 5.5 * Fy * np.square(t) * (1 + 0.25 * np.divide(le, D))
    I1, O1 = 0.8 * le * P1, at.share * Fy * np.square(t) * le / 2
    P, V, S = (np.abs(x) for x in (pull.normal, pull.along, pull.side))

    def together(shares: Shares) -> Numbers:
        loads = ((P, P1), (V * at.arm, I1), (S * at.arm, O1))
        total: Numbers = sum(demand_over(load, shares[0] * strength) for load, strength in loads)
        return total

    used = wall_use(together, chord_stress, Fy, expected)
    ended: tuple[Step, ...] = ()
    left = ""
    if at.open_end:
        left, ended = "o*", (Step("o", "left at an open end", "", OPEN_END, ""),)
    steps = (
        Step("D", "diameter of the pipe", "", D, "m"),
        Step("t", "its wall", "", t, "m"),
        Step("l", "length of the lug", "", le, "m"),
        Step("e", "hole to wall", "", at.arm, "m"),
        Step("Fy", "yield stress of the pipe", "", Fy, "Pa"),
        Step("P", "force square to the pipe", "", P, "N"),
        Step("V", "force along it", "", V, "N"),
        Step("S", "force out of the lug's plane", "", S, "N"),
        Step("fc", "compression in the pipe", "", np.maximum(chord_stress, 0.0), "Pa"),
        used.left_step,
        *ended,
        Step("P1", "wall yields", f"{left}5.5*Fy*t^2*(1 + 0.25*l/D)", P1, "N", "K2.1"),
        Step("I1", "same, in the lug's plane", "0.8*l*P1", I1, "N m", "K2.1"),
        Step("O1", "same, out of it", f"{left}Fy*t^2*l/2", O1, "N m", "judgement"),
        *used.share_steps,
        Step("use", "use of the wall", "P/(k*P1) + V*e/(k*I1) + S*e/(k*O1)", used.use, ""),
    )
    return Check(
        name=LimitState.CHORD_WALL,
        demand=used.demand,
        allowable=used.allowable,
        nominal=used.nominal,
        unit="",
        source=SOURCE,
        covered=covered(at),
        note="a saddle plate a third of the way round helps",
        steps=steps,
    )
