"""Sizes and loads of the stout rack, from printed tables alone, in kips and inches.

Nothing of the program is used. What is checked with them stands in
`tests/published/test_stout_rack_by_hand.py`.
"""

from dataclasses import dataclass
from math import cos, pi, radians, sin

AREA, CHORD = 8 * 40 * 66.0, 132.5
HEIGHT, BURIED, TOP_OUT, PIER = 78.0, 84.0, 12.0, 24.0
OFF = 0.2 * 161.5  # one-sided gust: a fifth of the panels' spread, as ASCE 7 Fig. 29.3-1 case B
BEAM_OD, POST_OD = 6.625, 8.625
PANELS, RAIL = 8 * 0.045, 3.79 * 11 / 1000  # MFMA-4 trade tables
BEAM = 28.6 * 13.5 / 1000  # ASME B36.10M
SLEEVE = 10.69 * (9.75 - 0.5) * 0.5 * 25 / 12 / 1000  # 10.69 (D - t) t lb/ft
ON_TOP = PANELS + 8 * RAIL + BEAM + SLEEVE
E, FY = 29_000.0, 35.0  # ksi; A53 grade B
WALL = 0.93 * 0.322  # AISC 360-22 B4.2
POST_A = pi * (POST_OD - WALL) * WALL
POST_I = pi / 64 * (POST_OD**4 - (POST_OD - 2 * WALL) ** 4)
POST_Z = (POST_OD**3 - (POST_OD - 2 * WALL) ** 3) / 6

# ASCE/SEI 7-22 Fig. 27.3-4, free air below, interpolated between 15 and 22.5, 30 and 37.5 deg:
# net coefficients of the lower and the upper half, pressing positive.
COEFFICIENTS = {
    20: {
        "front A": (1.567, 1.733),
        "front B": (2.067, 0.667),
        "back A": (-1.5, -1.3),
        "back B": (-0.2, -2.233),
    },
    35: {
        "front A": (2.1, 2.167),
        "front B": (2.667, 1.067),
        "back A": (-1.8, -1.8),
        "back B": (-0.567, -2.433),
    },
}
# Fig. 30.5-1, between 15 and 30, 30 and 45 deg: edge strips press and lift, corner lift.
LOCAL = {20: (3.1, -3.2, -4.2), 35: (3.9, -3.7, -4.867)}


@dataclass(frozen=True)
class Case:
    """D or 0.6 D with 0.6 W of one gust [kip, in]: forces where beam and post axes meet."""

    mph: float
    tilt: int
    wind: str
    dead: float

    @property
    def q(self) -> float:
        """0.6 of 0.00256 Kz V2 (Eq. 26.10-1; C, to 15 ft) with Kd and G, both 0.85. [ksi]"""
        return 0.6 * 0.00256 * 0.851 * self.mph**2 * 0.85 * 0.85 / 144 / 1000

    @property
    def front(self) -> bool:
        return self.wind.startswith("front")

    @property
    def angle(self) -> float:
        return radians(self.tilt)

    @property
    def halves(self) -> tuple[float, float]:
        return COEFFICIENTS[self.tilt][self.wind]

    @property
    def normal(self) -> float:
        return self.q * AREA * sum(self.halves) / 2

    @property
    def way(self) -> int:
        return 1 if self.front else -1

    @property
    def side(self) -> float:
        """With 1.2 of drag on the round beam, Fig. 29.4-2."""
        return self.normal * sin(self.angle) + self.way * self.q * 1.2 * 162 * BEAM_OD

    @property
    def post_drag(self) -> float:
        return self.way * self.q * 1.2 * (HEIGHT - BEAM_OD / 2) * POST_OD

    @property
    def push(self) -> float:
        return self.dead * ON_TOP + self.normal * cos(self.angle)

    @property
    def couple(self) -> float:
        low, high = self.halves
        weight = PANELS * (3.31 + 3.25 + 0.69) + 8 * RAIL * (3.31 + 1.62)
        wind = self.q * AREA / 2 * (low - high) * CHORD / 4
        return wind + self.dead * weight * sin(self.angle)

    @property
    def swing(self) -> float:
        return abs(OFF * self.normal * sin(self.angle))

    @property
    def rock(self) -> float:
        return abs(OFF * self.normal * cos(self.angle))

    def across(self, below: float) -> float:
        """Bending of the post across the beam at a depth below its axis."""
        drag = self.post_drag * max(below - 3.3, 0) ** 2 / 2 / (HEIGHT - 3.3)
        return -self.side * below - drag + self.couple
