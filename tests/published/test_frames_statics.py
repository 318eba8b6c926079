"""Trusses, guys, shafts and braces from books of statics and mechanics.

McGuire, Gallagher and Ziemian, Matrix Structural Analysis, 2nd ed., Ex. 5.4; Beer and Johnston,
Vector Mechanics: Statics, Sample 2.9; Gere, Mechanics of Materials, 7th ed., P3.8-11.
"""

import numpy as np
import pytest

from frame.fem.cases import solve
from frame.fem.model import Guy, Model, Support
from frame.fem.response import respond
from tests.unit.fem.builders import FIXED, PIPE, member, node, point

HINGED = (("ry", "rz"), ("ry", "rz"))
NO_TURNING = (False, False, False, True, True, True)


def test_mcguire_example_5_4_space_truss() -> None:
    feet = [(0, 0, 0), (8, 0, 0), (8, 6, 0), (0, 6, 0)]
    areas = [20e-3, 30e-3, 40e-3, 30e-3]
    model = Model(
        nodes=(node((2, 4, 8)), *(node(p) for p in feet)),
        members=tuple(
            member(0, i + 1, A=A, E=200e9, J=1e-5, free=HINGED) for i, A in enumerate(areas)
        ),
        supports=(
            Support(node=0, fixed=NO_TURNING),
            *(Support(node=i, fixed=FIXED) for i in range(1, 5)),
        ),
        unit_loads=(point(0, Fx=200e3, Fy=600e3, Fz=-800e3),),
    )
    r = respond(model)
    assert r.displacements[0, 0, :3] * 1e3 == pytest.approx([0.178, 2.722, -0.487], rel=2e-3)
    # Printed with the example: forces follow from these and Hooke's law by hand.
    assert r.member_forces[0, :, 6] / 1e3 == pytest.approx(
        [350.07, 306.64, -800.25, -748.36], rel=1e-4
    )


def test_beer_and_johnston_sample_2_9_guy() -> None:
    # 2500 N from the bolt A (40, 0, -30) toward B (0, 80, 0): -1060, 2120, 795 N on the bolt.
    model = Model(
        nodes=(node((40, 0, -30)),),
        members=(),
        supports=(Support(node=0, k=(1e6,) * 6),),
        guys=(Guy(name="guy", node=0, anchor=(0, 80, 0), EA=1e6, pretension=2500.0),),
    )
    answer = solve(respond(model), np.zeros((1, 0)))
    assert answer.tensions[0] == pytest.approx([2500.0])
    assert answer.reactions[0, 0, :3] == pytest.approx([1060, -2120, -795], rel=1e-4)


def test_gere_problem_3_8_11_bar_in_a_tube() -> None:
    # Bar 1.50 in. in a tube 1.75/2.25 in.: of 5000 lb-in the bar takes 1187.68.
    polar = [np.pi / 32 * (D**4 - d**4) for D, d in ((1.50, 0.0), (2.25, 1.75))]
    section = {**PIPE, "E": 29e6, "G": 11.6e6, "A": 1.0, "Iy": 1.0, "Iz": 1.0}
    model = Model(
        nodes=(node((0, 0, 0)), node((30, 0, 0))),
        members=tuple(
            member(0, 1, name=f"{i}", **{**section, "J": J}) for i, J in enumerate(polar)
        ),
        supports=(Support(node=0, fixed=FIXED),),
        unit_loads=(point(1, Mx=5000.0),),
    )
    r = respond(model)
    assert r.member_forces[0, :, 9] == pytest.approx([1187.68, 3812.32], rel=1e-5)
    assert np.degrees(r.displacements[0, 1, 3]) == pytest.approx(0.354, rel=2e-3)


def test_pinned_cantilever_held_by_a_knee() -> None:
    # Statics by hand: moments about the pin, 500 x 8 = B sin 45 x 3, so B = 1885.6 lb pressing
    # and the pin holds down 833.3 lb (a two-force member in a frame: Hibbeler, Statics, ch. 6).
    in_plane = (True, True, True, True, False, True)
    model = Model(
        nodes=(node((0, 0, 0)), node((3, 0, 0)), node((8, 0, 0)), node((0, 0, -3))),
        members=(member(0, 1), member(1, 2), member(3, 1, free=HINGED)),
        supports=(Support(node=0, fixed=in_plane), Support(node=3, fixed=FIXED)),
        unit_loads=(point(2, Fz=-500.0),),
    )
    r = respond(model)
    assert r.member_forces[0, 2, 0] == pytest.approx(1885.6, rel=1e-4)
    assert r.member_forces[0, 2, 6] == pytest.approx(-1885.6, rel=1e-4)
    assert r.reactions[0, 0, 2] == pytest.approx(-833.3, rel=1e-4)
