"""Knee braces and stays: pipes that work along their length, pinned or welded at the ends.

Axial force N [N] is positive in tension; arrays broadcast. Effective length with K = 1 on the
length between the work points, longer than the free pipe: the safe side.
Sources: AISC 360-22 D2, D3, E3, H1; the eccentric and crooked brace by statics.
"""

from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Numbers
from frame.checks.steel.pipe import Forces, all_strengths, all_together, compression, tension
from frame.checks.steel.pipe_strength import RoundPipe
from frame.checks.steel.slotted import SlottedEnd

CROOKED = 1 / 1000
"""Bow of salvaged pipe over its length, beyond what the column curve of the standard already
allows for (judgement: bent twice as much as new pipe may be)."""
NEAREST_EULER = 0.99


def buckling(brace: RoundPipe, N: Numbers, length: Numbers) -> Check:
    """Buckling under the push in a brace, AISC 360-22 E3 with K = 1; a pull counts as nil."""
    return compression(brace, np.negative(N), length)


def pull(brace: RoundPipe, N: Numbers, slotted: SlottedEnd | None = None) -> Check:
    """Pull in a brace, AISC 360-22 D2, D3; a pinned one has `slotted` ends."""
    return tension(brace, N, slotted)


def bent(
    brace: RoundPipe,
    forces: Forces,
    length: Numbers,
    offset: Numbers = 0.0,
) -> Check:
    """Axial force together with bending: welded ends, work points off the axis, a bow.

    AISC 360-22 H1 (H3.2 where torque counts). The moments of `forces` come from the frame. To
    them is added, at one place (the safe side), that of the force itself: `offset` [m] from the
    brace's own line at its ends, grown by the secant of a column so loaded, and a bow of
    length/1000, grown by 1 / (1 - P/Pe) (Timoshenko and Gere, Theory of Elastic Stability, 1.11,
    1.12). P/Pe is held to 0.99: past it the brace has long failed.
    """
    sheet = all_strengths(brace, length, length)
    sheet.given("N", "axial force, pull positive", forces.N, "N")
    sheet.work("I", "second moment of area", "pi/64*(D^4 - d^4)", "m4")
    sheet.given("e", "work points off the brace's line", offset, "m")
    sheet.work("b", "bow at the middle", f"Lc/{1 / CROOKED:g}", "m", "judgement")
    euler = f"min({NEAREST_EULER}, max(-N, 0)*Lc^2/(pi^2*E*I))"
    sheet.work("q", "push over elastic buckling load", euler, "")
    sheet.given("Mf", "bending from the frame", np.hypot(forces.My, forces.Mz), "N m")
    sheet.work(
        "Me",
        "bending from offset and bow",
        "abs(N)*(b/(1 - q) + abs(e)/cos(pi/2*sqrt(q)))",
        "N m",
        "Timoshenko and Gere, Theory of Elastic Stability, 1.11, 1.12",
    )
    sheet.work("My", "bending in all", "Mf + Me", "N m")
    return all_together(sheet, brace, replace(forces, Mz=0.0))
