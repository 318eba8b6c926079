"""U-bolts: belt friction integrated, prying by equilibrium with a contact that only pushes."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, linprog

from frame.checks.check import Kind
from frame.checks.fasteners.u_bolt import (
    RailLoads,
    UBolt,
    expected_u_bolt_grip,
    expected_u_bolt_tension,
    u_bolt_grip,
    u_bolt_tension,
)
from frame.units import FT_LB, INCH, KSI, LB
from tests.step_check import assert_steps, printed

BOLT = UBolt(
    diameter=3 / 8 * INCH,
    stress_area=0.0775 * INCH**2,
    torque=15 * FT_LB,
    tensile=48 * KSI,
    proof=2500 * LB,
    beam_od=3.5 * INCH,
)


def loads(turning=0.0, sliding=0.0, lift=0.0):
    return RailLoads(turning=turning, sliding=sliding, lift=lift)


@pytest.mark.parametrize("lift", [0.0, 500.0, 2000.0])
@pytest.mark.parametrize("turning", [0.0, 20.0, 90.0, 400.0])
def test_leg_pull_by_equilibrium(lift, turning):
    """Second route: least worst-leg pull with T1, T2, C >= 0, T1+T2-C = U, (T1-T2) s/2 = M."""
    s = BOLT.beam_od + BOLT.diameter
    answer = linprog(
        [1, 0, 0],
        A_eq=[[1, 1, -1], [s / 2, -s / 2, 0]],
        b_eq=[lift, turning],
        bounds=[(0, None)] * 3,
    )
    assert u_bolt_tension(lift, turning, BOLT).demand == pytest.approx(answer.fun, abs=1e-9)


def test_preload_by_hand():
    """15 ft-lb on 3/8 in at nut factor 0.2: 180 / 0.075 = 2400 lb."""
    assert printed(u_bolt_grip(loads(), BOLT).steps, "F") == pytest.approx(2400 * LB, rel=1e-6)


def test_no_preload_beyond_proof():
    tight = replace(BOLT, torque=40 * FT_LB)
    assert printed(u_bolt_grip(loads(), tight).steps, "F") == pytest.approx(2500 * LB)


def slipping_legs(mu: float) -> tuple[float, float]:
    """Pulls of both legs as the rod slips round half the beam, of 2 together.

    Every piece of rod presses with T dtheta and rubs with mu of it: dT/dtheta = mu T; the pull of
    one leg is sought that leaves the two together as tightened.
    """

    def other_leg(first):
        rope = solve_ivp(lambda _, T: mu * T, (0, np.pi), [first], rtol=1e-10, atol=1e-12)
        return float(rope.y[0, -1])

    first = brentq(lambda T: T + other_leg(T) - 2.0, 1e-6, 1.0)
    return first, other_leg(first)


@pytest.mark.parametrize("mu", [0.05, 0.13, 0.2, 0.32, 0.6])
def test_rod_round_the_beam_by_integration(mu):
    """What all pieces of rod rub is what the legs differ by."""
    first, other = slipping_legs(mu)
    apart = printed(u_bolt_grip(loads(), replace(BOLT, friction=mu)).steps, "w")
    assert apart == pytest.approx((other - first) / 2.0, rel=1e-7)
    pieces = np.linspace(0, np.pi, 100001)
    rubbed = np.trapezoid(mu * first * np.exp(mu * pieces), pieces)
    assert apart == pytest.approx(rubbed / 2.0, rel=1e-7)


@pytest.mark.parametrize("lift", [0.0, 2000.0, 3e4])
@pytest.mark.parametrize("turning", [20.0, 90.0, 400.0, 1e5])
@pytest.mark.parametrize("mu", [0.13, 0.32])
def test_a_leg_is_pried_until_the_rod_slips_by_equilibrium(lift, turning, mu):
    """Second route: the most that legs rubbing so can pass of the turning, then its least pull.

    The legs, both at proof load or lifted to more, differ by no more than they do at slip; then
    T1, T2, C >= 0, T1 + T2 - C = U, (T1 - T2) s/2 = what is passed.
    """
    s = BOLT.beam_od + BOLT.diameter
    slack, tight = slipping_legs(mu)
    passed = linprog(
        [-s / 2, s / 2],
        A_ub=[[1, -tight / slack], [1, 1], [s / 2, -s / 2]],
        b_ub=[0, max(2 * BOLT.proof, lift), turning],
    )
    answer = linprog(
        [1, 0, 0],
        A_eq=[[1, 1, -1], [s / 2, -s / 2, 0]],
        b_eq=[lift, -passed.fun],
        bounds=[(0, None)] * 3,
    )
    pull = expected_u_bolt_tension(lift, turning, BOLT, mu).demand
    assert pull == pytest.approx(answer.fun, rel=1e-6)


def test_turning_alone_breaks_no_leg():
    """Proof loads of 0.55 Fu A apart by (e^(0.32 pi) - 1) / (e^(0.32 pi) + 1) = 0.4642 of both:
    0.511 of what a leg holds, though its rail be turned as hard as can be, at any torque.
    """
    for torque in (1.0, 15.0, 60.0):
        rod = replace(BOLT, torque=torque * FT_LB, proof=0.55 * BOLT.tensile * BOLT.stress_area)
        check = expected_u_bolt_tension(0.0, 1e6, rod, 0.32)
        assert check.let_go == pytest.approx(0.5106, rel=1e-3)


@pytest.mark.parametrize("mu", [0.05, 0.15, 0.2, 0.3])
def test_a_rod_at_its_crown_alone_holds_less(mu):
    """Touching at the crown both legs press there: 4 F mu with the rail's face, the least."""
    bolt = replace(BOLT, friction=mu, kept=1.0)
    crown = 4 * printed(u_bolt_grip(loads(), bolt).steps, "F") * mu
    assert crown <= u_bolt_grip(loads(), bolt).nominal <= 1.3 * crown


