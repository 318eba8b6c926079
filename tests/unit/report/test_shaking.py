"""What the page says of racks that shake slowly, against percentages by hand."""

from dataclasses import replace
from types import SimpleNamespace

import pytest
from rich.console import Console

from frame.rack.rack import Rack
from frame.records.motion import Shaking, Stability
from frame.report.shaking import shaking_table
from tests.builders import case

STEADY = Stability(factor=12.34, gust=49.0, words="wind in the face", tilt=0.3)


def said(rack: Rack, shakes: Shaking, steady: Stability = STEADY) -> str:
    result = SimpleNamespace(
        title="bare",
        shaking=shakes,
        stability=steady,
        gust_effect=shakes.gust_effect or 0.85,
    )
    console = Console(width=400)
    with console.capture() as caught:
        console.print(shaking_table(SimpleNamespace(rack=rack, results=(result,))))
    return caught.get()


def shakes(first: float, *, slack: float = 0.0, effect: float | None = None) -> Shaking:
    return Shaking(
        at_rest=(first,), slack=(slack,) if slack else (), play=None, gust_effect=effect
    )


def test_under_once_a_second() -> None:
    # 1.02 / 0.85 = 1.20 times the wind load.
    text = said(case("boat_shed"), shakes(0.96, effect=1.02))
    assert "0.9 SLOW" in text
    assert "shakes even at rest less than once a second" in text
    assert "counts for it a gust factor of up to 1.02" in text
    assert "20 % more wind force." in text
    assert "Movements are told with 0.85 all the same." in text


def test_slow_with_slack_guys_but_no_more_wind() -> None:
    text = said(case("boat_shed"), shakes(2.0, slack=0.8))
    assert "with its guys slack less than once a second" in text
    assert "no gust factor over 0.85 comes of it" in text
    assert "Movements" not in text


def test_a_given_pressure_has_no_gust_factor_to_mend() -> None:
    rack = case("boat_shed")
    given = replace(rack, site=replace(rack.site, pressure=900.0))
    assert "Ask whoever gave the wind pressure" in said(given, shakes(0.5, effect=1.1))


@pytest.mark.parametrize(("first", "cautioned"), [(1.0, True), (2.99, True), (3.0, False)])
def test_caution_of_lively_racks(first: float, cautioned: bool) -> None:
    text = said(case("boat_shed"), shakes(first))
    assert ("leave some margin" in text) is cautioned
    assert "SLOW" not in text


def test_near_buckling() -> None:
    assert "1.9 BUCKLES" in said(case("boat_shed"), shakes(4.0), replace(STEADY, factor=1.96))
    assert "over 100" in said(case("boat_shed"), shakes(4.0), replace(STEADY, factor=900.0))
