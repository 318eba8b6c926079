"""Welds and bolts against handbook values (from memory of the books named beside each)."""

import numpy as np
import pytest

from frame.checks.fasteners.lug import BoltedLug, bolted_lug
from frame.checks.fasteners.pin import PinnedWall, ThroughPin, pin_bearing, pin_bending, pin_shear
from frame.checks.fasteners.u_bolt import UBolt, u_bolt_tension
from frame.checks.welds.weld import Lug, Metal, Ring, base_metal, lug_line, ring_line, weld_metal
from frame.tables.bolts import thread
from frame.units import INCH, KIP, KSI

E70 = Metal(electrode=70 * KSI, yield_stress=35 * KSI, tensile=60 * KSI, wall=0.2 * INCH)


def test_allowable_of_base_metal():
    """AISC allowable stress specification (1989): 0.40 Fy and 0.30 Fu in shear, 14 and 18 ksi.

    In pull 0.60 Fy and 0.50 Fu, 21 and 30 ksi.
    """
    ring = Ring(diameter=0.1, leg=0.005)
    along, across = ring_line(0.0, 0.0, 0.0, 1.0, ring), ring_line(1.0, 0.0, 0.0, 0.0, ring)
    assert base_metal(along, E70).allowable == pytest.approx(14 * KSI * 0.2 * INCH)
    assert base_metal(across, E70).allowable == pytest.approx(21 * KSI * 0.2 * INCH, rel=2e-3)
    brittle = Metal(
        electrode=70 * KSI,
        yield_stress=60 * KSI,
        tensile=60 * KSI,
        wall=0.2 * INCH,
        identified=True,
    )
    assert base_metal(along, brittle).allowable == pytest.approx(18 * KSI * 0.2 * INCH)
    assert base_metal(across, brittle).allowable == pytest.approx(30 * KSI * 0.2 * INCH)


def test_pin_against_the_older_allowable_stresses():
    """AISC allowable stress specification (1989): pins bear at 0.90 Fy on d t; a solid round
    bends at 0.75 Fy S, above which the newer 1.6/1.67 Fy S stands by 28 %.
    """
    pin = ThroughPin(
        diameter=INCH,
        shear_stress=27 * KSI,
        yield_stress=36 * KSI,
        post_radius=0.05,
        sleeve_radius=0.06,
    )
    wall = PinnedWall(wall=INCH / 4, yield_stress=36 * KSI, tensile=58 * KSI, to_edge=0.1)
    assert pin_bearing(1.0, 0.0, pin, wall).allowable == pytest.approx(0.90 * 36 / 4 * KIP)
    older = 0.75 * 36 * np.pi / 32 * KIP * INCH
    assert pin_bending(1.0, 0.0, pin).allowable == pytest.approx(1.6 / 1.67 / 0.75 * older)


@pytest.mark.parametrize("sixteenths", [2, 3, 4, 5])
def test_allowable_of_a_fillet(sixteenths):
    """AISC Steel Construction Manual, Eq. 8-2b: 0.928 kip/in for each 1/16 in of leg, E70, ASD.

    Loaded across, 1.5 times as much (AISC 360-22 Eq. J2-5, from memory of the standard).
    """
    ring = Ring(diameter=0.1, leg=sixteenths / 16 * INCH)
    listed = 0.928 * sixteenths * KIP / INCH
    for line, factor in (
        (ring_line(0.0, 0.0, 0.0, 1.0, ring), 1.0),
        (ring_line(1.0, 0.0, 0.0, 0.0, ring), 1.5),
        (ring_line(0.0, 0.0, 1.0, 0.0, ring), 1.5),
    ):
        assert weld_metal(line, E70).allowable == pytest.approx(factor * listed, rel=1e-3)


def test_a_lug_pulled_along_and_across():
    """AISC 360-22 J2.4: both lines of a lug 1 along, 1.5 across, whichever way that is."""
    lug = Lug(length=4 * INCH, thickness=INCH / 4, arm=0.0, leg=INCH / 4)
    r = 4 * 0.928 * KIP / INCH
    for pull, factor in (((1.0, 0, 0), 1.0), ((0, 1.0, 0), 1.5), ((0, 0, 1.0), 1.5)):
        assert weld_metal(lug_line(*pull, lug), E70).allowable == pytest.approx(
            factor * r, rel=1e-3
        )


