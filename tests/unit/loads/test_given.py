"""A pressure given in place of the standard's, against the coefficients as printed."""

from math import radians

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.loads.cases import ACROSS, ALONG, QUARTER_LOADS, wind_cases
from frame.loads.given import WindShare, given_share
from frame.loads.wording import EVEN

FLOWS = ("clear", "obstructed")
some_flows = st.sampled_from([FLOWS, FLOWS[:1], FLOWS[1:]])
tilts = st.floats(0.0, radians(60))
pressures = st.floats(10.0, 5000.0)


def quarters(wind) -> np.ndarray:
    return np.array([dict(wind.coefficients)[name] for name in QUARTER_LOADS])


def across(tilt, flows, share=None):
    winds = wind_cases(tilt, flows, 1, **({"share": share} if share else {}))
    return [w for w in winds if w.direction in ("front", "back")]


@pytest.mark.parametrize(
    ("tilt", "flows", "press", "lift"),
    [
        (30, FLOWS, 2.1, 1.8),  # front, A: 2.1 and 2.1; back, A: -1.8 and -1.8, clear
        (15, FLOWS, 1.45, 1.35),  # front, A: 1.3 and 1.6; back, B, obstructed: -2.1 and -0.6
        (45, FLOWS, 2.35, 1.7),  # front, A: 2.2 and 2.5; back, A: -1.6 and -1.8
        (45, ("obstructed",), 1.25, 1.55),  # B: 2.1 and 0.4; -1.9 and -1.2
        (15, ("obstructed",), 1.35 / 2, 1.35),  # front, B: 1.2 and -0.3, taken as half of the lift
    ],
)
def test_shares_by_hand(tilt, flows, press, lift):
    """ASCE/SEI 7-22 Fig. 27.3-4 as printed, p = q Kd G CN: 1 kPa given at q = 800 Pa."""
    share = given_share(1000.0, 800.0, radians(tilt), flows)
    assert share.pressing == pytest.approx(1000 / (800 * 0.85 * 0.85 * press))
    assert share.lifting == pytest.approx(1000 / (800 * 0.85 * 0.85 * lift))


@given(tilts, pressures, st.sampled_from([FLOWS, FLOWS[:1]]))
def test_the_hardest_wind_of_either_sense_has_the_given_mean(tilt, pressure, flows):
    share = given_share(pressure, 800.0, tilt, flows)
    means = [800 * quarters(w).mean() for w in across(tilt, flows, share)]
    assert max(means) == pytest.approx(pressure)
    assert min(means) == pytest.approx(-pressure)


@given(tilts, pressures, some_flows)
def test_nothing_presses_or_lifts_by_more_on_the_mean(tilt, pressure, flows):
    share = given_share(pressure, 800.0, tilt, flows)
    means = [800 * quarters(w).mean() for w in across(tilt, flows, share)]
    assert np.abs(means).max() == pytest.approx(pressure)


@given(tilts, pressures, some_flows, st.floats(1.0, 5.0))
def test_every_wind_is_in_proportion_to_the_pressure(tilt, pressure, flows, times):
    """Panels, wind along the beam and pipes alike."""
    once, more = (
        wind_cases(tilt, flows, 3, share=given_share(p, 800.0, tilt, flows))
        for p in (pressure, times * pressure)
    )
    for a, b in zip(once, more, strict=True):
        found = [value for _, value in b.coefficients]
        assert found == pytest.approx([times * value for _, value in a.coefficients])


@given(tilts, some_flows)
def test_where_as_much_is_given_as_the_standard_has_its_winds_are_the_standard_s(tilt, flows):
    """The hardest that it presses with, or lifts with, gives its winds of that sense again."""
    plain = wind_cases(tilt, flows, 3)
    means = {w.name: quarters(w).mean() for w in across(tilt, flows)}
    for sense in (1, -1):
        hardest = max(sense * m for m in means.values())
        if hardest < 0.5 * max(-sense * m for m in means.values()):
            continue
        share = given_share(800 * hardest, 800.0, tilt, flows)
        assert (share.pressing if sense > 0 else share.lifting) == pytest.approx(1.0)
        for one, other in zip(plain, wind_cases(tilt, flows, 3, share=share), strict=True):
            panels = [v for n, v in one.coefficients if n not in (ACROSS, ALONG)]
            if all(sense * v >= 0 for v in panels):
                assert [v for _, v in other.coefficients] == pytest.approx(
                    [v for _, v in one.coefficients]
                )


def test_each_half_is_counted_by_its_own_sense():
    """At 22.5 deg, blocked, case A from the front: 0.5 and -1.0 (Fig. 27.3-4), linear between."""
    share = WindShare(pressing=2.0, lifting=0.5)
    (wind,) = (
        w
        for w in across(radians(22.5), FLOWS[1:], share)
        if (w.direction, w.case, w.side) == ("front", "A", EVEN)
    )
    assert quarters(wind) / 0.7225 == pytest.approx([1.0, 1.0, -0.5, -0.5])
