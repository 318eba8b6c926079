"""Shapes of members against closed forms of beams (Timoshenko, Strength of Materials, part I)."""

import numpy as np
import pytest
from numpy.testing import assert_allclose

from frame.draw.curve import deflected
from frame.draw.space import project
from tests.unit.draw.example import space

ENDS = np.array([[0.0, 0.0, 0.0], [2.0, 0.0, 0.0]])
X = np.linspace(0.0, 2.0, 9)


def test_cantilever_under_a_tip_load() -> None:
    # w = P x^2 (3 L - x) / 6 EI with P / EI = 0.01; dw/dx at the tip 0.02; uz down turns about +y
    tip = 0.01 * 2**3 / 3
    moved = np.array([[0, 0, 0], [0, 0, -tip]])
    turned = np.array([[0, 0, 0], [0, 0.01 * 2**2 / 2, 0]])
    shape = deflected(ENDS, moved, turned, (False, False), 9)
    assert_allclose(shape[:, 2], -0.01 * X**2 * (3 * 2 - X) / 6, atol=1e-12)


def test_propped_end_with_a_moment_at_the_other() -> None:
    # Simply supported, moment at the left: w = M x (2 L^2 - 3 L x + x^2) / 6 L EI; right end free.
    k = 0.03
    turned = np.array([[0, 0, k * 2 / 3], [0, 0, 99.0]])
    shape = deflected(ENDS, np.zeros((2, 3)), turned, (False, True), 9)
    assert_allclose(shape[:, 1], k * X * (2 * 2**2 - 3 * 2 * X + X**2) / (6 * 2), atol=1e-12)


def test_pinned_bar_stays_straight_and_rigid_motion_carries_it() -> None:
    moved = np.array([[0.1, 0.0, 0.0], [0.1, 0.4, 0.0]])
    pinned = deflected(ENDS, moved, np.full((2, 3), 7.0), (True, True), 9)
    assert_allclose(pinned[:, 1], 0.2 * X, atol=1e-12)
    turned = np.tile([0.0, 0.0, 0.2], (2, 1))
    assert_allclose(deflected(ENDS, moved, turned, (False, False), 9), pinned, atol=1e-12)


@pytest.mark.parametrize(
    ("axis", "right", "up"), [((1, 0, 0), 1, None), ((0, 0, 1), 0, 1), ((0, 1, 0), -1, 1)]
)
def test_view_is_from_the_front_left_and_above(axis, right, up) -> None:
    paper = project(np.array(axis, dtype=float))
    assert np.sign(np.round(paper[0], 12)) == right
    assert up is None or np.sign(paper[1]) == up


def test_space_picture_marks_the_farthest_point_and_slack_guys() -> None:
    picture = space(braced=True)
    assert picture.movements[0].text == "moves 1.12 in"  # 0.4 x |0, 0.07, -0.014| m
    assert [line.slack for line in picture.lines] == [False, False, True, True]
    assert {bar.part for bar in picture.bars if bar.brace} == {"knee, left", "knee, right"}
