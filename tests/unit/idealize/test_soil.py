"""Springs of the ground: their sums against integrals over the depth done by hand."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.idealize.soil import (
    embedded_depths,
    encased_second_moment,
    lateral_stiffness,
    layers,
    shear_modulus,
    spring_width,
)
from frame.tables import soils
from tests.builders import INCH, case, number

PSF, PCI = 47.88026, 271447.1  # N/m2 per psf, N/m3 per lb/in3; NIST SP 811
CLAY, SAND = soils.find("clay"), soils.find("sand")


def posts(depth, ignored, **more):
    base = case("boat").posts
    return replace(base, footing=replace(base.footing, depth=depth, ignored=ignored, **more))


def side(found):
    return sum(layer.k[0] for layer in found)


def turning(found):
    return sum(layer.k[5] for layer in found)


@given(number(0.8, 2.0), number(0.15, 0.5), st.sampled_from(["soft", "stiff"]))
def test_clay_adds_up_to_its_stiffness_over_the_depth_counted(depth, ignored, where):
    """Constant with depth: 33 500 psf soft, 134 000 psf stiff, over depth less what is ignored."""
    rate = {"soft": 33_500, "stiff": 134_000}[where] * PSF
    found = layers(posts(depth, ignored), CLAY, where)
    assert side(found) == pytest.approx(rate * (depth - ignored), rel=1e-5)


@given(number(0.8, 2.0), number(0.0, 0.4))
def test_sand_adds_up_to_its_triangle(depth, ignored):
    """Integral of n z from what is ignored to the foot; eight pieces come within 3 %."""
    n = 65 * PCI
    found = layers(posts(depth, ignored), SAND, "stiff")
    assert side(found) == pytest.approx(n * (depth**2 - ignored**2) / 2, rel=0.03)


def test_the_middle_of_the_springs_is_the_middle_of_the_ground():
    """Depth of the resultant in a ground pushed level: integrals from 0.3 m to 1.5 m."""
    for soil, middle in ((CLAY, 0.9), (SAND, 2 / 3 * (1.5**3 - 0.3**3) / (1.5**2 - 0.3**2))):
        found = layers(posts(1.5, 0.3), soil, "soft")
        lever = sum(layer.k[0] * layer.depth for layer in found) / side(found)
        assert lever == pytest.approx(middle, rel=0.01)


def test_the_top_sixteenth_never_counts():
    """It has no node: with nothing ignored the sum is one sixteenth short, on the safe side."""
    found = layers(posts(1.6, 0.0), CLAY, "soft")
    assert side(found) == pytest.approx(15 / 16 * 1.6 * 33_500 * PSF, rel=1e-5)


def test_turning_and_foot():
    """14 in. of concrete: turning 4 pi G r2 a length (Randolph 1981), foot a rigid disc on a
    half-space 4 G r / (1 - nu) (Timoshenko and Goodier, Theory of Elasticity, art. 139).

    G = k / 2.7 with nu = 0.35.
    """
    G = 33_500 * PSF / 2.7
    r = 7 * INCH
    found = layers(posts(1.4, 0.3, backfill="concrete", hole=14 * INCH), CLAY, "soft")
    assert turning(found) == pytest.approx(4 * pi * G * r**2 * 1.1, rel=1e-4)
    assert found[0].k[2] == pytest.approx(4 * G * r / 0.65, rel=1e-4)
    assert all(layer.k[2] == 0 for layer in found[1:])
    assert all(layer.k[3:5] == (0.0, 0.0) for layer in found)


def test_only_concrete_bears_over_the_whole_hole():
    wide = spring_width(posts(1.0, 0.3, backfill="concrete", hole=14 * INCH))
    narrow = spring_width(posts(1.0, 0.3, backfill="earth", hole=14 * INCH))
    assert wide == pytest.approx(14 * INCH)
    assert narrow == pytest.approx(5.563 * INCH)


def test_nothing_holds_above_what_is_ignored():
    found = layers(posts(1.6, 0.7), CLAY, "stiff")
    assert [layer.k[0] == 0 for layer in found] == [layer.depth <= 0.6 for layer in found]


def test_nodes_go_from_the_foot_to_just_below_grade():
    depths = embedded_depths(posts(1.6, 0.3))
    assert depths == pytest.approx([1.6, 1.4, 1.2, 1.0, 0.8, 0.6, 0.4, 0.2])


@given(number(0.2, 2.0))
def test_stiff_ground_is_stiffer_and_the_middle_between(depth):
    for soil in (CLAY, SAND):
        soft, middle, stiff = (
            lateral_stiffness(soil, depth, w) for w in ("soft", "middle", "stiff")
        )
        assert soft < middle < stiff
        assert middle**2 == pytest.approx(soft * stiff)
        assert shear_modulus(stiff) == pytest.approx(stiff / 2.7)


def test_concrete_stiffens_the_buried_post_only_in_stiff_ground():
    """Half the gross concrete, E 2.55e6 psi (57 000 sqrt 2000), over steel's 29e6.

    Hole 14 in., post 5.563 in.: I of the ring 1838.7 in4, so 80.8 in4 of steel on top.
    """
    boat = case("boat").posts
    steel = boat.pipe.design.second_moment
    ring = pi / 64 * (14**4 - 5.563**4)
    gain = encased_second_moment(boat, "stiff", 29e6 * 6894.757) - steel
    assert ring == pytest.approx(1838.7, abs=0.1)
    assert gain / INCH**4 == pytest.approx(0.5 * ring * 2.549e6 / 29e6, rel=2e-3)
    assert encased_second_moment(boat, "soft", 29e6 * 6894.757) == steel
