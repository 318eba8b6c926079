"""Natural frequencies against closed forms."""

from math import pi, sqrt

import numpy as np
import pytest
import scipy.sparse.linalg as iterative

from frame.fem.model import Guy, Model, Support
from frame.fem.modes import frequencies
from frame.fem.response import respond
from tests.unit.fem.builders import FIXED, PIPE, member, node, post_and_beam

EI = PIPE["E"] * PIPE["Iy"]


def cantilever(pieces: int, length: float = 2.0, **more) -> Model:
    return Model(
        nodes=tuple(node((0, 0, length * i / pieces)) for i in range(pieces + 1)),
        members=tuple(member(i, i + 1) for i in range(pieces)),
        supports=(Support(node=0, fixed=FIXED),),
        **more,
    )


def test_mass_on_a_cantilever_tip() -> None:
    # Rayleigh with the static shape is exact for one mass: f = sqrt(3 E I / (m L^3)) / 2 pi.
    mass, length = 80.0, 2.0
    modes = frequencies(cantilever(1), [0.0, mass])
    bend = sqrt(3 * EI / (mass * length**3)) / (2 * pi)
    stretch = sqrt(PIPE["E"] * PIPE["A"] / (mass * length)) / (2 * pi)
    assert modes.frequency == pytest.approx([bend, bend, stretch])
    assert modes.shape.shape == (3, 2, 6)
    assert np.abs(modes.shape).max(axis=(1, 2)) == pytest.approx(1.0)


@pytest.mark.parametrize("pieces", [10, 40])
def test_uniform_cantilever(pieces: int) -> None:
    # Blevins, Formulas for Natural Frequency and Mode Shape, Table 8-1: lambda = 1.8751, 4.6941.
    per_metre, length = 15.0, 2.0
    mass = np.full(pieces + 1, per_metre * length / pieces)
    mass[[0, -1]] /= 2
    found = frequencies(cantilever(pieces), mass, count=4).frequency
    first, second = (
        x**2 / (2 * pi * length**2) * sqrt(EI / per_metre) for x in (1.87510407, 4.69409113)
    )
    assert found == pytest.approx([first, first, second, second], rel=1.3 / pieces)
    assert found[0] <= first


def test_rayleigh_bounds_the_first_frequency_from_above() -> None:
    model = post_and_beam(guys=False)
    mass = np.array([5.0] * len(model.nodes))
    modes = frequencies(model, mass)
    first = 2 * pi * modes.frequency[0]
    r = respond(model)
    for u, p in zip(r.displacements, (0, 1, 2), strict=True):
        at = model.unit_loads[p].nodes
        if model.unit_loads[p].members:
            continue
        work = sum(np.dot(six, u[i]) for i, six in at)
        rayleigh = sqrt(work / (mass[:, None] * u[:, :3] ** 2).sum())
        assert first <= rayleigh * (1 + 1e-9)
    assert (np.diff(modes.frequency) >= 0).all()


def test_a_taut_guy_adds_its_spring() -> None:
    guy = Guy(name="g", node=1, anchor=(-2.0, 0, 0), EA=1e6, pretension=100.0)
    model = cantilever(1, guys=(guy,))
    k = 1e6 / sqrt(8) * 0.5
    assert frequencies(model, [0, 50.0], count=1).frequency[0] == pytest.approx(
        sqrt(3 * EI / 8 / 50) / (2 * pi)
    )
    # Stiff along the post, so the guy's share along x counts alone (to the axial give).
    across, along = frequencies(model, [0, 50.0], count=2, taut=np.array([True])).frequency
    assert across == pytest.approx(sqrt(3 * EI / 8 / 50) / (2 * pi))
    assert along == pytest.approx(sqrt((3 * EI / 8 + k) / 50) / (2 * pi), rel=2e-3)


def test_fewer_masses_than_asked_for() -> None:
    assert len(frequencies(cantilever(12), [0.0] * 12 + [9.0], count=5).frequency) == 3


def test_in_full_where_lanczos_does_not_converge(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same modes by the dense solver as by Lanczos (scipy.linalg.eigh, LAPACK)."""
    model = cantilever(40)
    mass = np.linspace(1.0, 2.0, len(model.nodes))
    expected = frequencies(model, mass, 3)

    def gives_up(*_: object, **__: object) -> None:
        raise iterative.ArpackNoConvergence("no convergence", np.zeros(0), np.zeros((0, 0)))

    monkeypatch.setattr(iterative, "eigsh", gives_up)
    found = frequencies(model, mass, 3)
    np.testing.assert_allclose(found.frequency, expected.frequency, rtol=1e-6)
