"""Every steel of the catalog has its welding advice; the harder the steel, the more heat."""

import pytest

from frame.tables.steels import steels, welding_advice


@pytest.mark.parametrize("name", [s.name for s in steels()])
def test_every_steel_has_advice(name: str) -> None:
    assert "E7018" in welding_advice(name)


def test_casing_grades_are_preheated() -> None:
    # API 5CT limits only P and S in these grades, so carbon may be high: common practice.
    assert "200 to 300 F" in welding_advice("J-55")
    assert "300 to 400 F" in welding_advice("N-80")
    assert welding_advice("no such steel") == ""
