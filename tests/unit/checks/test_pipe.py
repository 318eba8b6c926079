"""Branches, limits and steps of the pipe and brace checks."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.checks.steel import brace, pipe
from frame.checks.steel.pipe import Forces
from frame.checks.steel.pipe_strength import (
    RoundPipe,
    begun,
    bending_strength,
    column_strength,
    shear_strength,
    twisting_strength,
)
from frame.geometry.tube import RoundTube, Tube
from tests.step_check import assert_steps, printed

E, FY, FU = 200e9, 240e6, 410e6


def round_pipe(od: float = 0.1143, wall: float = 0.0056, fy: float = FY) -> RoundPipe:
    return RoundPipe(tube=Tube(od, wall), Fy=fy, Fu=FU, E=E)


def thin(ratio: float) -> RoundPipe:
    """A pipe of D/t = ratio times E/Fy."""
    return round_pipe(0.5, 0.5 / (ratio * E / FY))


CASES = Forces(
    N=np.array([0.0, -2e4, 3e4, -9e4, -9e4]),
    My=np.array([4e3, -3e3, 2e3, 1e3, 0.0]),
    Mz=np.array([1e3, 2e3, 0.0, -1e3, 0.0]),
    Vy=5e3,
    Vz=np.array([0.0, 1e3, 2e3, 3e3, 0.0]),
    T=np.array([0.0, 8e2, 4e3, -6e3, 0.0]),
)
CHECKS = {
    "compression": pipe.compression(round_pipe(), np.array([1e4, -1e4, 9e4]), 3.0),
    "slender wall": pipe.compression(thin(0.3), 1e5, 3.0),
    "long": pipe.compression(round_pipe(), 1e4, 9.0),
    "tension": pipe.tension(round_pipe(), np.array([1e4, -1e4])),
    "bent, noncompact": pipe.interaction(thin(0.2), Forces(N=0.0, My=1e4), 3.0),
    "bent, slender": pipe.interaction(thin(0.4), Forces(N=0.0, My=1e4), 3.0),
    "shorn": pipe.interaction(round_pipe(), Forces(N=0.0, Vy=1e4, Vz=np.array([0.0, 5e3])), 2.0),
    "interaction": pipe.interaction(round_pipe(), CASES, 3.0, 1.5),
    "brace buckling": brace.buckling(round_pipe(), np.array([-3e4, 3e4]), 1.4),
    "brace pull": brace.pull(round_pipe(), np.array([-3e4, 3e4])),
    "brace bent": brace.bent(round_pipe(0.06, 0.004), CASES, 1.4, 0.02),
}


@pytest.mark.parametrize("name", CHECKS)
def test_every_step_works_out(name: str) -> None:
    check = CHECKS[name]
    for index in np.ndindex(np.shape(check.utilisation)):
        assert_steps(check, index)


def test_the_section_by_integrals_over_the_ring() -> None:
    """Second route: dA = r dr dt summed over the wall, moments of it about a diameter."""
    r = np.linspace(0.1143 / 2 - 0.0056, 0.1143 / 2, 4001)
    area = np.trapezoid(2 * np.pi * r, r)
    inertia, polar = np.trapezoid(np.pi * r**3, r), np.trapezoid(2 * np.pi * r**3, r)
    by_integrals = {
        "A": area,
        "r": np.sqrt(inertia / area),
        "S": inertia / (0.1143 / 2),
        "Z": np.trapezoid(4 * r**2, r),
        "C": polar / (0.1143 / 2),
    }
    steps = pipe.interaction(round_pipe(), CASES, 3.0).steps
    for symbol, value in by_integrals.items():
        assert printed(steps, symbol) == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize(
    ("diameters", "by_shear", "by_torque"),
    [(1, 144.0, 144.0), (9, 66.48, 51.11), (100, 22.22, 17.09)],
)
def test_shear_stress_of_a_thin_wall_by_hand(diameters, by_shear, by_torque) -> None:
    """AISC 360-22 Eq. G5-2, H3-2 (from memory of the standard), E 200 GPa, Fy 240 MPa.

    D/t = 0.44 E/Fy = 366.7, to the 1.25 is 1604.6, to the 1.5 is 7021.3. A length of D: 0.6 Fy.
    Of 9 D: 1.60 E / (3 x 1604.6), 1.23 E / (3 x 1604.6). Of 100 D: 0.78 E / 7021, 0.60 E / 7021.
    """
    length = diameters * 0.5
    steps = pipe.interaction(thin(0.44), Forces(N=0.0), length).steps
    assert printed(steps, "Fv") == pytest.approx(by_shear * 1e6, rel=1e-3)
    assert printed(steps, "Ft") == pytest.approx(by_torque * 1e6, rel=1e-3)
    tube = thin(0.44).tube
    assert printed(steps, "Vn") == pytest.approx(by_shear * 1e6 * tube.area / 2, rel=1e-3)
    polar = tube.torsion_constant / (tube.od / 2)
    assert printed(steps, "Tn") == pytest.approx(by_torque * 1e6 * polar, rel=1e-3)


def test_shear_counts_by_itself_where_little_else_acts() -> None:
    """AISC 360-22 G5 (from memory): 0.6 x 240 MPa on half of the area, over 1.67, of a stub.

    pi x 108.7 mm x 5.6 mm = 1912 mm2: 137.7 kN, 82.4 kN allowed. With as much bending as brings
    half of its use, that is less and changes nothing.
    """
    stub, load = round_pipe(), 0.9 * 82.4e3
    bending = 0.45 * float(bending_strength(begun(stub))) / 1.67
    for M, T in ((0.0, 0.0), (bending, 0.0), (bending, 100.0)):
        check = pipe.interaction(stub, Forces(N=0.0, My=M, Vy=load, T=T), 0.1)
        assert float(check.utilisation) == pytest.approx(0.9, rel=1e-3)
        assert float(check.let_go) == pytest.approx(0.9 / 1.67, rel=1e-3)


def test_demand_over_nominal_is_the_sum_at_nominal_strengths() -> None:
    # The same equations with Omega = 1 throughout.
    check = pipe.interaction(round_pipe(), Forces(N=-5e4, My=3e3), 3.0)
    Pn, Mn = column_strength(begun(round_pipe()), 3.0), bending_strength(begun(round_pipe()))
    p, m = 5e4 / Pn, 3e3 / Mn
    expected = p + 8 / 9 * m if p >= 0.2 else p / 2 + m
    assert float(check.let_go) == pytest.approx(expected)


def test_expected_strength_case_by_case_is_the_nominal_one_of_each_wall_and_yield() -> None:
    walls, yields = np.array([0.0052, 0.0056, 0.006]), np.array([200e6, 240e6, 390e6])
    tubes = RoundTube(od=np.full(3, 0.1143), wall=walls)
    plain = {"Fu": 600e6, "E": E, "safety": 1.0, "rupture_safety": 1.0}
    every = RoundPipe(tube=tubes, Fy=yields, **plain)
    load = Forces(N=-5e4, My=3e3, Vy=4e3, T=2e3)
    whole = pipe.interaction(every, load, 3.0)
    for i in range(3):
        one = RoundPipe(tube=Tube(0.1143, walls[i]), Fy=yields[i], Fu=600e6, E=E)
        alone = pipe.interaction(one, load, 3.0)
        assert whole.utilisation[i] == pytest.approx(float(alone.let_go))
        assert whole.let_go[i] == pytest.approx(float(alone.let_go))
        assert_steps(whole, i)
    push, pull = (f(every, x) for f, x in ((brace.pull, 2e4), (brace.pull, -2e4)))
    assert push.utilisation == pytest.approx(2e4 / (yields * tubes.area))
    assert not np.any(pull.utilisation)
    assert_steps(brace.bent(every, load, 1.4, 0.02), 1)


def test_all_branches_of_the_interaction_are_reached() -> None:
    check = pipe.interaction(round_pipe(), CASES, 3.0)
    values = {s.symbol: np.broadcast_to(s.value, (5,)) for s in check.steps}
    p, w = values["p"], values["w"]
    assert ((p < 0.2) & (w <= 0.2)).any()
    assert ((p >= 0.2) & (w <= 0.2)).any()
    assert (w > 0.2).any()


def test_all_together_from_the_single_checks() -> None:
    """AISC 360-22 Eq. H3-6, H1-1a, H1-1b (from memory of the standard), each share by itself."""
    a_pipe, L, Lv = round_pipe(), 3.0, 1.5
    push = float(pipe.compression(a_pipe, 0.0, L).allowable)
    bending = float(bending_strength(begun(a_pipe))) / 1.67
    shear = float(shear_strength(begun(a_pipe), Lv)) / 1.67
    twist = float(twisting_strength(begun(a_pipe), L)) / 1.67
    for N, M, V, T in (
        *((-share * push, 2e3, 9e3, 0.0) for share in (0.19, 0.21)),
        *((-2e4, 2e3, 9e3, share * twist) for share in (0.19, 0.21)),
        (-3e4, 2e3, 9e3, 4e3),
        (3e4, 2e3, 9e3, 4e3),
        (-2e5, 2e3, 9e3, 9e2),
        (-2e4, 2e3, 9e3, 9e2),
        (2e4, 2e3, 9e3, 9e2),
    ):
        p = max(pipe.compression(a_pipe, -N, L).utilisation, pipe.tension(a_pipe, N).utilisation)
        m, v, w = M / bending, V / shear, T / twist
        assert v > 0.05
        by_hand = max(p / 2 + m, v)
        if w > 0.2:
            by_hand = p + m + (v + w) ** 2
        elif p >= 0.2:
            by_hand = max(p + 8 / 9 * m, v)
        found = pipe.interaction(a_pipe, Forces(N=N, My=M, Vy=V, T=T), L, Lv)
        assert found.utilisation == pytest.approx(float(by_hand), rel=1e-9)


def test_shapes_broadcast_over_cases_and_stations() -> None:
    forces = Forces(N=np.zeros((6, 1)), My=np.ones((6, 9)), T=np.zeros(9))
    assert pipe.interaction(round_pipe(), forces, 3.0).utilisation.shape == (6, 9)


def test_nothing_at_rest_and_nothing_for_the_other_sense() -> None:
    assert float(pipe.interaction(round_pipe(), Forces(N=0.0), 3.0).utilisation) == 0
    assert float(pipe.compression(round_pipe(), -1e4, 3.0).utilisation) == 0
    assert float(pipe.tension(round_pipe(), -1e4).utilisation) == 0


def test_too_thin_a_wall_is_not_covered() -> None:
    for check in (
        pipe.compression(thin(0.46), 1e3, 3.0),
        pipe.interaction(thin(0.46), CASES, 3.0),
    ):
        assert np.isnan(check.utilisation).all()


def test_wall_limits_leave_no_step_up() -> None:
    # Crossing a limit towards a thinner wall never raises the strength per area or modulus.
    for limit in (0.07, 0.11, 0.31):
        thick, thinner = thin(limit * 0.9999), thin(limit * 1.0001)
        for strength in (bending_strength, lambda sheet: column_strength(sheet, 1.0)):
            assert strength(begun(thinner)) <= strength(begun(thick)) * 1.0005


def test_splice_counts_by_its_efficiency() -> None:
    whole, spliced = (
        pipe.interaction(p, Forces(N=0.0, My=1e3), 3.0).utilisation
        for p in (round_pipe(), round_pipe().spliced(0.7))
    )
    assert float(spliced) == pytest.approx(float(whole) / 0.7)


def test_eccentric_brace_against_the_differential_equation() -> None:
    # EI w'' + P (w + e) = 0 with w = 0 at both ends, by finite differences; the bow is a half
    # sine: EI w'' + P (w + b sin(pi x / L)) = 0. The moments are P times the whole offset.
    tube, length, offset, push = Tube(0.0603, 0.0037), 2.0, 0.02, 4e4
    bow = length / 1000
    n = 2001
    x = np.linspace(0, length, n)
    h = x[1] - x[0]
    shape = offset + bow * np.sin(np.pi * x / length)
    stiffness = E * tube.second_moment / h**2
    matrix = (
        np.diag(np.full(n - 2, push - 2 * stiffness))
        + np.diag(np.full(n - 3, stiffness), 1)
        + np.diag(np.full(n - 3, stiffness), -1)
    )
    bend = np.linalg.solve(matrix, -push * shape[1:-1])
    expected = push * (bend + shape[1:-1]).max()
    check = brace.bent(RoundPipe(tube=tube, Fy=FY, Fu=FU, E=E), Forces(N=-push), length, offset)
    found = next(s.value for s in check.steps if s.symbol == "Me")
    assert float(found) == pytest.approx(expected, rel=1e-5)


def test_a_brace_pushed_past_its_elastic_buckling_load_is_used_ever_more() -> None:
    """Past Euler's load the bow has no end (Timoshenko and Gere, 1.12): no push makes it less."""
    tube = Tube(0.0603, 0.0037)
    euler = np.pi**2 * E * tube.second_moment / 3.0**2
    pushes = euler * np.linspace(0.5, 4.0, 60)
    check = brace.bent(RoundPipe(tube=tube, Fy=FY, Fu=FU, E=E), Forces(N=-pushes), 3.0, 0.02)
    assert (np.diff(check.utilisation) > 0).all()
    assert (check.utilisation[pushes > euler] > 5).all()