def test_ring_properties():
    """Shigley, Mechanical Engineering Design, Tables 9-1 and 9-2, circle: A = 2 pi r (unit
    throat), Iu = pi r^3, Ju = 2 pi r^3."""
    r = 2.0
    ring = Ring(diameter=2 * r, leg=0.01)
    assert ring_line(1.0, 0, 0, 0, ring).force == pytest.approx(1 / (2 * np.pi * r))
    assert ring_line(0, 0, 1.0, 0, ring).force == pytest.approx(r / (np.pi * r**3))
    assert ring_line(0, 0, 0, 1.0, ring).force == pytest.approx(r / (2 * np.pi * r**3))


def test_two_line_properties():
    """Shigley, Table 9-2, two lines d long and b apart: Iu = d^3/6 along, b^2 d/2 across."""
    d, b, arm = 0.1, 0.02, 1e6
    lug = Lug(length=d, thickness=b, arm=arm, leg=0.01)
    assert lug_line(1.0, 0, 0, lug).force == pytest.approx(arm * (d / 2) / (d**3 / 6))
    assert lug_line(0, 0, 1.0, lug).force == pytest.approx(arm * (b / 2) / (b**2 * d / 2))


@pytest.mark.parametrize(
    ("diameter", "kips"), [(0.625, 4.14), (0.75, 5.97), (0.875, 8.11), (1, 10.6)]
)
def test_shear_of_a307_bolts(diameter, kips):
    """AISC Steel Construction Manual, Table 7-1, A307, single shear, ASD."""
    pin = ThroughPin(
        diameter=diameter * INCH,
        shear_stress=27 * KSI,
        yield_stress=36 * KSI,
        post_radius=0.05,
        sleeve_radius=0.06,
    )
    assert pin_shear(1.0, 0.0, pin).allowable == pytest.approx(kips * KIP, rel=4e-3)


@pytest.mark.parametrize(("diameter", "kips"), [(0.625, 6.90), (0.75, 9.94)])
def test_tension_of_a307_rods(diameter, kips):
    """AISC Steel Construction Manual, Table 7-2, A307 (0.75 x 60 ksi on the full area), ASD.

    The thread's stress area (ASME B1.1) is 0.74 to 0.77 of the full one at these sizes.
    """
    rod = UBolt(
        diameter=diameter * INCH,
        stress_area=thread(diameter * INCH).stress_area,
        torque=10.0,
        tensile=60 * KSI,
        proof=1e5,
        beam_od=0.09,
    )
    assert u_bolt_tension(1.0, 0.0, rod).allowable == pytest.approx(kips * KIP, rel=0.03)


def test_pin_connected_plate():
    """AISC Design Examples, Example D.7 (from memory): A36, 4.25 x 1/2 in, 1 in pin, a = 2.25 in.

    Net width 93.4, tear-out 95.7, bearing 32.4, gross section 76.5 kip, so 16.2 kip allowable. Its
    hole is 1/32 in wider than the pin; a bolt's is 1/16 in, which takes 1 % off the first two.
    """
    kip = 4448.22
    plate = BoltedLug(
        width=4.25 * INCH,
        thickness=0.5 * INCH,
        diameter=1.0 * INCH,
        to_end=(2.25 + 1.03 / 2) * INCH,
        yield_stress=36 * KSI,
        tensile=58 * KSI,
        shear_stress=54 * KSI,
    )
    check = bolted_lug(-16 * kip, plate)
    printed = {"Rn": 93.4, "Rt": 95.7, "Rb": 32.4, "Rg": 76.5}
    ours = {s.symbol: s.value / kip for s in check.steps if s.symbol in printed}
    assert ours == pytest.approx(printed, rel=0.015)
    assert check.allowable / kip == pytest.approx(16.2, rel=0.002)
    assert check.utilisation == pytest.approx(16 / 16.2, rel=0.002)
