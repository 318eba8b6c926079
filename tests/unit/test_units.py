"""Units: reading, writing, and every way to get it wrong.

Exact factors: NIST SP 811 (2008), appendix B.8 and B.9. Numbers below are copied from it, not
taken from the program.
"""

import math
import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame import units
from frame.units import UnitError, parse, show, show_both, show_no_more, show_number
from frame.units.factors import EXAMPLES
from frame.units.show import KINDS

NIST = [
    ("1 in", "length", 0.0254),
    ("1 ft", "length", 0.3048),
    ("1 yd", "length", 0.9144),
    ("1 lb", "force", 4.4482216152605),
    ("1 kip", "force", 4448.2216152605),
    ("1 kg", "weight", 9.80665),
    ("1 mph", "speed", 0.44704),
    ("1 km/h", "speed", 1 / 3.6),
    ("1 knot", "speed", 0.5144444),
    ("1 psi", "stress", 6894.757),
    ("1 ksi", "stress", 6894757.0),
    ("1 psf", "pressure", 47.88026),
    ("1 lb/ft", "weight per length", 14.59390),
    ("1 kg/m", "weight per length", 9.80665),
    ("1 ft-lb", "torque", 1.355818),
    ("1 in-lb", "torque", 0.1129848),
    ("1 deg", "angle", 0.01745329),
]
INCHES = [
    ("14 ft 2-1/2 in", 170.5),
    ("14'-2 1/2\"", 170.5),
    ("14' 2.5\"", 170.5),
    ("14ft2-1/2in", 170.5),
    ("14 feet 2 1/2 inches", 170.5),
    ("14 ft. 2-1/2 in.", 170.5),
    ("14 ft - 2 1/2 in", 170.5),
    ("14\u2032 2\u00bd\u2033", 170.5),
    ("5 1/4 in", 5.25),
    ("5-1/4 in", 5.25),
    ("5\u00bc in", 5.25),
    ("5-\u00bc\u201d", 5.25),
    ("5 1/4''", 5.25),
    ("0.237 in", 0.237),
    ('.237"', 0.237),
    ("3/16 in", 0.1875),
    ("41 inches", 41),
    ("6'", 72),
    ("6 ft 0 in", 72),
    ("1,050 mm", 1050 / 25.4),
    ("1050mm", 1050 / 25.4),
    ("1.05 m", 1050 / 25.4),
    ("105 cm", 1050 / 25.4),
    ("1.05e3 mm", 1050 / 25.4),
    ("-3 in", -3),
    ("\u22123 in", -3),
    ("-2'-6\"", -30),
    ("+3 in", 3),
    ("  3   in ", 3),
    ("3\u00a0in", 3),
]
BAD = [
    ("14", "length", "no unit"),
    ("5-1/4", "length", "no unit"),
    ("", "length", "nothing is written"),
    ("   ", "force", "nothing is written"),
    ("nan in", "length", "not a length"),
    ("NaN", "length", "not a length"),
    ("inf m", "length", "not a length"),
    ("-inf lb", "force", "not a force"),
    ("1e999 m", "length", "too big"),
    ("1/0 in", "length", "over 0"),
    ("5 5/4 in", "length", "not less than 1"),
    ("5.5 1/4 in", "length", "not a length"),
    ("1,5 m", "length", "point"),
    ("1.050,5 mm", "length", "point"),
    ("48 lb", "length", "is a weight, not a length"),
    ("48 in", "force", "is a length, not a force"),
    ("105 mph", "length", "is a speed, not a length"),
    ("30 psf", "speed", "not a speed"),
    ("30 ft-lb", "force", "is a torque, not a force"),
    ("30 ft", "torque", "is a length, not a torque"),
    ("7 lb", "weight per length", "not a weight per length"),
    ("5 parsec", "length", "no known unit"),
    ("5 in in", "length", "no known unit"),
    ("5 in3", "length", "no known unit"),
    ("5' 6", "length", 'no unit after 6; write it like "5\' 6 in"'),
    ("5 ft 14 in", "length", "12 inches or more"),
    ("5.5 ft 3 in", "length", "part feet"),
    ("ft 5", "length", "not a length"),
    ("five in", "length", "not a length"),
    ("--5 in", "length", "not a length"),
    ("5 - 1/4 in", "length", "not a length"),
    ("0x10 in", "length", "no known unit"),
    ("\u0665 in", "length", "not a length"),
    ("5 in\x00", "length", "no known unit"),
    ("1" * 90, "length", "too long"),
    ("35 %", "angle", "not an angle"),
    ("41 in", "size", "two lengths"),
    ("41 x 69", "size", "no unit"),
    ("41 in x 69", "size", "no unit"),
    ("41 in x 69 lb", "size", "is a weight"),
    ("1 in x 2 in x 3 in", "size", "two lengths"),
    ("x", "size", "not a size"),
]