def up_to(most: float) -> st.SearchStrategy[float]:
    """Forces either way, nil among them, none so small that floats hold it to few digits."""
    return st.floats(-most, most).filter(lambda x: x == 0 or abs(x) > 1e-9)


walls = st.floats(0.002, 0.012)
lengths = st.floats(0.1, 9)


forces = st.builds(Forces, N=up_to(2e5), My=up_to(9e3), Mz=up_to(9e3), Vy=up_to(3e4), T=up_to(6e3))


@given(walls, walls, lengths, forces)
def test_thicker_pipe_is_never_used_more(a: float, b: float, L: float, f: Forces) -> None:
    thin_wall, thick_wall = (round_pipe(0.1143, w) for w in sorted((a, b)))
    for check in (
        lambda p: pipe.compression(p, np.negative(f.N), L),
        lambda p: pipe.tension(p, f.N),
        lambda p: pipe.interaction(p, Forces(N=0.0, My=f.My, Mz=f.Mz), L),
        lambda p: pipe.interaction(p, Forces(N=0.0, Vy=f.Vy, Vz=f.Vz), L),
        lambda p: pipe.interaction(p, Forces(N=0.0, T=f.T), L),
    ):
        for use in ("utilisation", "let_go"):
            assert getattr(check(thick_wall), use) <= getattr(check(thin_wall), use) * (1 + 1e-9)


