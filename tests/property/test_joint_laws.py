"""Laws of joints: more steel or more torque never raises the use; more load never lowers it."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from frame.checks.fasteners.lug import BoltedLug, bolted_lug
from frame.checks.fasteners.pin import PinnedWall, ThroughPin, pin_bearing, pin_bending, pin_shear
from frame.checks.fasteners.set_bolt import Grip, expected_set_bolt_grip, set_bolt_grip
from frame.checks.fasteners.sleeve import (
    BearingWall,
    Couple,
    expected_wall_bearing,
    wall_bearing,
)
from frame.checks.fasteners.u_bolt import (
    RailLoads,
    UBolt,
    expected_u_bolt_grip,
    expected_u_bolt_tension,
    u_bolt_grip,
    u_bolt_tension,
)
from frame.checks.welds.chord_wall import chord_wall
from frame.checks.welds.lug_wall import LugPull, LugWall, lug_wall
from frame.checks.welds.round_joint import BranchLoads, RoundJoint
from frame.checks.welds.weld import Metal, Ring, base_metal, ring_line, weld_metal

force = st.floats(-5e4, 5e4).filter(lambda x: x == 0 or abs(x) > 1e-6)
moment = st.floats(-5e3, 5e3).filter(lambda x: x == 0 or abs(x) > 1e-6)
more = st.floats(1.0, 3.0)
QUICK = settings(max_examples=60, deadline=None)


def not_up(before, after):
    """Neither use nor let-go ratio rises from `before` to `after` (a hair for rounding)."""
    for a, b in ((before.utilisation, after.utilisation), (before.let_go, after.let_go)):
        assert np.all((b <= a * (1 + 1e-9)) | (a == b))


@QUICK
@given(force, force, moment, moment, more)
def test_weld(N, V, M, T, k):
    def use(leg=0.004, wall=0.004, diameter=0.06, factor=1.0):
        metal = Metal(electrode=480e6, yield_stress=240e6, tensile=400e6, wall=wall)
        line = ring_line(
            factor * N, factor * V, factor * M, factor * T, Ring(diameter=diameter, leg=leg)
        )
        return (
            weld_metal(line, metal),
            base_metal(line, metal),
            weld_metal(line, metal, expected=1.1),
            base_metal(line, metal, factored=False),
        )

    for changed in ({"leg": 0.004 * k}, {"wall": 0.004 * k}, {"diameter": 0.06 * k}):
        for before, after in zip(use(), use(**changed), strict=True):
            not_up(before, after)
    for less, greater in zip(use(), use(factor=k), strict=True):
        not_up(greater, less)


@QUICK
@given(
    force,
    moment,
    moment,
    st.floats(-3e8, 3e8),
    more,
    st.floats(0.6, np.pi / 2),
    st.sampled_from([None, 1.2]),
)
def test_chord_wall(P, Mi, Mo, stress, k, angle, expected):
    def use(wall=0.003, branch=0.05, factor=1.0, own=stress):
        joint = RoundJoint(
            chord_od=0.1143,
            chord_wall=wall,
            branch_od=branch,
            branch_wall=0.004,
            chord_yield=240e6,
            chord_tensile=400e6,
            branch_yield=240e6,
            angle=angle,
        )
        loads = BranchLoads(
            axial=factor * P, in_plane=factor * Mi, out_of_plane=factor * Mo, chord_stress=own
        )
        return chord_wall(loads, joint, expected=expected)

    not_up(use(), use(wall=0.003 * k))
    not_up(use(), use(branch=0.05 * min(k, 2.2)))
    not_up(use(factor=k), use())
    not_up(use(own=abs(stress)), use(own=-abs(stress)))


@QUICK
@given(force, force, force, st.floats(-3e8, 3e8), more, st.sampled_from([None, 1.2]))
def test_lug_wall(N, V, S, stress, k, expected):
    def use(wall=0.005, length=0.07, fy=240e6, factor=1.0, own=stress):
        pull = LugPull(factor * N, factor * V, factor * S)
        at = LugWall(od=0.1143, wall=wall, length=length, arm=0.04, yield_stress=fy, tensile=500e6)
        return lug_wall(pull, at, own, expected)

    for changed in ({"wall": 0.005 * k}, {"length": 0.07 * k}, {"fy": 240e6 * min(k, 1.4)}):
        not_up(use(), use(**changed))
    not_up(use(factor=k), use())
    not_up(use(own=abs(stress)), use(own=-abs(stress)))


@QUICK
@given(force, more, st.booleans())
def test_lug_and_bolt(P, k, factored):
    def use(width=0.07, thickness=0.006, diameter=0.0127, to_end=0.035, shear=149e6):
        lug = BoltedLug(
            width=width,
            thickness=thickness,
            diameter=diameter,
            to_end=to_end,
            yield_stress=207e6,
            tensile=331e6,
            shear_stress=shear,
        )
        return bolted_lug(P, lug, factored=factored)

    for changed in (
        {"width": 0.07 * k},
        {"thickness": 0.006 * k},
        {"to_end": 0.035 * k},
        {"shear": 149e6 * k},
    ):
        not_up(use(), use(**changed))


@QUICK
@given(moment, force, more)
def test_sleeve(M, V, k):
    def use(wall=0.004, length=0.15, contact=0.0, open_end=True):
        part = BearingWall(
            od=0.1143, wall=wall, yield_stress=240e6, contact=contact, open_end=open_end
        )
        couple = Couple(moment=M, shear=abs(V), length=length, beside=V / 3)
        return wall_bearing(couple, part), expected_wall_bearing(couple, part)

    for changed in (
        {"wall": 0.004 * k},
        {"length": 0.15 * k},
        {"contact": (k - 1) / 3},
        {"open_end": False},
    ):
        for before, after in zip(use(), use(**changed), strict=True):
            not_up(before, after)


@QUICK
@given(moment, force, more, st.integers(1, 4))
def test_set_bolt(T, U, k, n):
    def grips(torque=20.0, count=n, post=0.09, wall=0.002, kept=0.3):
        return Grip(
            count=count,
            diameter=0.0127,
            torque=torque,
            seating_torque=70.0,
            holding=6e3,
            post_od=post,
            post_wall=wall,
            post_yield=240e6,
            kept=kept,
        )

    def use(weight=1e3, factor=1.0, **changed):
        grip, loads = grips(**changed), (factor * U, weight)
        return (
            set_bolt_grip(factor * T, grip, *loads),
            expected_set_bolt_grip(factor * T, grip, 0.5, *loads),
        )

    for changed in (
        {"torque": 20.0 * k},
        {"count": n + 1},
        {"post": 0.09 * k},
        {"wall": 0.002 * k},
        {"kept": 0.3 * k},
        {"weight": 1e3 * k},
    ):
        for before, after in zip(use(), use(**changed), strict=True):
            not_up(before, after)
    for less, greater in zip(use(), use(factor=k), strict=True):
        not_up(greater, less)
    low, middle = use(weight=0.0)
    assert low.nominal <= middle.nominal


@QUICK
@given(moment, force, more)
def test_pin(T, U, k):
    def use(diameter=0.0127, wall=0.005, edge=0.03):
        pin = ThroughPin(
            diameter=diameter,
            shear_stress=186e6,
            yield_stress=248e6,
            post_radius=0.054,
            sleeve_radius=0.066,
        )
        part = PinnedWall(wall=wall, yield_stress=207e6, tensile=331e6, to_edge=edge)
        return pin_shear(T, U, pin), pin_bearing(T, U, pin, part), pin_bending(T, U, pin)

    for changed in ({"diameter": 0.0127 * k}, {"wall": 0.005 * k}, {"edge": 0.03 * k}):
        for before, after in zip(use(), use(**changed), strict=True):
            not_up(before, after)


@QUICK
@given(moment, force, st.floats(-5e4, 5e4), more)
def test_u_bolt(M, S, U, k):
    def use(torque=20.0, factor=1.0, friction=0.15, kept=0.3, count=1, area=9e-5):
        bolt = UBolt(
            diameter=0.0127,
            stress_area=area,
            torque=torque,
            tensile=330e6,
            proof=2e4,
            beam_od=0.0889,
            friction=friction,
            kept=kept,
        )
        loads = RailLoads(
            turning=factor * np.array([M, M / 3]),
            sliding=factor * np.array([S, -S]),
            lift=factor * np.array([U, -U / 2]),
        )
        return (
            u_bolt_grip(loads, bolt, count),
            expected_u_bolt_grip(loads, bolt, count),
            u_bolt_tension(factor * U / count, factor * M / count, bolt),
            expected_u_bolt_tension(factor * U / count, factor * M / count, bolt, 0.32),
        )

    for changed in (
        {"torque": 20.0 * k},
        {"friction": 0.15 * k},
        {"kept": 0.3 * k},
        {"count": 2},
        {"area": 9e-5 * k},
    ):
        for before, after in zip(use(), use(**changed), strict=True):
            not_up(before, after)
    for less, greater in zip(use(), use(factor=k), strict=True):
        not_up(greater, less)
