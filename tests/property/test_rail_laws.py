"""Laws that rails and clamps obey whatever the numbers."""

import dataclasses

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from frame.checks.fasteners import clamp
from frame.checks.steel import rail
from tests.strut import STOCK, STRUT

MOMENT = st.floats(-2e3, 2e3)
FORCE = st.floats(-4e4, 4e4)
LENGTH = st.floats(0.1, 6.0)
GROWTH = st.floats(1.0, 3.0)
SLACK = 1 + 1e-9


def measurable(x: float) -> bool:
    """Whether a number is nil, or large enough that products of it have all their digits."""
    return x == 0 or abs(x) > 1e-9


@given(M1=MOMENT, M2=MOMENT, factor=st.floats(0.3, 1.0), growth=GROWTH)
def test_a_larger_section_or_better_bracing_never_raises_bending_use(
    M1: float, M2: float, factor: float, growth: float
) -> None:
    use = rail.bending(STOCK, M1, M2, factor).utilisation
    bigger = dataclasses.replace(STRUT, S1=growth * STRUT.S1, S2=growth * STRUT.S2)
    assert rail.bending(
        dataclasses.replace(STOCK, channel=bigger), M1, M2, factor
    ).utilisation <= (use * SLACK)
    assert rail.bending(STOCK, M1, M2, min(1.0, factor * growth)).utilisation <= use * SLACK


@given(P=FORCE, M1=MOMENT, M2=MOMENT, length=LENGTH, growth=GROWTH)
def test_a_longer_tie_never_has_a_lower_use(
    P: float, M1: float, M2: float, length: float, growth: float
) -> None:
    near, far = rail.tie_rail(STOCK, P, M1, M2, np.array([length, growth * length])).utilisation
    # H1-1 steps down at p = 0.2 where the sum is above 1: there only "too much" is compared.
    assert far * SLACK >= min(near, 1.0)


@given(P=FORCE, M1=MOMENT, length=LENGTH)
def test_let_go_never_comes_before_the_allowable(P: float, M1: float, length: float) -> None:
    check = rail.tie_rail(STOCK, P, M1, 0.0, length)
    assert check.let_go <= check.utilisation * SLACK


@given(
    q=st.floats(0.0, 3e3).filter(measurable),
    CN=st.floats(-5.0, 5.0).filter(measurable),
    weight=st.floats(0.0, 500.0),
    growth=GROWTH,
)
def test_wind_lift_grows_with_the_square_of_the_gust_and_weight_relieves(
    q: float, CN: float, weight: float, growth: float
) -> None:
    bare = clamp.corner_uplift(q, CN, 2.0, 0.0)
    np.testing.assert_allclose(clamp.corner_uplift(4 * q, CN, 2.0, 0.0), 4 * bare)
    lift = clamp.corner_uplift(q, CN, 2.0, weight)
    assert clamp.corner_uplift(q, CN, 2.0, growth * weight) <= lift <= bare
