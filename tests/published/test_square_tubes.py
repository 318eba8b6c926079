"""Square tube, which no rack may be of: its properties, and the round pipe named in its place."""

import math
from typing import NamedTuple

import pytest

from frame.errors import CatalogError
from frame.geometry.tube import Tube
from frame.tables.pipes import find, pipes
from frame.tables.square_tubes import is_square, square_tubes

INCH = 0.0254
STEEL = 0.2836  # lb/in3, AISC


class Section(NamedTuple):
    A: float
    S: float
    Z: float


def rounded(b: float, r: float) -> tuple[float, float, float]:
    """Area, I and Z of a square with round corners: what is cut off there taken away.

    Between a quarter circle and the square round it: area 1 - pi/4, centroid 2/(12 - 3 pi) from
    the circle's middle, second moment about that middle 1/3 - pi/16 (any text; radius 1).
    """
    cut, at = 1 - math.pi / 4, 2 / (12 - 3 * math.pi)
    own, out = 1 / 3 - math.pi / 16 - cut * at**2, b / 2 - r + at * r
    return (
        b**2 - 4 * cut * r**2,
        b**4 / 12 - 4 * (own * r**4 + cut * r**2 * out**2),
        b**3 / 4 - 4 * cut * r**2 * out,
    )


def section(side: float, wall: float) -> Section:
    """Square tube, corners twice as round as its wall outside."""
    outer, inner = rounded(side, 2 * wall), rounded(side - 2 * wall, wall)
    A, I, Z = (a - b for a, b in zip(outer, inner, strict=True))
    return Section(A, 2 * I / side, Z)


@pytest.mark.parametrize(
    ("side", "wall", "table"),
    [
        (4, 0.233, Section(3.37, 3.90, 4.69)),
        (5, 0.233, Section(4.30, 6.41, 7.61)),
        (6, 0.349, Section(7.58, 13.2, 15.8)),
    ],
)
def test_the_sections_here_are_those_of_the_manual(side, wall, table):
    """AISC Manual Table 1-12, in inches, from memory: design walls of 1/4 and 3/8 in."""
    assert section(side, wall) == pytest.approx(table, rel=0.01)


@pytest.mark.parametrize("size", square_tubes(), ids=lambda s: s.name)
def test_listed_weights_are_those_of_the_sections(size):
    pounds = section(size.side, size.wall).A / INCH**2 * 12 * STEEL
    assert size.weight / 4.4482216 * 0.3048 == pytest.approx(pounds, rel=0.01)


@pytest.mark.parametrize("size", square_tubes(), ids=lambda s: s.name)
def test_the_round_pipe_in_its_place_bends_no_sooner_and_is_the_lightest(size):
    need = section(size.side, size.wall)

    def serves(pipe):
        tube = Tube(pipe.od, pipe.wall)
        return tube.elastic_modulus >= need.S and tube.plastic_modulus >= need.Z

    named = find(size.round_pipe)
    assert serves(named)
    lighter = [p for p in pipes() if p.family == named.family and p.weight < named.weight]
    assert not any(map(serves, lighter))


@pytest.mark.parametrize(
    "text",
    ["4 x 4 x 1/4 in square tube", "4x4 square tubing", "HSS 4x4x1/4", "4 in square tube",
     '4" x 4" x 1/4"', "100 x 100 mm"],
)  # fmt: skip
def test_square_tube_is_refused(text):
    assert is_square(text)
    with pytest.raises(CatalogError, match="no rule here covers square tube"):
        find(text)


@pytest.mark.parametrize("text", ["HSS 4x4x1/4", "4 x 4 x 1/4 in square tube", '4" x 4" x 1/4"'])
def test_the_pipe_in_the_place_of_a_listed_one_is_named(text):
    with pytest.raises(CatalogError, match=r'"5 in nominal sch 40" bends no sooner'):
        find(text)


@pytest.mark.parametrize(
    "text", ["4 in nominal", "4-1/2 in casing 10.5", "2-7/8 in tubing 6.5", "3-1/2 in nominal"]
)
def test_round_pipe_is_not_taken_for_square(text):
    assert not is_square(text)
    find(f"{text} sch 40" if text.endswith("nominal") else text)
