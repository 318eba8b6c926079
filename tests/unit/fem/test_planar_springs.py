"""Rotational springs in joints of plane frames behind anastruct's fence: statics, unit loads."""

import numpy as np
import pytest

from frame.fem.plane.model import PlaneSpring
from tests.unit.fem.plane import CLAMP, EA, EI, close, frame, one, roller


def sprung(k, supports=None):
    """A post with a beam on a spring: post clamped at the foot, beam end pushed down."""
    return frame([(0, 0), (0, 3), (0, 3), (1.2, 3)], [(0, 1), (2, 3)], supports or {0: CLAMP},
                 [("after", ((3, (300.0, -800.0, 0)),), ())],
                 springs=(PlaneSpring(ends=(1, 2), k=k, fitted="before"),))  # fmt: skip


@pytest.mark.parametrize("k", [4.0e5, 1.0e7])
def test_spring_in_a_joint(k):
    """Unit-load method: turn M/k at the joint, post bent by its moment and the push at its top."""
    H, r, Fa, Fz = 3.0, 1.2, 300.0, -800.0
    joint = -Fz * r  # clockwise at the joint
    post = joint * H / EI + Fa * H**2 / (2 * EI)
    a = one(sprung(k))
    close(a.displacements[1, 2], -post, rel=3e-5)
    close(a.displacements[2, 2], -post - joint / k, rel=3e-5)
    drop = r * (post + joint / k) + -Fz * r**3 / (3 * EI) + -Fz * H / EA
    close(a.displacements[3, 1], -drop, rel=3e-5)
    close(a.displacements[1, 0], joint * H**2 / (2 * EI) + Fa * H**3 / (3 * EI), rel=3e-5)
    close(a.diagrams[0].M[-1], -joint, rel=1e-5)
    close(a.diagrams[0].M[0], -joint - Fa * H, rel=1e-5)


@pytest.mark.parametrize("up", [True, False])
def test_a_sprung_post_drawn_either_way_with_load_along_it(up):
    """Statics of the post from its top: its ends and its bending are the same however it is drawn.

    Drawn downwards the side that moments are told of changes, so their sign does; N and V keep it.
    """
    H, r, Fa, Fz, w, v, k = 3.0, 1.2, 300.0, -800.0, 250.0, -120.0, 1.0e6
    f = frame([(0, 0), (0, H), (0, H), (r, H)], [(0, 1) if up else (1, 0), (2, 3)], {0: CLAMP},
              [("after", ((3, (Fa, Fz, 0)),), ((0, (w, v)),))],
              springs=(PlaneSpring(ends=(1, 2), k=k, fitted="before"),))  # fmt: skip
    a = one(f)
    d, top, foot, sense = a.diagrams[0], *((-1, 0, 1.0) if up else (0, -1, -1.0))
    joint = -Fz * r
    close(d.M[[foot, top]], -sense * np.array([joint + Fa * H + w * H**2 / 2, joint]), rel=1e-6)
    close(d.V[[foot, top]], [Fa + w * H, Fa], rel=1e-6)
    close(d.N[[foot, top]], [Fz + v * H, Fz], rel=1e-6)
    turn = joint * H / EI + Fa * H**2 / (2 * EI) + w * H**3 / (6 * EI)
    close(a.displacements[1:3, 2], [-turn, -turn - joint / k], rel=3e-5)
    sway = joint * H**2 / (2 * EI) + Fa * H**3 / (3 * EI) + w * H**4 / (8 * EI)
    close(a.displacements[1:3, 0], sway, rel=3e-5)


def test_free_joint_carries_nothing():
    f = frame([(0, 0), (0, 3), (0, 3), (2, 3)], [(0, 1), (2, 3)], {0: CLAMP, 3: roller()},
              [("after", (), ((1, (0.0, -500.0)),))],
              springs=(PlaneSpring(ends=(1, 2), k=0.0, fitted="before"),))  # fmt: skip
    a = one(f)
    assert abs(a.diagrams[0].M).max() < 1e-4 * 500 * 4 / 8
    close(a.diagrams[1].M[6], 500.0 * 4 / 8, rel=1e-5)


def test_support_springs():
    """A rigid-like stub on springs moves by force over stiffness."""
    f = frame([(0, 0), (0.1, 0)], [(0, 1)], {0: (False, (2e4, 5e4, 3e3))},
              [("after", ((0, (100.0, -200.0, 30.0)),), ())])  # fmt: skip
    close(one(f).displacements[0], [100 / 2e4, -200 / 5e4, 30 / 3e3])


def test_a_sprung_joint_at_the_top_of_a_long_post():
    """As in a short one: the joint's own turn is M / k, whatever the height of the post."""
    H, r, P, k = 22.0, 6.0, 400.0, 2.0e6
    f = frame([(0, 0), (0, H), (0, H), (r, H)], [(0, 1), (2, 3)], {0: CLAMP},
              [("after", ((3, (0.0, -P, 0)),), ())],
              springs=(PlaneSpring(ends=(1, 2), k=k, fitted="before"),))  # fmt: skip
    a = one(f)
    close(a.displacements[1, 0], P * r * H**2 / (2 * EI))
    close(a.displacements[3, 1],
          -P * (r**2 * H / EI + r**2 / k + r**3 / (3 * EI) + H / EA))  # fmt: skip
