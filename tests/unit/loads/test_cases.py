"""Load cases: senses, shares and factors."""

import math

import numpy as np
import pytest

from frame.idealize.surcharge import least_pressure
from frame.loads.cases import DEAD, WindCase, case_table, wind_cases
from frame.loads.combinations import ASD, WEIGHT_ONLY, WHOLE_WIND
from frame.loads.wind import LEAST_PRESSURE

TILT = math.radians(30)
QUARTERS = tuple(f"panels, {h} {s}" for h in ("lower", "upper") for s in ("left", "right"))
STRIPS = tuple(f"strip {i} from {s}" for s in ("left", "right") for i in (1, 2))
NAMES = (*DEAD, *QUARTERS, *STRIPS, "drag across", "drag along")


def case(name: str, flows: tuple[str, ...] = ("clear", "obstructed")) -> WindCase:
    (found,) = (c for c in wind_cases(TILT, flows, 2) if c.name == name)
    return found


def test_sixteen_cases_a_flow_all_named_apart() -> None:
    cases = wind_cases(TILT, ("clear", "obstructed"), 3)
    assert len(cases) == 32
    assert len({c.name for c in cases}) == len({c.words for c in cases}) == 32


def test_words_are_the_builders() -> None:
    assert case("front, A, gust left").words == "wind in the face, gust on the left half"
    assert case("back, A").words == "wind from behind"
    assert case("left, A").words == "wind along the beam from the left, lifting"
    assert "blocked" in case("front, B, obstructed").words


def test_front_wind_is_hard_on_the_lower_half_and_back_wind_on_the_upper() -> None:
    # ASCE/SEI 7-22 Fig. 27.3-4 at 30 deg, case B: 2.6 / 1.0 and -2.5 / -0.5 windward / leeward;
    # Kd G = 0.85 x 0.85 = 0.7225.
    front, back = dict(case("front, B").coefficients), dict(case("back, B").coefficients)
    assert front["panels, lower left"] == pytest.approx(0.7225 * 2.6)
    assert front["panels, upper right"] == pytest.approx(0.7225 * 1.0)
    assert back["panels, upper left"] == pytest.approx(-0.7225 * 2.5)
    assert back["panels, lower right"] == pytest.approx(-0.7225 * 0.5)


def test_one_sided_gust_moves_the_resultant_a_fifth_of_the_length_and_keeps_the_total() -> None:
    even = dict(case("front, A").coefficients)
    for side, sign in (("left", -1), ("right", 1)):
        gust = dict(case(f"front, A, gust {side}").coefficients)
        assert sum(gust[q] for q in QUARTERS) == pytest.approx(sum(even[q] for q in QUARTERS))
        arm = {"left": -0.25, "right": 0.25}
        offset = sum(gust[q] * arm[q.split()[-1]] for q in QUARTERS)
        assert offset / sum(gust[q] for q in QUARTERS) == pytest.approx(0.2 * sign)


def test_drag_blows_with_the_wind() -> None:
    for name, load, sign in (
        ("front, A", "drag across", 1),
        ("back, A", "drag across", -1),
        ("left, A", "drag along", 1),
        ("right, A", "drag along", -1),
    ):
        assert dict(case(name).coefficients)[load] == pytest.approx(sign * 0.7225)


def test_wind_along_the_beam_starts_at_the_windward_strip() -> None:
    for side in ("left", "right"):
        found = dict(case(f"{side}, A").coefficients)
        assert found[f"strip 1 from {side}"] == pytest.approx(-0.8 * 0.7225)
        assert found[f"strip 2 from {side}"] == pytest.approx(-0.6 * 0.7225)
        assert f"strip 3 from {side}" not in found


def test_combinations_are_those_of_the_standard() -> None:
    # ASCE/SEI 7-22 2.4.1: 1. D, 5. D + 0.6W, 7. 0.6D + 0.6W.
    assert [(c.name, c.dead, c.wind) for c in ASD] == [
        ("D", 1.0, 0.0),
        ("D + 0.6W", 1.0, 0.6),
        ("0.6D + 0.6W", 0.6, 0.6),
    ]
    assert [(c.dead, c.wind, c.code) for c in WHOLE_WIND] == [(1, 1, False), (0.6, 1, False)]


def test_table_crosses_combinations_with_winds() -> None:
    table = case_table((WEIGHT_ONLY, *ASD, *WHOLE_WIND), wind_cases(TILT, ("clear",), 2), NAMES)
    assert len(table.labels) == len(set(table.labels)) == 1 + 4 * 16
    assert table.at(0.0).shape == (65, len(NAMES))
    row = table.labels.index("0.6D + 0.6W, front, B, gust left")
    factors = dict(zip(NAMES, table.at(1000.0)[row], strict=True))
    assert factors["steel weight"] == factors["panel weight"] == 0.6
    # 0.6 x 0.7225 x 2.6 x 1.8 x 1000
    assert factors["panels, lower left"] == pytest.approx(2028.78)
    assert factors["drag along"] == 0
    assert table.words[0] == "weight only, no wind"


def test_wind_on_a_load_that_is_not_there_is_an_error() -> None:
    with pytest.raises(KeyError):
        case_table(ASD, wind_cases(TILT, ("clear",), 3), NAMES)


def test_least_pressure_does_not_grow_with_the_gust() -> None:
    names = (*DEAD, "level on panels", "drag across")
    table = case_table(ASD[1:2], least_pressure(), names)
    assert not table.per_pressure.any()
    np.testing.assert_array_equal(table.at(0.0), table.at(5000.0))
    even = table.at(0.0)[table.labels.index("D + 0.6W, front, least")]
    assert even[2] == pytest.approx(0.6 * LEAST_PRESSURE)


def test_least_pressure_is_16_pounds_a_square_foot() -> None:
    # ASCE/SEI 7-22 27.1.5, in the standard's own SI figure 0.77 kN/m2.
    assert pytest.approx(770, rel=0.006) == LEAST_PRESSURE
