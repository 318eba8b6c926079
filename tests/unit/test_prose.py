"""Advice in either system of units."""

import re

import pytest

from frame.tables.steels import steels, welding_advice
from frame.units import told_in


@pytest.mark.parametrize(
    ("us", "metric"),
    [
        ("preheat 200 to 300 F, slow", "preheat 95 to 150 C, slow"),  # 93.3 and 148.9 C
        ("below 50 F; grind zinc 2 in back", "below 10 C; grind zinc 55 mm back"),  # 50.8 mm
        ("no more than 35 ksi there", "no more than 240 MPa there"),  # 241.3 MPa
        ("E7018 dry", "E7018 dry"),
    ],
)
def test_temperatures_lengths_and_stresses_of_advice(us: str, metric: str) -> None:
    assert told_in(us, "us") == us
    assert told_in(us, "metric") == metric


@pytest.mark.parametrize("name", [s.name for s in steels()])
def test_no_metric_advice_keeps_an_inch_or_a_degree_fahrenheit(name: str) -> None:
    told = told_in(welding_advice(name), "metric")
    assert not any(f"{n}{unit}" in told for n in range(10) for unit in (" F", " in ", " ksi"))
    for size in re.findall(r"\d+ (?:C|mm|MPa)", told):
        assert told.count(size) == 1, "told twice"
