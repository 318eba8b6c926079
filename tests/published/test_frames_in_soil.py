"""Beams on springs: the checks of posts in the ground.

Boresi and Schmidt, Advanced Mechanics of Materials, 6th ed., Ex. 10.1 (rail on an elastic
foundation). Matlock and Reese, Generalized solutions for laterally loaded piles, Trans. ASCE 127
(1962), ground stiffness growing with depth.
"""

import numpy as np
import pytest

from frame.fem.cases import solve
from frame.fem.model import Model, Support, UnitLoad
from frame.fem.response import respond
from tests.unit.fem.builders import member, node, point


def test_rail_under_one_wheel_and_under_three() -> None:
    # E = 200 GPa, I = 36.9e6 mm4, k = 14 N/mm2, P = 170 kN, wheels 1.7 m apart.
    step, half = 0.05, 160
    xs = np.arange(-half, half + 1) * step
    rail = {"E": 200e9, "Iy": 36.9e-6, "Iz": 36.9e-6, "J": 1e-6, "A": 8e-3, "G": 77e9}
    held = (True, True, False, True, False, True)
    wheel, three = (0, 0, -170e3, 0, 0, 0), [half + round(d / step) for d in (-1.7, 0.0, 1.7)]
    model = Model(
        nodes=tuple(node((x, 0, 0)) for x in xs),
        members=tuple(member(i, i + 1, **rail) for i in range(2 * half)),
        supports=tuple(
            Support(node=i, fixed=held, k=(0, 0, 14e6 * step, 0, 0, 0))
            for i in range(2 * half + 1)
        ),
        unit_loads=(
            point(half, Fz=-170e3),
            UnitLoad(name="three", acts="after", nodes=tuple((i, wheel) for i in three)),
        ),
    )
    answer = solve(respond(model), np.eye(2))
    assert -answer.displacements[:, half, 2] * 1e3 == pytest.approx([5.04, 7.86], rel=2e-3)
    # The largest moment stands under the wheel, of three under an outer one.
    moment = -answer.along([half, three[0]], stations=2).My[[0, 1], [0, 1], 0] / 1e3
    assert moment == pytest.approx([51.21, 37.02], rel=3e-3)
    assert moment * 1e3 * 99.1e-3 / 36.9e-6 / 1e6 == pytest.approx([137.5, 99.4], rel=3e-3)


def test_long_pile_in_ground_that_stiffens_with_depth() -> None:
    # Ay = 2.435, As = 1.623 under a head force, By = 1.623, Bs = 1.749 under a head moment.
    pieces, EI, modulus = 400, 2.0e5, 3.0e6
    T = (EI / modulus) ** 0.2
    step = 10 * T / pieces
    depth = np.arange(pieces + 1) * step
    k = modulus * depth * step
    k[0] = modulus * step**2 / 6
    pile = {"E": 200e9, "Iy": EI / 200e9, "Iz": EI / 200e9, "J": 1e-6, "A": 5e-3, "G": 77e9}
    held = (False, True, True, True, False, True)
    model = Model(
        nodes=tuple(node((0, 0, -z)) for z in depth),
        members=tuple(member(i, i + 1, **pile) for i in range(pieces)),
        supports=tuple(
            Support(node=i, fixed=held, k=(float(k[i]), 0, 0, 0, 0, 0)) for i in range(pieces + 1)
        ),
        unit_loads=(point(0, Fx=1.0, name="force"), point(0, My=1.0, name="moment")),
    )
    head = respond(model).displacements[:, 0, [0, 4]]
    assert head[0] == pytest.approx([2.435 * T**3 / EI, 1.623 * T**2 / EI], rel=4e-3)
    assert head[1] == pytest.approx([1.623 * T**2 / EI, 1.749 * T / EI], rel=4e-3)