@given(walls, walls, st.floats(2e8, 4e8), lengths, forces)
def test_thicker_pipe_never_goes_sooner_all_together(
    a: float, b: float, fy: float, L: float, f: Forces
) -> None:
    # The two sums of H1-1 meet at 1 only: above it a smaller share of push may add up to more.
    thin_wall, thick_wall = (
        pipe.interaction(round_pipe(0.1143, w, fy), f, L).let_go for w in sorted((a, b))
    )
    assert thin_wall > 1 or thick_wall <= thin_wall * (1 + 1e-9)


@given(walls, lengths, lengths, st.floats(0, 2e5))
def test_longer_pipe_is_never_used_less(wall: float, a: float, b: float, push: float) -> None:
    short, long = sorted((a, b))
    p = round_pipe(0.1143, wall)
    less, more = (pipe.compression(p, push, x).utilisation for x in (short, long))
    assert less <= more * (1 + 1e-9)


@given(forces, lengths)
def test_signs_of_bending_shear_and_torque_do_not_matter(f: Forces, L: float) -> None:
    turned = Forces(N=f.N, My=-f.Mz, Mz=f.My, Vy=-f.Vy, T=-f.T)
    one, other = (pipe.interaction(round_pipe(), x, L).utilisation for x in (f, turned))
    assert float(one) == pytest.approx(float(other))


