"""Laws of guys, anchors and ground: a better thing never has more use; loads scale."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.checks.check import Check
from frame.checks.ground.post_lateral import expected_width, presumptive_free, presumptive_held
from frame.checks.ground.post_turning import (
    adhesion_clay,
    expected_turning,
    foot_friction,
    grip_cast,
    grip_tamped,
    overburden,
    touching_share,
    turning,
)
from frame.checks.ground.post_ultimate import (
    ExpectedSand,
    expected_clay,
    expected_sand,
    ultimate_clay,
    ultimate_sand,
)
from frame.checks.ground.post_vertical import (
    bearing,
    bearing_factor,
    expected_bearing,
    expected_uplift,
    uplift,
)
from frame.checks.guys.anchor import pickets, proved, rock_eye, screw
from frame.checks.guys.anchor_block import block_sliding, tipping
from frame.checks.guys.deadman import Earth, Log, deadman
from frame.checks.guys.guy import hardware, wire

load = st.floats(0, 2e4)
depth = st.floats(0.7, 6.0)
width = st.floats(0.06, 0.45)
more = st.floats(1.0, 5.0)
cohesion = st.floats(5e3, 2e5)
weight = st.floats(4e3, 2e4)
phi = st.floats(0.4, 0.7)


def no_worse(after: Check, before: Check) -> None:
    for a, b in ((after.utilisation, before.utilisation), (after.let_go, before.let_go)):
        assert a <= b * (1 + 1e-9) or np.isnan(b)


@given(load, load, depth, width, cohesion, more)
def test_deeper_post_or_stiffer_clay_never_uses_more(P, M, d, b, cu, k):
    no_worse(ultimate_clay(P, M, k * d, b, cu), ultimate_clay(P, M, d, b, cu))
    no_worse(ultimate_clay(P, M, d, b, k * cu), ultimate_clay(P, M, d, b, cu))
    no_worse(ultimate_clay(P, M, d, b, cu), ultimate_clay(P, M, d, b, cu, 0.3))
    no_worse(ultimate_clay(P, M, d, k * b, cu), ultimate_clay(P, M, d, b, cu))
    no_worse(ultimate_clay(P, M, d, k * b, cu, 0.3), ultimate_clay(P, M, d, b, cu, 0.3))


@given(load, load, depth, st.floats(0.06, 0.25), cohesion, more, st.floats(1.0, 3.0))
def test_deeper_wider_firmer_or_more_concrete_never_lowers_what_is_expected(P, M, d, od, cu, k, w):
    """Hole `w` times the pipe; the earth in it turned to concrete."""
    sand, phi, a = ExpectedSand(17e3, 0.6), 0.6, 0.3

    def clay(d=d, hole=w * od, cu=cu, fill="earth"):
        return expected_clay(P, M, d, expected_width(od, hole, fill), cu, a)

    def gravel(d=d, hole=w * od, fill="earth"):
        return expected_sand(P, M, d, expected_width(od, hole, fill), sand, a)

    def turned(d=d, hole=w * od, fill="earth", of=expected_turning):
        b, grip = (hole, 0.6) if fill == "concrete" else (od, 0.6)
        if of is turning:
            grip = grip_cast((d + a) / 2) if fill == "concrete" else grip_tamped(phi)
        foot = foot_friction(b, 0.0, 24e3 * b**2 * d, 0.6)
        return of(P, grip * overburden(17e3, d, a), b, d, a, touching_share(fill), foot)

    def coded(**change):
        return turned(of=turning, **change)

    for make in (clay, gravel, turned, coded):
        base = make()
        no_worse(make(d=k * d), base)
        no_worse(make(hole=k * w * od), base)
        no_worse(make(fill="concrete"), base)
        no_worse(make(fill="concrete", hole=k * w * od), make(fill="concrete"))
    no_worse(clay(cu=k * cu), clay())


@given(load, depth, width, cohesion, more)
def test_deeper_or_wider_never_sinks_or_lifts_sooner(P, d, b, cu, k):
    """In clay and in sand."""

    def down(d, b, tip, friction):
        return expected_bearing(P, b**2, tip, b * (d - 0.3), friction, "")

    for tip, grip in (
        (lambda d: 9 * cu, lambda d: cu / 2),
        (lambda d: 17e3 * d * bearing_factor(0.6), lambda d: 0.6 * overburden(17e3, d, 0.3)),
    ):
        no_worse(down(k * d, b, tip(k * d), grip(k * d)), down(d, b, tip(d), grip(d)))
        no_worse(down(d, k * b, tip(d), grip(d)), down(d, b, tip(d), grip(d)))
        no_worse(
            expected_uplift(P, 100.0, b, k * d, grip(k * d), 0.3),
            expected_uplift(P, 100.0, b, d, grip(d), 0.3),
        )


@given(load, load, depth, width, weight, phi, more)
def test_deeper_post_or_drier_sand_never_uses_more(P, M, d, b, g, f, k):
    base = ultimate_sand(P, M, d, b, g, f, 0.2)
    no_worse(ultimate_sand(P, M, k * d, b, g, f, 0.2), base)
    no_worse(ultimate_sand(P, M, d, b, k * g, f, 0.2), base)
    no_worse(ultimate_sand(P, M, d, b, g, min(0.7, k * f), 0.2), base)
    no_worse(ultimate_sand(P, M, d, k * b, g, f, 0.2), base)
    no_worse(ultimate_sand(P, M, d, b, g, f), base)


@given(load, load, depth, width, st.floats(1e3, 1e5), more)
def test_presumptive_rule_eases_with_depth_width_and_ground(P, M, d, b, s, k):
    base = presumptive_free(P, M, d, b, s, 0.3)
    no_worse(presumptive_free(P, M, k * d, b, s, 0.3), base)
    no_worse(presumptive_free(P, M, d, k * b, s, 0.3), base)
    no_worse(presumptive_free(P, M, d, b, k * s, 0.3), base)
    no_worse(presumptive_free(P, M, d, b, s), base)
    no_worse(presumptive_held(M, k * d, b, s), presumptive_held(M, d, b, s))


@given(load, load, depth, width, st.floats(0.01, 50))
def test_use_of_the_ground_is_straight_in_the_load(P, M, d, b, k):
    for make in (
        lambda f: presumptive_free(f * P, f * M, d, b, 2e4),
        lambda f: ultimate_clay(f * P, f * M, d, b, 25e3),
        lambda f: ultimate_sand(f * P, f * M, d, b, 9e3, 0.5),
    ):
        assert make(k).utilisation == pytest.approx(k * make(1).utilisation, nan_ok=True)
        assert make(k).let_go == pytest.approx(k * make(1).let_go, nan_ok=True)


@given(load, load, load, depth)
def test_more_load_never_uses_less(P, M, extra, d):
    for make in (
        lambda p, m: presumptive_free(p, m, d, 0.3, 2e4),
        lambda p, m: ultimate_clay(p, m, d, 0.3, 25e3),
        lambda p, m: ultimate_sand(p, m, d, 0.3, 9e3, 0.5),
    ):
        no_worse(make(P, M), make(P + extra, M))
        no_worse(make(P, M), make(P, M + extra))


@given(load, load, depth, width)
def test_strength_without_factor_is_above_the_allowable(P, M, d, b):
    for c in (ultimate_clay(P, M, d, b, 25e3), ultimate_sand(P, M, d, b, 9e3, 0.5)):
        assert c.nominal >= c.allowable


@given(load, depth, width, cohesion, weight, phi, more)
def test_turning_and_uplift_ease_with_depth_width_and_drier_ground(T, d, b, cu, g, f, k):
    def clay(d, b, cu):
        return turning(T, adhesion_clay(cu), b, d, 0.3)

    def sand(d, g):
        return turning(T, grip_tamped(f) * overburden(g, d, 0.3), b, d, 0.3)

    no_worse(clay(k * d, b, cu), clay(d, b, cu))
    no_worse(clay(d, k * b, cu), clay(d, b, cu))
    no_worse(clay(d, b, k * cu), clay(d, b, cu))
    no_worse(sand(k * d, g), sand(d, g))
    no_worse(sand(d, k * g), sand(d, g))
    no_worse(uplift(T, g, b, k * d, cu / 20, 0.3), uplift(T, g, b, d, cu / 20, 0.3))
    no_worse(uplift(T, k * g, b, d, cu / 20), uplift(T, g, b, d, cu / 20))
    no_worse(bearing(T, k * b**2, 7e4), bearing(T, b**2, 7e4))


SAND = Earth(unit_weight=8600.0, phi=0.49)
CLAY = Earth(unit_weight=7100.0, cohesion=24e3)


def log(depth: float, length: float = 1.0) -> Log:
    return Log(depth=depth, height=0.3, length=length)


BETTER: dict[str, Callable[[float, float], Check]] = {
    "thicker wire": lambda T, k: wire(T, k * 8e3, 0.8),
    "bigger fitting": lambda T, k: hardware(T, k * 2e3),
    "deeper deadman": lambda T, k: deadman(T, 0.6, log(0.6 * k), SAND, 0.5),
    "deeper in clay": lambda T, k: deadman(T, 0.6, log(0.6 * k), CLAY, 0.5),
    "flatter pull": lambda T, k: deadman(T, 1.5 / k, log(1.3), SAND, 0.5),
    "longer deadman": lambda T, k: deadman(T, 0.6, log(1.3, 0.6 * k), SAND, 0.5),
    "longer in clay": lambda T, k: deadman(T, 0.6, log(1.3, 0.6 * k), CLAY, 0.5),
    "drier pickets": lambda T, k: pickets(T, 0.2, "1-1", k / 5),
    "more torque": lambda T, k: screw(T, 100 * k, 33.0, 1.2, 0.1),
    "deeper hole": lambda T, k: rock_eye(T, 0.03, 0.36 * k, 7e5),
    "harder test": lambda T, k: proved(T, 2e3 * k),
    "heavier block": lambda T, k: block_sliding(T, 0.5 * T, 4e3 * k, 0.25),
    "rougher ground": lambda T, k: block_sliding(T, 0.5 * T, 4e3, 0.1 * k),
    "wider block": lambda T, k: tipping(T, 0.5 * T, 4e3, 0.5, 0.5 * k),
}


@pytest.mark.parametrize("name", BETTER)
@given(T=st.floats(0, 5e4), k=more, step=more)
def test_better_guy_or_anchor_never_uses_more(name, T, k, step):
    k = min(k, 5.0)
    no_worse(BETTER[name](T, min(k * step, 5.0)), BETTER[name](T, k))


@given(st.floats(3.0, 7.5), st.floats(0.0, 0.785))
def test_deadman_pulled_up_holds_less_the_steeper(feet, slope):
    steep = deadman(1.0, 0.785, log(feet * 0.3048), SAND)
    no_worse(deadman(1.0, slope, log(feet * 0.3048), SAND), steep)
