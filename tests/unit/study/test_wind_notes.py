"""What is said of the wind tables' limits."""

from dataclasses import replace
from math import radians

from frame.study.wind_notes import wind_notes
from tests.unit.study.parts.racks import ONE_POST


def test_any_rack_is_told_that_no_table_is_its_own() -> None:
    notes = wind_notes(ONE_POST)
    assert "no table for one small rack" in notes[0]
    assert len(notes) == len(set(notes))


def test_steep_tilts_are_said_once() -> None:
    steep = replace(ONE_POST, tilts=(radians(15), radians(50), radians(55)))
    assert sum("45 degrees" in note for note in wind_notes(steep)) == 1


def test_gaps_hardly_help() -> None:
    """Four panels of 41 in and two of 69 in with 1/2 in between: 1.26 % open; ASCE/SEI 7-22 29.3.1
    takes 0.0126^1.5 = 0.14 % off.
    """
    assert "1.3 % of the panels' outline and take 0.1 % off" in wind_notes(ONE_POST)[-1]


def test_a_given_pressure_is_said_in_place_of_the_tables() -> None:
    given = replace(ONE_POST, site=replace(ONE_POST.site, pressure=900.0))
    assert "the pressure that the file gives" in wind_notes(given)[0]
    assert len(wind_notes(given)) == 2


def test_what_is_outside_at_some_tilts_only_names_them() -> None:
    """Height over depth along the wind is 1 and more at either tilt, but not the same."""
    tall = replace(ONE_POST, panels=replace(ONE_POST.panels, up=1), tilts=(0.2, 0.6))
    told = [n for n in wind_notes(tall) if "0.25 to 1 times" in n]
    assert len(told) == 2
    assert told[0].startswith("Tilted 11.5 deg: the table")
    assert told[1].startswith("Tilted 34.4 deg: the table")
