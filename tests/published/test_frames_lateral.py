"""Lateral, torsional and twisted buckling of shafts, beams and cantilevers, in sixteen pieces.

Timoshenko and Gere, Theory of Elastic Stability, 2nd ed., ch. 6, for a narrow section (no warping,
bent first the stiff way): uniform moment between forks, Eq. 6-10; cantilever with a load at its
tip, Eq. 6-23, P = 4.013 sqrt(E Iy G J) / L^2, and at a height a, Eq. 6-24 (small a); load spread
along the cantilever, 12.85; fork-ended beams with a load at the middle, 16.94, or spread, 28.3
(tables of sec. 6.3). Torsional buckling of a column by its own twist, P = G J A / (Iy + Iz),
sec. 5.5.
Shafts by torque: sec. 2.21 (Greenhill). The book's coefficients are from memory; those that can
be derived in a line or two are.
"""

from math import pi, sqrt

import numpy as np
import pytest
from scipy.linalg import det
from scipy.optimize import brentq

from frame.fem.cases import solve
from frame.fem.model import Connection, Model, Support, UnitLoad
from frame.fem.response import respond
from frame.fem.second_order.buckling import buckling_factors
from tests.unit.fem.builders import FIXED, GLOBAL_AXES, RIGID, member, node, point

L, PIECES = 3.0, 16
E, G = 200e9, 77e9
FLAT = {"A": 5e-3, "Iy": 8e-4, "Iz": 1e-6, "J": 1e-7, "E": E, "G": G}
ROUND = {**FLAT, "A": 0.1, "Iz": 8e-4, "J": 1.6e-3}
SQRT = sqrt(E * FLAT["Iz"] * G * FLAT["J"])
BUILT_IN = (Support(node=0, fixed=FIXED),)
FORKS = (
    Support(node=0, fixed=(True, True, True, True, False, False)),
    Support(node=PIECES, fixed=(False, True, True, True, False, False)),
)
MIDDLE = (point(PIECES // 2, Fz=-1.0),)
TIP = (point(PIECES, Fz=-1.0),)
SPREAD = (
    UnitLoad(name="w", acts="after", members=tuple((i, (0, 0, -1.0)) for i in range(PIECES))),
)
ENDS = (
    UnitLoad(
        name="M", acts="after", nodes=((0, (0, 0, 0, 0, 1.0, 0)), (PIECES, (0, 0, 0, 0, -1.0, 0)))
    ),
)


def bar(section: dict[str, float], supports, loads) -> Model:
    return Model(
        nodes=tuple(node((L * i / PIECES, 0, 0)) for i in range(PIECES + 1)),
        members=tuple(member(i, i + 1, **section) for i in range(PIECES)),
        supports=supports,
        unit_loads=loads,
    )


def critical(model: Model, factors: list[float] | None = None) -> float:
    loads = [1.0] * len(model.unit_loads) if factors is None else factors
    return float(buckling_factors(solve(respond(model), loads), [0])[0])


@pytest.mark.parametrize(
    ("supports", "loads", "power", "printed"),
    [
        (FORKS, ENDS, 1, pi),
        (BUILT_IN, TIP, 2, 4.013),
        (BUILT_IN, SPREAD, 3, 12.85),
        (FORKS, MIDDLE, 2, 16.94),
        (FORKS, SPREAD, 3, 28.3),
    ],
    ids=["forks, moment", "tip", "cantilever, spread", "forks, middle", "forks, spread"],
)
def test_a_narrow_beam_buckles_sideways(supports, loads, power: int, printed: float) -> None:
    found = critical(bar(FLAT, supports, loads))
    assert found * L**power / SQRT == pytest.approx(printed, rel=6e-3)


@pytest.mark.parametrize("height", [-0.006, -0.003, 0.003, 0.006])
def test_height_of_the_load_on_a_cantilever(height: float) -> None:
    # P = 4.013 sqrt(E Iy G J) / L^2 (1 - a / L sqrt(E Iy / G J)).
    base = bar(FLAT, BUILT_IN, ())
    end = Connection(name="arm", ends=(PIECES, PIECES + 1), axes=GLOBAL_AXES, k=RIGID)
    model = Model(
        nodes=(*base.nodes, node((L, 0, height))),
        members=base.members,
        connections=(end,),
        supports=BUILT_IN,
        unit_loads=(point(PIECES + 1, Fz=-1.0),),
    )
    share = height / L * sqrt(E * FLAT["Iz"] / (G * FLAT["J"]))
    slope = critical(model) / critical(bar(FLAT, BUILT_IN, TIP)) - 1
    assert slope == pytest.approx(-share, rel=0.05)


def test_a_column_twists() -> None:
    # A cross of thin plates: equal I, hardly any J; no warping.
    cross = {**FLAT, "Iy": 8e-5, "Iz": 8e-5, "J": 1e-8}
    polar = (cross["Iy"] + cross["Iz"]) / cross["A"]
    found = critical(bar(cross, BUILT_IN, (point(PIECES, Fx=-1.0),)))
    assert found == pytest.approx(G * cross["J"] / polar, rel=1e-6)


def twisted(P: float) -> float:
    """Torque T (E I = 1) that buckles a shaft built in at both ends under a thrust P.

    z = v + i w bends by z'''' + P z'' - i T z''' = 0, so z = A + B x + C exp(i a x) + D exp(i b x)
    with a, b = (T +- sqrt(T^2 + 4 P)) / 2, and z = z' = 0 at both ends.
    """

    def singular(T: float) -> float:
        a, b = ((T + s * sqrt(T**2 + 4 * P)) / 2 for s in (1, -1))
        rows = [
            [1, 0, 1, 1],
            [0, 1, 1j * a, 1j * b],
            [1, L, np.exp(1j * a * L), np.exp(1j * b * L)],
            [0, 1, 1j * a * np.exp(1j * a * L), 1j * b * np.exp(1j * b * L)],
        ]
        # A common factor turns it imaginary.
        return float((det(np.array(rows)) * np.exp(-1j * (a + b) * L / 2)).imag)

    return float(brentq(singular, 4.0 / L, 8.99 / L)) if P else 8.98682 / L


@pytest.mark.parametrize("thrust", [0.0, 0.25, 0.6])
def test_a_shaft_buckles_by_torque_and_thrust(thrust: float) -> None:
    # Greenhill: without thrust tan(T L / 2 E I) = T L / 2 E I, T L / E I = 8.987.
    EI = E * ROUND["Iy"]
    P = thrust * 4 * pi**2 / L**2
    T = twisted(P)
    held = (False, True, True, False, True, True)
    supports = (*BUILT_IN, Support(node=PIECES, fixed=held))
    model = bar(ROUND, supports, (point(PIECES, Mx=1.0), point(PIECES, name="P", Fx=-1.0)))
    assert critical(model, [T * EI, P * EI]) == pytest.approx(1.0, rel=3e-3)
