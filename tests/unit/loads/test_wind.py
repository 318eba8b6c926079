"""Limits, edges and senses of the wind tables."""

import math

import numpy as np
import pytest

from frame.loads import wind


@pytest.mark.parametrize("case", "AB")
@pytest.mark.parametrize("degrees", [7.5, 10, 15, 22.5, 30, 41, 45, 60])
def test_wind_in_the_face_presses_and_wind_from_behind_lifts(degrees: float, case: str) -> None:
    # Physics: air stopped under a sheet pushes it away from the side it comes from.
    front = wind.monoslope_coefficients(math.radians(degrees), "front", case, "clear")
    back = wind.monoslope_coefficients(math.radians(degrees), "back", case, "clear")
    assert sum(front) > 0 > sum(back)
    assert min(front) >= 0 >= max(back)


@pytest.mark.parametrize("direction", ["front", "back"])
def test_case_b_is_heaviest_at_the_windward_edge(direction: str) -> None:
    for degrees in (7.5, 15, 22.5, 30, 37.5, 45):
        tilt = math.radians(degrees)
        windward, leeward = wind.monoslope_coefficients(tilt, direction, "B", "clear")
        assert abs(windward) > abs(leeward)


def test_under_seven_and_a_half_degrees_the_flat_row_holds() -> None:
    for degrees in (0, 3, 7.4):
        tilt = math.radians(degrees)
        assert wind.monoslope_coefficients(tilt, "front", "A", "clear") == (1.2, 0.3)
    assert wind.monoslope_coefficients(math.radians(7.5), "front", "A", "clear") == (0.9, 1.5)


def test_half_way_between_rows_is_half_way_between_values() -> None:
    found = wind.monoslope_coefficients(math.radians(18.75), "front", "B", "clear")
    assert found == pytest.approx((2.0, 0.65))


def test_over_45_degrees_values_are_held_and_said_to_be_uncovered() -> None:
    steep, at_45 = (
        wind.monoslope_coefficients(math.radians(d), "front", "A", "clear") for d in (55, 45)
    )
    assert steep == at_45
    assert any("45" in note for note in wind.outside(math.radians(55), 3.0, 3.0))


def test_notes_name_what_lies_outside_the_tables() -> None:
    assert len(wind.outside(math.radians(30), 2.0, 3.0)) == 1
    assert any("depth" in n for n in wind.outside(math.radians(30), 3.0, 2.0))
    assert any("flutter" in n for n in wind.outside(math.radians(5), 2.0, 3.0))


@pytest.mark.parametrize(
    ("degrees", "height", "chord", "notes"),
    [
        # Fig. 27.3-4 is for 0.25 <= h / L <= 1 and up to 45 deg; L the chord as seen from above.
        (30, 0.26 * 3 * math.cos(math.radians(30)), 3.0, 1),
        (30, 0.24 * 3 * math.cos(math.radians(30)), 3.0, 2),
        (30, 0.99 * 3 * math.cos(math.radians(30)), 3.0, 1),
        (30, 1.01 * 3 * math.cos(math.radians(30)), 3.0, 2),
        (44.9, 1.0, 2.0, 1),
        (45.1, 1.0, 2.0, 2),
        # Judgement: flutter under 8 deg.
        (8.1, 1.0, 2.0, 1),
        (7.9, 1.0, 2.0, 2),
    ],
)
def test_notes_begin_where_the_tables_end(
    degrees: float, height: float, chord: float, notes: int
) -> None:
    assert len(wind.outside(math.radians(degrees), height, chord)) == notes


@pytest.mark.parametrize("bad", [("up", "A", "clear"), ("front", "C", "clear")])
def test_unknown_case_is_refused(bad: tuple[str, str, str]) -> None:
    with pytest.raises(ValueError, match="no coefficients"):
        wind.monoslope_coefficients(0.5, *bad)


def test_unknown_exposure_is_refused() -> None:
    with pytest.raises(ValueError, match="exposure 'A'"):
        wind.exposure_factor(5.0, "A")


def test_velocity_pressure_takes_arrays_of_gusts_and_heights() -> None:
    found = wind.velocity_pressure(np.array([20.0, 40.0]), np.array([[3.0], [9.0]]), "C")
    assert np.shape(found) == (2, 2)


def test_components_in_exposure_b_have_their_floor() -> None:
    assert wind.exposure_factor(3.0, "B", component=True) == 0.70
    assert wind.exposure_factor(3.0, "B") < 0.70
    assert wind.exposure_factor(3.0, "C", component=True) == wind.exposure_factor(3.0, "C")


def test_gaps_between_panels_help_little() -> None:
    # By hand: 3 % of gaps: 0.03^1.5 = 0.0052.
    assert wind.gap_factor(0.97) == pytest.approx(0.9948, abs=1e-4)
    assert np.isnan(wind.gap_factor(0.5))
    assert wind.gap_factor(1.0) == 1.0


def test_small_rack_lies_wholly_within_the_edge_zone() -> None:
    assert wind.edge_width(2.0, 3.0) == 0.9
    assert wind.edge_width(20.0, 3.0) == pytest.approx(1.2)


def test_smaller_areas_nearer_the_corner_see_more() -> None:
    tilt, edge = math.radians(30), 0.9
    corner = wind.component_coefficients(tilt, "corner", 0.5, edge, "clear")
    side = wind.component_coefficients(tilt, "edge", 0.5, edge, "clear")
    middle = wind.component_coefficients(tilt, "interior", 0.5, edge, "clear")
    whole = wind.component_coefficients(tilt, "corner", 9.0, edge, "clear")
    assert corner[0] > side[0] > middle[0]
    assert corner[1] < side[1] < middle[1]
    assert whole == pytest.approx(middle)
