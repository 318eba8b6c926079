"""AISC Steel Construction Manual, Table 3-23: continuous and overhanging beams."""

from itertools import pairwise

import numpy as np
import pytest

from frame.fem.cases import Answer, solve
from frame.fem.model import Model, Support, UnitLoad
from frame.fem.response import respond
from tests.unit.fem.builders import PIPE, member, node, point

EI = PIPE["E"] * PIPE["Iy"]


def beam(stops: list[float], held: list[int], load: UnitLoad) -> Answer:
    """A beam along x on knife edges at the `held` stops."""
    supports = tuple(
        Support(node=i, fixed=(i == held[0], True, i in held, True, False, True))
        for i in range(len(stops))
    )
    model = Model(
        nodes=tuple(node((x, 0, 0)) for x in stops),
        members=tuple(member(i, j) for i, j in pairwise(range(len(stops)))),
        supports=supports,
        unit_loads=(load,),
    )
    return solve(respond(model), [1.0])


def uniform(spans: int, w: float = 1.0) -> UnitLoad:
    members = tuple((i, (0.0, 0.0, -w)) for i in range(spans))
    return UnitLoad(name="uniform", acts="after", members=members)


def test_two_equal_spans() -> None:
    # Reactions 3/8, 10/8, 3/8 of w l; moment -w l^2 / 8 over the middle.
    answer = beam([0, 10, 20], [0, 1, 2], uniform(2))
    assert answer.reactions[0, :, 2] == pytest.approx([3.75, 12.5, 3.75])
    # Hogging is positive about y on a beam along x with z up.
    assert answer.along([0]).My[0, 0, -1] == pytest.approx(0.125 * 100)


def test_three_equal_spans() -> None:
    answer = beam([0, 10, 20, 30], [0, 1, 2, 3], uniform(3))
    assert answer.reactions[0, :, 2] == pytest.approx([4.0, 11.0, 11.0, 4.0])
    sections = answer.along([0, 1], stations=51)
    assert sections.My[0, 0, -1] == pytest.approx(0.100 * 100)
    assert -sections.My[0, 0].min() == pytest.approx(0.080 * 100)
    assert -sections.My[0, 1].min() == pytest.approx(0.025 * 100)


def test_uniform_load_over_one_overhang() -> None:
    # Case 24 with l = 10, a = 4, w = 1.
    answer = beam([0, 10, 14], [0, 1], uniform(2))
    assert answer.reactions[0, :2, 2] == pytest.approx([4.2, 9.8])
    sections = answer.along([0], stations=51)
    assert -sections.My[0, 0].min() == pytest.approx(8.82)
    assert sections.My[0, 0, -1] == pytest.approx(8.0)
    # V at the right of the first span: w (l^2 + a^2) / 2 l = 5.8.
    assert abs(sections.Vz[0, 0, -1]) == pytest.approx(5.8)


def test_load_at_the_end_of_an_overhang() -> None:
    # Case 26: R1 = P a / l, R2 = P (l + a) / l, tip P a^2 (l + a) / 3 E I.
    answer = beam([0, 10, 14], [0, 1], point(2, Fz=-3.0))
    assert answer.reactions[0, :2, 2] == pytest.approx([-1.2, 4.2])
    assert answer.displacements[0, 2, 2] == pytest.approx(-3 * 16 * 14 / (3 * EI))


def test_double_overhang_under_end_loads_bends_evenly() -> None:
    # Case 9 turned over: constant moment P a between the supports, no shear there.
    load = UnitLoad(
        name="ends",
        acts="after",
        nodes=((0, (0, 0, -2.0, 0, 0, 0)), (3, (0, 0, -2.0, 0, 0, 0))),
    )
    sections = beam([0, 3, 9, 12], [1, 2], load).along([1])
    assert sections.My[0, 0] == pytest.approx(np.full(5, 6.0))
    assert sections.Vz[0, 0] == pytest.approx(np.zeros(5), abs=1e-9)
