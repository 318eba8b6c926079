"""The weld of a plate in the slotted end of a pipe: what a pinned brace hangs on.

Lengths m, forces N; numbers or arrays. Four fillets along the slot, one on either face of the
plate where it comes out of the pipe, on both sides. Weld as a line after Blodgett, Design of
Welded Structures, 7.4; AISC 360-22 D3 takes slots no shorter than the pipe is thick (both from
memory).
"""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Numbers, Step
from frame.checks.welds.weld import FILLET_THROAT, WeldLine


@dataclass(frozen=True, slots=True, kw_only=True)
class Tab:
    """A plate in a slot: weld `length`, `leg`, `arm` from the hole to the end of the pipe [m]."""

    length: Numbers
    arm: Numbers
    leg: Numbers
    throat: float = FILLET_THROAT


def slot_length(lug_length: float, od: float) -> float:
    """Length of a slot [m]: half a lug's, and no shorter than the pipe is thick."""
    return max(lug_length / 2, od)


def tab_line(axial: Numbers, side: Numbers, tab: Tab) -> WeldLine:
    """Force per length [N/m] of the four fillets of a tab pulled at its hole.

    `axial` along the pipe, `side` square to it, out of the plate [N], where four lines of a length
    l beside one another have S = 4 l^2 / 6, the least there is. Peaks are added.
    """
    size, away = tab.length, np.add(tab.arm, np.divide(tab.length, 2))
    N, Q = np.abs(axial), np.abs(side)
    L, S = 4 * size, 4 * np.square(size) / 6
    along, across = N / L, Q / L + Q * away / S
    f = np.hypot(along, across)
    steps = (
        Step("l", "length of the slot", "", size, "m"),
        Step("a", "hole to the end of the pipe", "", tab.arm, "m"),
        Step("N", "pull or push of the brace", "", N, "N"),
        Step("Q", "force square to the brace", "", Q, "N"),
        Step("L", "length of weld, four lines", "4*l", L, "m"),
        Step("S", "modulus of four lines", "4*l^2/6", S, "m2", "Blodgett 7.4"),
        Step("fs", "shear along the weld, per length", "N/L", along, "N/m"),
        Step("fn", "pull across, worst end", "Q/L + Q*(a + l/2)/S", across, "N/m"),
        Step("f", "force per length", "sqrt(fs^2 + fn^2)", f, "N/m"),
    )
    return WeldLine(force=f, along=along, leg=tab.leg, throat=tab.throat, steps=steps)
