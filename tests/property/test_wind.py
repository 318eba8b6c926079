"""Laws every wind load obeys."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.loads.cases import DEAD, case_table, wind_cases
from frame.loads.combinations import ASD
from frame.loads.wind import (
    elevation_factor,
    exposure_factor,
    monoslope_coefficients,
    velocity_pressure,
)

heights = st.floats(0, 60)
gusts = st.floats(1, 90)
exposures = st.sampled_from("BCD")
tilts = st.floats(0, math.radians(60))
QUARTERS = tuple(f"panels, {h} {s}" for h in ("lower", "upper") for s in ("left", "right"))
STRIPS = tuple(f"strip {i} from {s}" for s in ("left", "right") for i in (1, 2, 3))
NAMES = (*DEAD, *QUARTERS, *STRIPS, "drag across", "drag along")


@given(gusts, heights, exposures)
def test_twice_the_gust_is_four_times_the_pressure(v: float, z: float, exposure: str) -> None:
    single, double = (velocity_pressure(f * v, z, exposure) for f in (1, 2))
    assert double == pytest.approx(4 * single)


@given(heights, heights, exposures)
def test_higher_is_windier(z1: float, z2: float, exposure: str) -> None:
    low, high = sorted((z1, z2))
    assert exposure_factor(low, exposure) <= exposure_factor(high, exposure)


@given(heights)
def test_more_open_ground_is_windier(z: float) -> None:
    assert exposure_factor(z, "B") < exposure_factor(z, "C") < exposure_factor(z, "D")


@given(st.floats(0, 4000), st.floats(0, 4000))
def test_thin_air_presses_less(a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert 0 < elevation_factor(high) <= elevation_factor(low) <= 1


@given(st.floats(math.radians(7.5), math.radians(45)), st.sampled_from("AB"))
def test_pressing_grows_with_tilt(tilt: float, case: str) -> None:
    # The overall push of the figure never falls as the sheet is stood up into the wind.
    less, more = (
        sum(monoslope_coefficients(t, "front", case, "clear")) for t in (tilt, tilt + 0.02)
    )
    assert more >= less - 1e-9


@given(tilts)
def test_coefficients_have_no_jump_above_the_flat_row(tilt: float) -> None:
    if tilt >= math.radians(7.5):
        a, b = (monoslope_coefficients(t, "back", "B", "obstructed") for t in (tilt, tilt + 1e-6))
        assert a == pytest.approx(b, abs=1e-4)


def mirrored(name: str) -> str:
    swap = {"left": "right", "right": "left"}
    return " ".join(swap.get(word, word) for word in name.replace(",", " ,").split()).replace(
        " ,", ","
    )


@given(tilts, st.integers(1, 3), st.floats(0, 4000))
def test_every_case_has_its_mirror_image(tilt: float, strips: int, pressure: float) -> None:
    table = case_table(ASD, wind_cases(tilt, ("clear", "obstructed"), strips), NAMES)
    factors = table.at(pressure)
    order = [NAMES.index(mirrored(n)) for n in NAMES]
    sign = np.where(np.array(NAMES) == "drag along", -1.0, 1.0)
    for i, label in enumerate(table.labels):
        j = table.labels.index(mirrored(label))
        np.testing.assert_allclose(factors[j], (factors[i] * sign)[order], atol=1e-9)