@pytest.mark.parametrize(("text", "kind", "si"), NIST)
def test_factors_are_those_of_nist_sp_811(text: str, kind: str, si: float) -> None:
    assert parse(text, kind) == pytest.approx(si, rel=5e-7)


@pytest.mark.parametrize(("text", "inches"), INCHES)
def test_lengths_as_builders_write_them(text: str, inches: float) -> None:
    assert parse(text, "length") == pytest.approx(inches * 0.0254, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "same", "as_kind"),
    [
        ("3,150 lb", "force", "3150 lbf", "force"),
        ("3.15 kips", "force", "3150 pounds", "weight"),
        ("30 lbs. per sq. ft.", "pressure", "30 psf", "pressure"),
        ("30 lb/ft\u00b2", "pressure", "30 lb/ft^2", "pressure"),
        ("240 N/mm2", "stress", "240 MPa", "stress"),
        ("1.4 kN/m2", "pressure", "1.4 kPa", "pressure"),
        ("30 ft.-lbs.", "torque", "360 in-lb", "torque"),
        ("30 lb-ft", "torque", "30 foot pounds", "torque"),
        ("40 N\u00b7m", "torque", "40 Nm", "torque"),
        ("7.58 lbs per foot", "weight per length", "7.58 plf", "weight per length"),
        ("35\u00b0", "angle", "35 degrees", "angle"),
        ("105 MPH", "speed", "105 mi/h", "speed"),
        ("100 kph", "speed", "100 km/hr", "speed"),
        ("42 KG", "weight", "42 kilograms", "weight"),
    ],
)
def test_spellings_mean_the_same(text: str, kind: str, same: str, as_kind: str) -> None:
    assert parse(text, kind) == pytest.approx(parse(same, as_kind), rel=1e-12)


@pytest.mark.parametrize(
    "text",
    ["41 in x 69 in", "41 in by 69 in", "41 x 69 in", "41\" x 69\"", "41in\u00d769in",
     "3'-5\" x 5 ft 9 in", "1041.4 mm x 1752.6 mm"],
)  # fmt: skip
def test_sizes(text: str) -> None:
    width, height = parse(text, "size")
    assert (width, height) == pytest.approx((41 * 0.0254, 69 * 0.0254), rel=1e-12)


@pytest.mark.parametrize(("text", "kind", "words"), BAD)
def test_bad_input_has_one_clear_message(text: str, kind: str, words: str) -> None:
    with pytest.raises(UnitError) as error:
        parse(text, kind)
    message = str(error.value)
    assert words in message
    assert "write it like" in message
    assert "\n" not in message
    assert len(message) < 260


@pytest.mark.parametrize("value", [14, 14.5, 0, float("nan"), True, None, [], {"a": 1}])
def test_what_is_not_text_is_refused(value: object) -> None:
    with pytest.raises(UnitError, match="write it like"):
        parse(value, "length")


def test_every_kind_refuses_a_bare_number_and_reads_its_own_examples() -> None:
    for kind, examples in EXAMPLES.items():
        with pytest.raises(UnitError):
            parse("14", kind)
        for example in re.findall(r'"([^"]+)"', examples):
            assert parse(example, kind)


def test_minus_zero_is_zero() -> None:
    assert math.copysign(1, parse("-0 in", "length")) == 1


@given(st.text(max_size=40), st.sampled_from(sorted(EXAMPLES)))
def test_any_text_gives_a_finite_number_or_a_unit_error(text: str, kind: str) -> None:
    try:
        value = parse(text, kind)
    except UnitError:
        return
    assert all(map(math.isfinite, value if isinstance(value, tuple) else (value,)))


@given(st.text(alphabet="0123456789/-., '\"xinftmbl", max_size=16))
def test_any_nearly_right_length_does_not_crash(text: str) -> None:
    try:
        parse(text, "length")
    except UnitError:
        return


@given(st.integers(0, 12 * 16 * 60))
def test_sixteenths_survive_being_written_and_read(steps: int) -> None:
    exact = float(Fraction(steps, 16)) * 0.0254
    written = show(exact, "length")
    assert parse(written, "length") == pytest.approx(exact, abs=1e-12)
    assert parse(f"-{written}", "length") == pytest.approx(-exact, abs=1e-12)


@given(st.floats(-50, 50))
def test_a_tape_is_never_more_than_a_32nd_out(value: float) -> None:
    assert abs(parse(show(value, "length"), "length") - value) <= 0.0254 / 32 + 1e-9


@given(st.floats(0.011, 9.9))
def test_metric_lengths_are_within_half_a_millimetre(value: float) -> None:
    assert abs(parse(show(value, "length", "metric"), "length") - value) <= 0.0005 + 1e-9