@given(forces, lengths)
def test_torque_added_never_lowers_the_use(f: Forces, L: float) -> None:
    still = Forces(N=f.N, My=f.My, Mz=f.Mz, Vy=f.Vy)
    less, more = (pipe.interaction(round_pipe(), x, L) for x in (still, f))
    assert less.utilisation <= more.utilisation + 1e-12
    assert less.let_go <= more.let_go + 1e-12


@pytest.mark.parametrize("push", [0.0, 1e-300])
def test_torque_by_itself_under_a_fifth_of_the_strength_uses_none_of_it(push: float) -> None:
    """AISC 360-22 H3.2: torque up to a fifth may be neglected.

    The torque allowed, Tn/1.67, is reached to a fifth before Tn is: between the two the torque
    counts for the code's margin as (T/Tc)^2, Eq. H3-6, and not at all for the strength.
    """
    strength = float(twisting_strength(begun(round_pipe()), 3.0))
    share = np.array([0.19, 0.21, 0.3, 0.33])
    check = pipe.interaction(round_pipe(), Forces(N=push, T=share * strength / 1.67), 3.0)
    assert check.utilisation == pytest.approx(np.where(share > 0.2, share**2, 0.0), abs=1e-12)
    assert check.let_go == pytest.approx(0.0, abs=1e-12)
    beyond = Forces(N=push, T=0.21 * strength)
    assert pipe.interaction(round_pipe(), beyond, 3.0).let_go == pytest.approx(0.21**2)
