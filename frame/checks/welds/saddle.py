"""The weld of a sleeve saddled on a beam, along the line where the two pipes meet.

Lengths m, forces N, moments N m. The sleeve stands square to the beam; it may be the wider of the
two, and then holds the beam along two lines, one on either side. Towards the flanks of the beam
the two surfaces run into one another: where they open by more than 135 deg a fillet is no fillet
any more, and nothing is counted (AWS D1.1, 30 to 135 deg, from memory). A full throat up to there
is worth about the whole line with the throat that each opening leaves.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np

from frame.checks.check import Numbers
from frame.checks.sheet import Sheet
from frame.checks.welds.weld import FILLET_THROAT, WeldLine

SADDLE_THROAT = 0.5
"""Throat per leg in the code's count: that of a fillet between surfaces 120 deg apart, where the
saddle opens towards the flanks, taken all along (judgement)."""
WIDEST = float(np.cos(np.pi / 4))
"""Cosine between the outward faces of the pipes at the end of what counts, 135 deg open."""
POINTS = 4001


@dataclass(frozen=True, slots=True, kw_only=True)
class Saddle:
    """Weld of a sleeve on a beam: outside diameters [m], `leg` [m], `throat` per leg [1]."""

    sleeve_od: float
    beam_od: float
    leg: Numbers
    throat: float = FILLET_THROAT


@dataclass(frozen=True, slots=True, kw_only=True)
class SaddleLine:
    """The line of a saddle, seen down the sleeve: x along the beam, y across it.

    `length` of the weld in space [m]; `lengthwise`, `crosswise`: integrals of x^2 and y^2 along it
    [m3].
    """

    length: float
    lengthwise: float
    crosswise: float


@cache
def saddle_shape(sleeve_od: float, beam_od: float) -> SaddleLine:
    """Walk along the line where a sleeve meets a beam, both in m, as far as it counts.

    A point y off the middle opens by 90 deg and the arc sine of y^2 / (Rs Rb): the faces look
    outward at sines y / Rs and y / Rb from the plane of the two axes.
    """
    Rs, Rb = sleeve_od / 2, beam_od / 2
    y_end = min(Rs, Rb, float(np.sqrt(WIDEST * Rs * Rb)))
    around = np.linspace(-1, 1, POINTS) * np.arcsin(y_end / Rs)
    x, y = Rs * np.cos(around), Rs * np.sin(around)
    z = np.sqrt(np.maximum(Rb**2 - y**2, 0.0))
    piece = np.sqrt(np.diff(x) ** 2 + np.diff(y) ** 2 + np.diff(z) ** 2)
    xm, ym = (x[1:] + x[:-1]) / 2, (y[1:] + y[:-1]) / 2
    return SaddleLine(
        length=float(2 * piece.sum()),
        lengthwise=float(2 * (xm**2 * piece).sum()),
        crosswise=float(2 * (ym**2 * piece).sum()),
    )


def saddle_line(
    force: tuple[Numbers, Numbers],
    in_plane: Numbers,
    out_of_plane: Numbers,
    torsion: Numbers,
    saddle: Saddle,
) -> WeldLine:
    """Force per length of a saddle weld under the resultants on the joint plane.

    `force`: N along the sleeve and V square to it [N]; moments in the plane of both axes, out of
    it, and `torsion` about the sleeve [N m], any sign. Weld as a line (Blodgett 7.4): every point
    is Rs off the sleeve's axis, so that bending both ways peaks where the line lies in the
    direction of the moment, or at its end. That peak, twice the mean shear (as on a ring) and the
    twist are added at one point, which is never less than the true worst one.
    """
    shape = saddle_shape(saddle.sleeve_od, saddle.beam_od)
    N, V, Mi, Mo, T = (np.abs(v) for v in (*force, in_plane, out_of_plane, torsion))
    walked = "both pipes, walked along"
    ends = "min(Ds/2, Db/2, sqrt(cos(pi/4)*Ds*Db/4))"
    sheet = Sheet()
    sheet.given("Ds", "diameter of the sleeve", saddle.sleeve_od, "m")
    sheet.given("Db", "diameter of the beam", saddle.beam_od, "m")
    sheet.work("ye", "end of the weld, off the beam's axis", ends, "m", "AWS D1.1, 135 deg")
    sheet.work("xe", "same, along the beam", "sqrt(max((Ds/2)^2 - ye^2, 0))", "m")
    sheet.given("L", "length of weld", shape.length, "m", walked)
    sheet.given("Ix", "its second moment along the beam", shape.lengthwise, "m3", walked)
    sheet.given("Iy", "its second moment across it", shape.crosswise, "m3", walked)
    sheet.given("N", "force along the sleeve", N, "N")
    sheet.given("V", "force square to it", V, "N")
    sheet.given("Mi", "bending in the plane of sleeve and beam", Mi, "N m")
    sheet.given("Mo", "bending out of it", Mo, "N m")
    sheet.given("T", "twist on the joint", T, "N m")
    sheet.work("A", "pull per length and lever along the beam", "Mi/Ix", "N/m2")
    sheet.work("B", "same, across it", "Mo/Iy", "N/m2")
    worst = "A*xe + B*ye if B*xe > A*ye else sqrt(A^2 + B^2)*Ds/2"
    sheet.work("fb", "pull per length by bending, worst point", worst, "N/m", "Blodgett 7.4")
    sheet.work("fn", "pull or push per length", "N/L + fb", "N/m")
    sheet.work("fs", "shear per length", "2*V/L + T*Ds/2/(Ix + Iy)", "N/m")
    sheet.work("f", "force per length", "sqrt(fn^2 + fs^2)", "N/m")
    return WeldLine(leg=saddle.leg, throat=saddle.throat, steps=tuple(sheet.steps))
