"""Two channels back to back: warping by areas swept along the mid-line, buckling by AISI S100."""

import dataclasses
import itertools

import numpy as np
import pytest

from frame.checks.steel.rail import bending, shear_centre_bound
from frame.checks.steel.rail_buckling import doubled_share, warping_constant
from frame.tables.channels import find
from tests.step_check import assert_steps
from tests.strut import KSI, STOCK

INCH = 0.0254
NAMES = (
    "1-5/8 x 1-5/8 in 12 ga back to back",
    "1-5/8 x 1-5/8 in 14 ga back to back",
    "1-5/8 x 3-1/4 in 12 ga back to back",
)
DEEP = {NAMES[0]: 3.25 * INCH, NAMES[1]: 3.25 * INCH, NAMES[2]: 6.5 * INCH}


def doubled(name: str = NAMES[0]):
    return dataclasses.replace(STOCK, channel=find(name))


@pytest.mark.parametrize("name", NAMES)
def test_warping_by_areas_swept_from_the_centre(name: str) -> None:
    """Twice the area that a ray from the shear centre sweeps along each half, squared and summed.

    The centre is the shear centre by symmetry; at the backs the sum starts from nil.
    """
    channel, lip = find(name), 0.375 * INCH
    t = channel.wall
    out, up, inward = (1.625 * INCH - t) / 2, (DEEP[name] - t) / 2, lip - t / 2
    total = 0.0
    for x, y in itertools.product((1, -1), (1, -1)):
        corners = np.array([(0, 0), (out, 0), (out, up), (out - inward, up)]) * (x, y)
        swept = 0.0
        for first, second in itertools.pairwise(corners):
            s = np.linspace(0, 1, 20_001)
            at = first + np.outer(s, second - first)
            step = np.diff(at, axis=0)
            middle = (at[1:] + at[:-1]) / 2
            area = np.cumsum(middle[:, 0] * step[:, 1] - middle[:, 1] * step[:, 0]) + swept
            total += (area**2 * np.hypot(*step.T)).sum() * t
            swept = area[-1]
    assert warping_constant(channel) == pytest.approx(total, rel=1e-3)


def test_an_arm_of_five_and_a_half_feet_loses_nothing() -> None:
    """Kips and inches, Cw 0.60 in6: pi / 66.25 sqrt(29000 x 0.474 (11200 x 0.00409 + ...)).

    pi^2 x 29000 x 0.60 / 66.25^2 = 39.1: 51.1 kip-in over 0.571 in3 is 89.5 ksi, 2.71 of 33 ksi,
    and 10/9 (1 - 10 / (36 x 2.71)) = 0.997, where the table of a single channel leaves 0.78.
    """
    share, _ = doubled_share(doubled(), 66.25 * INCH)
    assert float(share) == pytest.approx(0.997, abs=0.002)
    assert warping_constant(find(NAMES[0])) / INCH**6 == pytest.approx(0.60, abs=0.005)
    assert float(doubled_share(doubled(), 60 * INCH)[0]) == 1.0


def test_long_ones_buckle_as_beams_of_the_textbook_do() -> None:
    """Timoshenko and Gere, Theory of Elastic Stability, 6.3: the first root of the equation of a
    simply supported beam under even moment, by finite elements of nothing but its energy.

    M^2 = (pi / L)^2 E Iy (G J + E Cw (pi / L)^2), at a length where buckling is elastic.
    """
    made, L = doubled(), 30.0
    c = made.channel
    Iy, Cw, k = c.I2, warping_constant(c), np.pi / L
    energy = np.array([[made.elastic * Iy * k**4, 0], [0, made.shear * c.J * k**2]])
    energy[1, 1] += made.elastic * Cw * k**4
    work = np.array([[0, k**2], [k**2, 0]])  # of a unit moment, sideways with twist
    moments = np.linalg.eigvals(np.linalg.solve(energy, work))
    stress = 1 / moments.real.max() / c.S1
    share, _ = doubled_share(made, L)
    assert stress < 0.56 * 33 * KSI
    assert float(share) == pytest.approx(stress / (33 * KSI), rel=1e-9)


def test_the_share_falls_steadily_and_its_steps_can_be_worked_out() -> None:
    lengths = np.linspace(0.5, 40, 80)
    share, why = doubled_share(doubled(), lengths)
    assert np.all(np.diff(share) <= 1e-12)
    assert np.all((share > 0) & (share <= 1))
    check = bending(doubled(), 900.0, -50.0, share, why)
    for index in (0, 5, 30, 79):
        assert_steps(check, (index,))


def test_the_share_falls_without_a_step() -> None:
    """The three pieces of AISI S100-16 F2.1 (from memory) meet: no inch more costs a jump."""
    lengths = np.geomspace(0.5, 40, 4000)
    share, _ = doubled_share(doubled(), lengths)
    assert share.min() < 0.3
    assert np.abs(np.diff(share)).max() < 3e-3


def test_the_shear_centre_of_two_back_to_back_is_their_middle() -> None:
    assert shear_centre_bound(find(NAMES[0])) == 0