@given(
    st.floats(-1e7, 1e7),
    st.sampled_from(["force", "weight", "speed", "pressure", "torque", "angle"]),
    st.sampled_from(units.SYSTEMS),
)
def test_what_is_shown_reads_back_within_its_digits(value: float, kind: str, system: str) -> None:
    text = show(value, kind, system)
    coarse = {"speed": 0.25, "pressure": 2.5, "angle": 0.001}.get(kind, 0.5)
    assert abs(parse(text, kind) - value) <= max(0.0051 * abs(value), coarse)


@given(st.floats(-1e-13, 1e-13), st.sampled_from(sorted(KINDS)))
def test_noise_shows_as_plain_zero(value: float, kind: str) -> None:
    for system in units.SYSTEMS:
        assert "-0" not in show(value, kind, system).split(" ")
        assert not show_number(value, kind, system).startswith("-0")


@pytest.mark.parametrize(
    ("value", "kind", "us", "metric"),
    [
        (71.4375 * 0.0254, "length", "5'-11 7/16\"", "1815 mm"),
        (11.4375 * 0.0254, "length", "11-7/16 in", "291 mm"),
        (24 * 0.0254, "length", "2'-0\"", "610 mm"),
        (192.6875 * 0.0254, "length", "16'-0 11/16\"", "4894 mm"),
        (23.99 * 0.0254, "length", "2'-0\"", "609 mm"),
        (23.5 * 0.0254, "length", "23-1/2 in", "597 mm"),
        (0.5 * 0.0254, "length", "1/2 in", "13 mm"),
        (0.0, "length", "0 in", "0 mm"),
        (-30 * 0.0254, "length", "-2'-6\"", "-762 mm"),
        (12.0, "length", "39'-4 7/16\"", "12 m"),
        (0.237 * 0.0254, "thickness", "0.237 in", "6.02 mm"),
        (0.28 * 0.0254, "movement", "0.28 in", "7.1 mm"),
        (1243 * 4.4482216, "force", "1,240 lb", "5.53 kN"),
        (100 * 4.4482216, "force", "100 lb", "445 N"),
        (-100 * 4.4482216, "force", "-100 lb", "-445 N"),
        (49 * 4.4482216, "weight", "49 lb", "22.2 kg"),
        (35 * 1.3558179, "torque", "35 ft-lb", "47.5 N m"),
        (87 * 0.1129848, "torque", "87 in-lb", "9.8 N m"),
        (110 * 0.44704, "speed", "110 mph", "49.2 m/s"),
        (24.43 * 47.88026, "pressure", "24.4 psf", "1.17 kPa"),
        (35 * 6894757.0, "stress", "35 ksi", "241 MPa"),
        (7.58 * 14.5939, "weight per length", "7.58 lb/ft", "11.3 kg/m"),
        (math.inf, "speed", "no limit", "no limit"),
    ],
)
def test_quantities_as_builders_read_them(value: float, kind: str, us: str, metric: str) -> None:
    assert show(value, kind) == us
    assert show(value, kind, "metric") == metric


def test_both_systems_side_by_side() -> None:
    assert show_both(1.0414, "length") == "3'-5\" (1041 mm)"
    assert show_both(0.61, "angle") == "35 deg"


def test_a_value_that_is_no_number_is_never_shown() -> None:
    with pytest.raises(ValueError, match="not a number"):
        show(math.nan, "force")
    with pytest.raises(ValueError, match="not a number"):
        show_number(math.nan, "thickness")


@pytest.mark.parametrize(
    ("head", "factor"),
    [("od_in", 0.0254), ("weight_lb_per_ft", 14.5939), ("nh_pci", 271447.1), ("name", 1.0),
     ("E_low_ksi", 6894757.0), ("lateral_psf_per_ft", 157.0875), ("alpha_per_f", 1.8)],
)  # fmt: skip
def test_a_column_head_ends_in_its_unit(head: str, factor: float) -> None:
    assert units.column_factor(head) == pytest.approx(factor, rel=1e-6)


@pytest.mark.parametrize(
    ("mph", "told"), [(110.0, "110 mph"), (109.6, "109 mph"), (16.99, "16 mph"), (0.0, "0 mph")]
)
def test_a_limit_is_never_shown_larger_than_it_is(mph: float, told: str) -> None:
    assert show_no_more(mph * 0.44704, "speed", "us") == told


def test_a_metric_limit_keeps_its_tenths() -> None:
    assert show_no_more(33.98, "speed", "metric") == "33.9 m/s"
    assert show_no_more(42.0, "speed", "metric") == "42 m/s"
    assert show_no_more(math.inf, "speed", "metric") == "no limit"
