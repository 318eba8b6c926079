"""No check knows a unit: in any other of force or of length its use is the same.

A use is a pure number, so it depends on pure numbers alone (Buckingham 1914; Gibbings, Dimensional
Analysis, ch. 3). Each check is put with forces counted in meganewtons or millinewtons and lengths
in millimetres or kilometres. A number in it that has a unit itself, as a limit against nil that is
not nil, would tell. Checks that have such numbers on purpose (in. of clearance, ksi or psf that a
table ends at) stand among those of force alone, whose stresses are only made smaller, or are left
out.
"""

from collections.abc import Callable

import numpy as np
import pytest

from frame.checks.check import Check
from frame.checks.fasteners import clamp, pin, sleeve, tilt_stop, u_bolt
from frame.checks.fasteners.lug import BoltedLug, bolted_lug
from frame.checks.fasteners.set_bolt import Grip, expected_set_bolt_grip, set_bolt_grip
from frame.checks.ground import post_lateral, post_turning, post_ultimate, post_vertical
from frame.checks.guys import anchor, anchor_block, guy
from frame.checks.steel import brace, pipe
from frame.checks.steel.pipe_strength import RoundPipe
from frame.checks.steel.slotted import SlottedEnd
from frame.checks.welds import weld
from frame.checks.welds.chord_wall import chord_wall
from frame.checks.welds.lug_wall import LugPull, LugWall, lug_wall
from frame.checks.welds.round_joint import BranchLoads, RoundJoint
from frame.geometry.tube import Tube

PHI = 0.55
Made = Callable[[float, float], Check]


def tube(N: float, m: float) -> RoundPipe:
    """4-1/2 x 0.22 in. pipe of 240 MPa, whatever `N` and `m` a newton and a metre count as."""
    Pa = N / m**2
    return RoundPipe(tube=Tube(0.1143 * m, 0.0056 * m), Fy=240e6 * Pa, Fu=410e6 * Pa, E=200e9 * Pa)


def forces(N: float, m: float) -> pipe.Forces:
    return pipe.Forces(N=-5e4 * N, My=2e3 * N * m, Vy=4e3 * N, T=1.5e3 * N * m)


def bolt(N: float, m: float) -> u_bolt.UBolt:
    return u_bolt.UBolt(
        diameter=0.01 * m,
        stress_area=5e-5 * m**2,
        torque=25.0 * N * m,
        tensile=3.3e8 * N / m**2,
        proof=1e4 * N,
        beam_od=0.09 * m,
    )


def rails(N: float, m: float) -> u_bolt.RailLoads:
    some = np.array([1.0, 0.4])
    return u_bolt.RailLoads(turning=90 * N * m * some, sliding=300 * N * some, lift=500 * N * some)


def line(N: float, m: float) -> weld.WeldLine:
    ring = weld.Ring(diameter=0.06 * m, leg=0.004 * m)
    return weld.ring_line(4e3 * N, 2e3 * N, 500 * N * m, 200 * N * m, ring)


def metal(N: float, m: float) -> weld.Metal:
    Pa = N / m**2
    return weld.Metal(
        electrode=480e6 * Pa,
        yield_stress=240e6 * Pa,
        tensile=400e6 * Pa,
        wall=0.004 * m,
        identified=True,
    )


def through(N: float, m: float) -> pin.ThroughPin:
    Pa = N / m**2
    return pin.ThroughPin(
        diameter=0.016 * m,
        shear_stress=1.5e8 * Pa,
        yield_stress=2.5e8 * Pa,
        post_radius=0.05 * m,
        sleeve_radius=0.06 * m,
    )


def pinned(N: float, m: float) -> pin.PinnedWall:
    Pa = N / m**2
    return pin.PinnedWall(
        wall=0.005 * m, yield_stress=240e6 * Pa, tensile=400e6 * Pa, to_edge=0.04 * m
    )