def test_grip_against_turning_by_hand():
    """e^(0.15 pi) = 1.6020, legs apart by 0.6020 / 2.6020 = 0.2314 of both; with 0.15 of the face
    0.3814 of 2400 lb kept of 4800: 915 lb.
    """
    check = u_bolt_grip(loads(10.0), BOLT)
    assert check.nominal == pytest.approx(915 * LB, rel=1e-3)
    assert check.nominal == pytest.approx(2 * check.allowable)
    assert "factor 2" in check.source
    assert check.kind is Kind.TILTS


def test_expected_grip_by_hand():
    """e^(0.2 pi) = 1.8745, 0.8745 / 2.8745 = 0.3042; 0.5042 of 0.7 x 4800 lb is 1694 lb."""
    check = expected_u_bolt_grip(loads(10.0), replace(BOLT, kept=0.7, friction=0.2))
    assert check.nominal == check.allowable == pytest.approx(1694 * LB, rel=1e-3)
    assert "factor" not in check.source.replace("nut factor", "")
    assert check.kind is Kind.TILTS


def test_rails_slip_as_one():
    """Turning shared unevenly among rails that the panels tie counts as if shared evenly."""
    even = u_bolt_grip(loads(np.full((1, 4), 50.0), np.zeros(4), np.zeros((1, 4))), BOLT)
    uneven = u_bolt_grip(
        loads(np.array([[10.0, 30, 70, 90]]), np.zeros(4), np.zeros((1, 4))), BOLT
    )
    assert uneven.utilisation == pytest.approx(even.utilisation)
    one = u_bolt_grip(loads(50.0), BOLT)
    assert even.utilisation == pytest.approx([float(one.utilisation)])
    assert even.nominal == pytest.approx([4 * float(one.nominal)])
    two_each = u_bolt_grip(loads(np.full(4, 100.0), np.zeros(4), np.zeros(4)), BOLT, count=2)
    assert two_each.utilisation == pytest.approx(one.utilisation)


def test_rails_pulled_apart_slip_no_further_than_the_panels_let_them():
    """Guys at opposite corners: 300 N each way are 600 for the margin, expected nothing."""
    apart = loads(np.array([40.0, -40.0]), np.array([300.0, -300.0]), np.zeros(2))
    assert u_bolt_grip(apart, BOLT).demand == pytest.approx(np.hypot(80 / (1.75 * INCH), 600))
    assert expected_u_bolt_grip(apart, BOLT).demand == pytest.approx(0.0, abs=1e-9)


def test_lift_takes_the_face_and_leaves_the_rod():
    """1000 lb of lift takes 0.15 of itself; more than the clamp the whole face, 0.15 x 2400 lb.

    Of two U-bolts on the rail 0.15 x 4800 lb.
    """
    free, some, much = (u_bolt_grip(loads(10.0, 0.0, u * LB), BOLT).nominal for u in (0, 1e3, 1e6))
    assert free - some == pytest.approx(150 * LB, rel=1e-6)
    assert free - much == pytest.approx(360 * LB, rel=1e-6)
    one_lifts = u_bolt_grip(loads(np.zeros(2), np.zeros(2), np.array([1e6, -1e6])), BOLT)
    assert one_lifts.nominal == pytest.approx(free + much)
    two = [u_bolt_grip(loads(10.0, 0.0, u * LB), BOLT, 2).nominal for u in (0, 1e6)]
    assert two[0] - two[1] == pytest.approx(720 * LB, rel=1e-6)


def test_pressing_down_is_not_credited():
    pressed, free = (u_bolt_grip(loads(10.0, 5.0, u), BOLT).nominal for u in (-1e4, 0.0))
    assert pressed == free
    assert u_bolt_tension(-1e4, 0.0, BOLT).utilisation == 0


def test_tension_by_hand():
    """48 ksi on 0.0775 in2 is 3720 lb, 1860 allowed; expected 58 ksi, 4495 lb, times a share."""
    assert u_bolt_tension(1.0, 0.0, BOLT).allowable == pytest.approx(1860 * LB, rel=1e-3)
    expected = expected_u_bolt_tension(1.0, 0.0, replace(BOLT, tensile=58 * KSI), 0.3, 0.8)
    assert expected.nominal == expected.allowable == pytest.approx(0.8 * 4495 * LB, rel=1e-3)
    assert expected.kind is Kind.BREAKS


def test_steps():
    lift = np.array([[0.0, 800.0], [3000.0, -50.0], [3000.0, 1e6]])
    several = loads(np.array([[40.0, -20.0]]), np.array([[300.0, 20.0]]), lift)
    expected = replace(BOLT, kept=np.array([0.5, 0.7, 0.9]), friction=np.array([0.1, 0.2, 0.3]))
    for index in range(3):
        assert_steps(u_bolt_grip(several, BOLT, 2), index)
        assert_steps(expected_u_bolt_grip(several, expected, 2), index)
        assert_steps(u_bolt_tension(lift[:, 0], -60.0, BOLT), index)
        for turning in (-60.0, 2e4):
            pulled = expected_u_bolt_tension(lift[:, 0], turning, BOLT, 0.32, 0.8)
            assert_steps(pulled, index)
