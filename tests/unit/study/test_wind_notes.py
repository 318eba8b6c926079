"""What is said of the wind tables' limits."""

from dataclasses import replace
from math import radians

from frame.study.wind_notes import wind_notes
from tests.unit.study.parts.racks import BOAT_SHED


def test_any_rack_is_told_that_no_table_is_its_own() -> None:
    notes = wind_notes(BOAT_SHED)
    assert "no table for one small rack" in notes[0]
    assert len(notes) == len(set(notes))


def test_steep_tilts_are_said_once() -> None:
    steep = replace(BOAT_SHED, tilts=(radians(15), radians(50), radians(55)))
    assert sum("45 degrees" in note for note in wind_notes(steep)) == 1


def test_gaps_hardly_help() -> None:
    """Four panels of 41 in and two of 69 in with 1/2 in between: 1.26 % open; ASCE/SEI 7-22 29.3.1
    takes 0.0126^1.5 = 0.14 % off.
    """
    assert "1.3 % of the panels' outline and take 0.1 % off" in wind_notes(BOAT_SHED)[-1]


def test_a_given_pressure_is_said_in_place_of_the_tables() -> None:
    given = replace(BOAT_SHED, site=replace(BOAT_SHED.site, pressure=900.0))
    assert "the pressure that the file gives" in wind_notes(given)[0]
    assert len(wind_notes(given)) == 2