ANY_UNIT: dict[str, Made] = {
    "screw": lambda N, m: anchor.screw(3e3 * N, 900 * N * m, 30 / m, 1.5 * m, 0.2 * m),
    "screw in clay": lambda N, m: anchor.expected_screw(
        3e3 * N, 0 * N * m, 30 / m, 1.5 * m, 0.2 * m, 4e4 * N / m**2, 0.9
    ),
    "screw by its torque": lambda N, m: anchor.expected_screw(
        3e3 * N, 900 * N * m, 30 / m, 1.5 * m, 0.2 * m, 4e4 * N / m**2, 0.9
    ),
    "rock eye": lambda N, m: anchor.rock_eye(3e3 * N, 0.04 * m, 0.6 * m, 7e5 * N / m**2),
    "proved": lambda N, m: anchor.proved(3e3 * N, 7e3 * N),
    "block dragged": lambda N, m: anchor_block.block_sliding(1e3 * N, 800 * N, 1e4 * N, 0.3),
    "block tipped": lambda N, m: anchor_block.tipping(1e3 * N, 800 * N, 1e4 * N, 0.4 * m, 0.9 * m),
    "wire": lambda N, m: guy.wire(2e3 * N, 1e4 * N, 0.8),
    "hardware": lambda N, m: guy.hardware(2e3 * N, 4e3 * N, 0.55),
    "clay": lambda N, m: post_ultimate.ultimate_clay(
        2e3 * N, 4e3 * N * m, 1.5 * m, 0.2 * m, 4e4 * N / m**2, 0.3 * m
    ),
    "clay, pure shear": lambda N, m: post_ultimate.expected_clay(
        2e3 * N, 0.0, 1.5 * m, 0.2 * m, 4e4 * N / m**2, 0.3 * m
    ),
    "sand": lambda N, m: post_ultimate.ultimate_sand(
        2e3 * N, 4e3 * N * m, 1.5 * m, 0.2 * m, 17e3 * N / m**3, PHI, 0.3 * m
    ),
    "sand expected": lambda N, m: post_ultimate.expected_sand(
        *(2e3 * N, 4e3 * N * m, 1.5 * m, 0.2 * m),
        post_ultimate.ExpectedSand(17e3 * N / m**3, PHI, 1.1),
        0.3 * m,
    ),
    "by the code": lambda N, m: post_lateral.presumptive_free(
        2e3 * N, 4e3 * N * m, 1.5 * m, 0.2 * m, 3e4 * N / m**3, 0.3 * m, 3.66 * m
    ),
    "by the code, held": lambda N, m: post_lateral.presumptive_held(
        4e3 * N * m, 1.5 * m, 0.2 * m, 3e4 * N / m**3, 3.66 * m
    ),
    "pressed down": lambda N, m: post_vertical.bearing(
        6e3 * N, 0.1 * m**2, 7e4 * N / m**2, 0.8 * m**2, 5e3 * N / m**2
    ),
    "pressed down, expected": lambda N, m: post_vertical.expected_bearing(
        6e3 * N, 0.1 * m**2, 4e5 * N / m**2, 0.8 * m**2, 1e4 * N / m**2, ""
    ),
    "lifted": lambda N, m: post_vertical.uplift(
        6e3 * N, 4e3 * N, 0.3 * m, 1.5 * m, 5e3 * N / m**2, 0.3 * m
    ),
    "lifted, expected": lambda N, m: post_vertical.expected_uplift(
        6e3 * N, 4e3 * N, 0.3 * m, 1.5 * m, 5e3 * N / m**2, 0.3 * m
    ),
    "turned": lambda N, m: post_turning.turning(
        900 * N * m, 8e3 * N / m**2, 0.3 * m, 1.5 * m, 0.3 * m, 0.8, 60 * N * m
    ),
    "turned, expected": lambda N, m: post_turning.expected_turning(
        900 * N * m, 8e3 * N / m**2, 0.3 * m, 1.5 * m, 0.3 * m, 0.8, 60 * N * m
    ),
    "push": lambda N, m: pipe.compression(tube(N, m), 5e4 * N, 3 * m),
    "pull": lambda N, m: pipe.tension(
        tube(N, m), 5e4 * N, SlottedEnd(length=0.1 * m, width=0.008 * m, plate=0.006 * m)
    ),
    "pull, expected": lambda N, m: pipe.tension(
        tube(N, m),
        5e4 * N,
        SlottedEnd(length=0.1 * m, width=0.008 * m, plate=0.006 * m, expected=True),
    ),
    "shear": lambda N, m: pipe.interaction(tube(N, m), pipe.Forces(N=0.0, Vy=2e3 * N), 2 * m),
    "all together": lambda N, m: pipe.interaction(tube(N, m), forces(N, m), 3 * m),
    "brace pushed": lambda N, m: brace.buckling(tube(N, m), -5e4 * N, 2 * m),
    "brace bent": lambda N, m: brace.bent(tube(N, m), forces(N, m), 2 * m, 0.02 * m),
    "grip": lambda N, m: u_bolt.u_bolt_grip(rails(N, m), bolt(N, m), 2),
    "grip expected": lambda N, m: u_bolt.expected_u_bolt_grip(rails(N, m), bolt(N, m)),
    "U-bolt pulled": lambda N, m: u_bolt.u_bolt_tension(800 * N, 40 * N * m, bolt(N, m)),
    "clamp lifted": lambda N, m: clamp.hold_down(
        400 * N, 1.5, 5e-5 * m**2, 3e8 * N / m**2, 2e3 * N
    ),
    "panel": lambda N, m: clamp.panel_rating(900 * N / m**2, -1.3, 2400 * N / m**2),
    "weld": lambda N, m: weld.weld_metal(line(N, m), metal(N, m)),
    "beside the weld": lambda N, m: weld.base_metal(line(N, m), metal(N, m)),
    "pin": lambda N, m: pin.pin_shear(600 * N * m, 900 * N, through(N, m)),
    "pin bears": lambda N, m: pin.pin_bearing(600 * N * m, 900 * N, through(N, m), pinned(N, m)),
    "pin bends": lambda N, m: pin.pin_bending(600 * N * m, 900 * N, through(N, m)),
}


