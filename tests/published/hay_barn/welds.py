"""The weld between the hay barn's sleeve and beam, by hand."""

from itertools import pairwise
from math import dist, hypot, sqrt

import numpy as np

from tests.published.hay_barn.given import ON_TOP, Inputs, Pipe, Wind


def weld_line() -> tuple[float, float, float]:
    """Length, bending modulus and twist modulus of the weld as a line (Blodgett 7.4), in, in2.

    The sleeve, 2.27 in. to its outside, is coped over the beam; the last eighth of the cope on
    either side runs out along the beam's flank, past a fillet's 135 deg, and is not counted.
    """
    points = [
        [
            (way * sqrt(2.27**2 - y * y), y, -sqrt(4 - y * y))
            for y in np.linspace(-1.75, 1.75, 4001)
        ]
        for way in (1, -1)
    ]
    pieces = [(dist(a, b), b) for row in points for a, b in pairwise(row)]
    length = sum(piece for piece, _ in pieces)
    about_y = sum(piece * at[0] ** 2 for piece, at in pieces)
    polar = sum(piece * (at[0] ** 2 + at[1] ** 2) for piece, at in pieces)
    return length, about_y / 2.27, polar / 2.27


WELD = weld_line()


def weld_pulls(w: Wind) -> tuple[float, float]:
    """Across and along the weld [kip/in]."""
    length, S, J = WELD
    across = hypot(*w.bending(2)) / S + abs(ON_TOP + w.press) / length
    return across, w.swing / J + 2 * abs(w.side) / length


def weld(w: Wind, g: Inputs) -> float:
    """AISC 360-22 J2.4: 0.6 FEXX on the throat, half as much again across the weld."""
    across, along = weld_pulls(w)
    holds = 0.6 * 70 * 0.707 * 3 / 16 * g["weld"]
    return hypot(across / 1.5, along) / holds


def weld_metal(w: Wind, g: Inputs) -> float:
    """The wall beside it at yield: Fy t in pull, 0.6 Fy t in shear, AISC 360-22 J4.1, J4.2."""
    across, along = weld_pulls(w)
    return hypot(across, along / 0.6) / (g["yield"] * Pipe(g["wall"]).t)
