"""What was read off a standing rack, as its file tells it."""

import math

import pytest

from frame.casefile.read import parse_rack
from frame.casefile.starter import starter_text
from frame.errors import InputError
from frame.rack.measured import Measured

INCH, LB = 0.0254, 4.4482216152605  # NIST SP 811, appendix B


def read(section: str) -> Measured:
    measured = parse_rack(f"{starter_text()}\n[measured]\n{section}\n", "mine.toml").measured
    assert measured is not None
    return measured


def refused(section: str) -> str:
    with pytest.raises(InputError) as caught:
        read(section)
    return str(caught.value)


def test_nothing_is_measured_unless_the_file_says_so() -> None:
    assert parse_rack(starter_text(), "mine.toml").measured is None


def test_a_reading_by_itself_is_as_good_as_its_usual_tool() -> None:
    (droop,) = read('droop_left = "3/4 in"').readings
    assert droop.value == pytest.approx(0.75 * INCH)
    assert (droop.tool, droop.within) == ("string line", pytest.approx(INCH / 8))


def test_a_reading_with_its_tool_and_how_well_it_was_read() -> None:
    told = '{ read = "1-1/4 in", within = "1/16 in", tool = "eye" }'
    (droop,) = read(f"droop_right = {told}").readings
    assert droop.value == pytest.approx(1.25 * INCH)
    assert (droop.tool, droop.within) == ("eye", pytest.approx(INCH / 16))


def test_another_tool_is_as_good_as_it_is() -> None:
    (level,) = read('level = { read = "1 deg", tool = "level" }').readings
    assert level.within == pytest.approx(math.radians(0.3))


@pytest.mark.parametrize("said", ["can't tell", "Can\u2019t tell"])
def test_who_can_not_tell_may_say_so(said: str) -> None:
    measured = read(f'lift_left = "{said}"')
    assert measured.readings[0].value is None
    assert measured.taken == ()


def test_forces_and_how_the_rack_was_are_read_beside_them() -> None:
    measured = read(
        'fitted = ["knees"]\npull = "100 lb"\npull_height = "5 ft"\npull_way = "along"\n'
        'top_moved = "1/4 in"\nshakes = 22\n'
    )
    assert measured.fitted == ("knees",)
    assert measured.pull == pytest.approx(100 * LB)
    assert measured.pull_height == pytest.approx(60 * INCH)
    assert measured.pull_way == "along"
    assert {r.key: r.value for r in measured.readings}["shakes"] == pytest.approx(2.2)


@pytest.mark.parametrize(
    ("section", "says"),
    [
        ('end_moved = "1 in"', "measured.end_moved: stands without its force; add push"),
        ("droop_left = 3", "is the bare number 3; write it in quotes with its unit, or \"can't"),
        ('droop_left = { within = "1 in" }', "lacks read; write { read = "),
        ('droop_left = { read = "1 in", tool = "phone" }', "write one of string line, tape"),
        ('droop_left = { read = "1 in", within = "0 in" }', "within is not more than zero"),
        ('level = "3 in"', "is a length, not an angle"),
        ('shakes = "22"', "write the shakes in ten seconds as a plain number"),
        ("shakes = 4000", "is out of range; write the shakes"),
        ('fitted = ["kneees"]', 'measured.fitted[1]: "kneees" is no bracing of this file'),
        ('fitted = "knees"', 'write a list in square brackets, as fitted = ["...", "..."]'),
        ('tilt = "80 deg"', "is out of range; give the tilt on that day"),
        ('pull = "9 lb"\npull_height = "20 ft"', "measured.pull_height: 20'-0\" is above"),
        ('drop_left = "1 in"', 'the nearest key is "droop_left"'),
    ],
)
def test_what_is_wrong_is_said_with_what_would_be_right(section: str, says: str) -> None:
    assert says in refused(section)


def test_several_faults_are_told_at_once() -> None:
    assert len(refused('droop_left = 3\nlevel = "3 in"\nend_moved = "1 in"').splitlines()) == 3
