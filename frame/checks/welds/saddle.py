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

from frame.checks.check import Numbers, Step
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
    [m3]; its four ends lie at `x_end`, `y_end` [m].
    """

    length: float
    lengthwise: float
    crosswise: float
    x_end: float
    y_end: float


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
        x_end=float(x[-1]),
        y_end=y_end,
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
    Rs, L, xe, ye = saddle.sleeve_od / 2, shape.length, shape.x_end, shape.y_end
    A, B = Mi / shape.lengthwise, Mo / shape.crosswise
    bent = np.where(B * xe > A * ye, A * xe + B * ye, np.hypot(A, B) * Rs)
    across = N / L + bent
    along = 2 * V / L + T * Rs / (shape.lengthwise + shape.crosswise)
    f = np.hypot(across, along)
    ends = "min(Ds/2, Db/2, sqrt(cos(pi/4)*Ds*Db/4))"
    walked = "both pipes, walked along"
    steps = (
        Step("Ds", "diameter of the sleeve", "", saddle.sleeve_od, "m"),
        Step("Db", "diameter of the beam", "", saddle.beam_od, "m"),
        Step("ye", "end of the weld, off the beam's axis", ends, ye, "m", "AWS D1.1, 135 deg"),
        Step("xe", "same, along the beam", "sqrt(max((Ds/2)^2 - ye^2, 0))", xe, "m"),
        Step("L", "length of weld", "", L, "m", walked),
        Step("Ix", "its second moment along the beam", "", shape.lengthwise, "m3", walked),
        Step("Iy", "its second moment across it", "", shape.crosswise, "m3", walked),
        Step("N", "force along the sleeve", "", N, "N"),
        Step("V", "force square to it", "", V, "N"),
        Step("Mi", "bending in the plane of sleeve and beam", "", Mi, "N m"),
        Step("Mo", "bending out of it", "", Mo, "N m"),
        Step("T", "twist on the joint", "", T, "N m"),
        Step("A", "pull per length and lever along the beam", "Mi/Ix", A, "N/m2"),
        Step("B", "same, across it", "Mo/Iy", B, "N/m2"),
        Step(
            "fb",
            "pull per length by bending, worst point",
            "A*xe + B*ye if B*xe > A*ye else sqrt(A^2 + B^2)*Ds/2",
            bent,
            "N/m",
            "Blodgett 7.4",
        ),
        Step("fn", "pull or push per length", "N/L + fb", across, "N/m"),
        Step("fs", "shear per length", "2*V/L + T*Ds/2/(Ix + Iy)", along, "N/m"),
        Step("f", "force per length", "sqrt(fn^2 + fs^2)", f, "N/m"),
    )
    return WeldLine(force=f, along=along, leg=saddle.leg, throat=saddle.throat, steps=steps)
