"""The weld of a plate in the slotted end of a pipe: what a pinned brace hangs on.

Lengths m, forces N; numbers or arrays. Four fillets along the slot, one on either face of the
plate where it comes out of the pipe, on both sides. Weld as a line after Blodgett, Design of
Welded Structures, 7.4; AISC 360-22 D3 takes slots no shorter than the pipe is thick (both from
memory).
"""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Numbers
from frame.checks.sheet import Sheet
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
    sheet = Sheet()
    sheet.given("l", "length of the slot", tab.length, "m")
    sheet.given("a", "hole to the end of the pipe", tab.arm, "m")
    sheet.given("N", "pull or push of the brace", np.abs(axial), "N")
    sheet.given("Q", "force square to the brace", np.abs(side), "N")
    sheet.work("L", "length of weld, four lines", "4*l", "m")
    sheet.work("S", "modulus of four lines", "4*l^2/6", "m2", "Blodgett 7.4")
    sheet.work("fs", "shear along the weld, per length", "N/L", "N/m")
    sheet.work("fn", "pull across, worst end", "Q/L + Q*(a + l/2)/S", "N/m")
    sheet.work("f", "force per length", "sqrt(fs^2 + fn^2)", "N/m")
    return WeldLine(leg=tab.leg, throat=tab.throat, steps=tuple(sheet.steps))