def lug(N: float) -> BoltedLug:
    return BoltedLug(
        width=0.06,
        thickness=0.006,
        diameter=0.0127,
        to_end=0.03,
        yield_stress=207e6 * N,
        tensile=331e6 * N,
        shear_stress=149e6 * N,
    )


def grip(N: float) -> Grip:
    return Grip(
        count=3,
        diameter=0.0127,
        torque=40 * N,
        seating_torque=34 * N,
        holding=8e3 * N,
        post_od=0.1143,
        post_wall=0.0056,
        post_yield=240e6 * N,
        kept=0.5,
    )


def stop(N: float) -> tilt_stop.TiltStop:
    return tilt_stop.TiltStop(
        beam_od=0.1143,
        beam_wall=0.0056,
        beam_yield=240e6 * N,
        plate=0.008,
        plate_yield=250e6 * N,
        bolt=0.0127,
        bolt_shear=149e6 * N,
        rail_wall=0.0027,
        rail_tensile=310e6 * N,
        rail_edge=0.0206,
    )


def wall(N: float) -> sleeve.BearingWall:
    return sleeve.BearingWall(od=0.1143, wall=0.0056, yield_stress=240e6 * N)


def couple(N: float) -> sleeve.Couple:
    return sleeve.Couple(moment=2e3 * N, shear=4e3 * N, length=0.2, beside=1e3 * N)


def joint(N: float) -> RoundJoint:
    return RoundJoint(
        chord_od=0.1143,
        chord_wall=0.0056,
        branch_od=0.0603,
        branch_wall=0.0037,
        chord_yield=240e6 * N,
        chord_tensile=400e6 * N,
        branch_yield=240e6 * N,
        angle=0.8,
    )


def branch(N: float) -> BranchLoads:
    return BranchLoads(axial=9e3 * N, in_plane=200 * N, out_of_plane=90 * N, chord_stress=8e7 * N)


def under(N: float) -> LugWall:
    return LugWall(
        od=0.1143, wall=0.0056, length=0.07, arm=0.03, yield_stress=240e6 * N, tensile=400e6 * N
    )


SMALLER_FORCE: dict[str, Callable[[float], Check]] = {
    "lug": lambda N: bolted_lug(9e3 * N, lug(N)),
    "set bolts": lambda N: set_bolt_grip(300 * N, grip(N), 500 * N, 2e3 * N),
    "set bolts expected": lambda N: expected_set_bolt_grip(
        300 * N, grip(N), 0.2, 500 * N, 2e3 * N
    ),
    "stop": lambda N: tilt_stop.stop_plate(400 * N, stop(N)),
    "beam at a stop": lambda N: tilt_stop.stop_wall(400 * N, stop(N), 8e7 * N),
    "sleeve": lambda N: sleeve.wall_bearing(couple(N), wall(N), 8e7 * N),
    "sleeve expected": lambda N: sleeve.expected_wall_bearing(couple(N), wall(N), 8e7 * N),
    "wall at a brace": lambda N: chord_wall(branch(N), joint(N), 200e9 * N),
    "wall at a lug": lambda N: lug_wall(LugPull(9e3 * N, 4e3 * N, 500 * N), under(N), 8e7 * N),
}


def alike(one: Check, other: Check) -> None:
    assert np.all(one.covered)
    assert np.all(other.covered)
    for use in ("utilisation", "let_go"):
        assert getattr(other, use) == pytest.approx(getattr(one, use), rel=1e-9), use
    assert np.all(one.utilisation > 0.01)


@pytest.mark.parametrize("name", ANY_UNIT)
def test_neither_the_unit_of_force_nor_of_length_changes_a_use(name: str) -> None:
    for N, m in ((1e-9, 1.0), (1e3, 1.0), (1.0, 1e-3), (1.0, 1e3)):
        alike(ANY_UNIT[name](1.0, 1.0), ANY_UNIT[name](N, m))


@pytest.mark.parametrize("name", SMALLER_FORCE)
def test_a_larger_unit_of_force_changes_no_use(name: str) -> None:
    alike(SMALLER_FORCE[name](1.0), SMALLER_FORCE[name](1e-9))
