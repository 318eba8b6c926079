"""What a rack has stood, as its file tells it."""

import math

import pytest

from frame.casefile.read import parse_rack
from frame.casefile.starter import starter_text
from frame.rack.rack import Rack

MPH = 0.44704  # NIST SP 811, appendix B


def read(section: str, top: str = "") -> Rack:
    return parse_rack(f"{top}\n{starter_text()}\n{section}\n", "mine.toml")


def test_nothing_is_told_unless_the_file_does() -> None:
    rack = read("")
    assert rack.stood is None
    assert not rack.stands


def test_a_rack_that_stands() -> None:
    assert read("", 'stands = "yes"').stands


def test_a_storm_is_read_whole() -> None:
    more = 'fitted = ["Guys", "knees"]\npanels = "off"\nmoved = "turned"'
    stood = read(f'[stood]\ngust = "48 mph"\ntilt = "30 deg"\n{more}').stood
    assert stood is not None
    assert stood.gust == pytest.approx(48 * MPH)
    assert stood.tilt == pytest.approx(math.pi / 6)
    assert stood.fitted == ("knees", "guys")
    assert not stood.panels_on
    assert stood.moved == "turned"


def test_what_is_left_out_is_assumed_and_said() -> None:
    rack = read('[stood]\ngust = "48 mph"\ntilt = "0 deg"')
    stood = rack.stood
    assert stood is not None
    assert stood.fitted == ()
    assert stood.panels_on
    assert stood.moved == "nothing"
    said = {a.key: a.value for a in rack.assumptions}
    assert said["stood.fitted"] == "none, the rack was bare"
    assert said["stood.panels"] == "on"
    assert said["stood.moved"] == "nothing"
