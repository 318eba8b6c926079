"""Numbers and names as a builder reads them."""

import math

import pytest

from frame.loads.cases import WindCase
from frame.loads.wording import BACK, EVEN, FRONT, LEFT, RIGHT
from frame.named.part import Edge, Side, guy
from frame.report import words


@pytest.mark.parametrize(
    ("use", "told"),
    [
        (0.0, "0 %"),
        (0.004, "under 1 %"),
        (0.59, "59 %"),
        (1.0, "100 %"),
        (1.004, "101 %"),
        (9.99, "999 %"),
        (10.01, "over 10 times"),
        (math.inf, "over 10 times"),
        (math.nan, "not covered"),
    ],
)
def test_a_use_reads_as_a_percentage_and_never_hides_that_it_is_over(
    use: float, told: str
) -> None:
    assert words.percent(use) == told


def test_a_use_reads_as_a_sentence() -> None:
    assert words.use_words(0.59) == "uses 59 % of what it can take"
    assert words.use_words(12.0) == "uses over 10 times what it can take"


@pytest.mark.parametrize(
    ("names", "told"),
    [
        (["knee, left"], "knee, left"),
        (["knee, left", "knee, right"], "knee, left and right"),
        (["post 1", "post 2"], "post 1 and post 2"),
        (["knee 1, left", "knee 2, right"], "knee 1, left and knee 2, right"),
    ],
)
def test_names_of_a_pair_are_joined(names: list[str], told: str) -> None:
    assert words.joined_names(names) == told


def test_mirrored_parts_read_alike() -> None:
    left = words.own_side("wind in the face, gust on the left half", "knee, left")
    right = words.own_side("wind in the face, gust on the right half", "knee, right")
    assert left == right == "wind in the face, gust on its own half"
    worker = words.own_side("a worker's weight on the beam end left", "knee 1, left")
    assert worker == "a worker's weight on the beam end on its own side"
    assert words.own_side("wind from the left", "guy, front right") == "wind from the other side"


@pytest.mark.parametrize(
    ("winds", "told"),
    [
        ([], "never"),
        ([(FRONT, LEFT)], "in the face, gust on its own half"),
        ([(FRONT, LEFT), (FRONT, RIGHT)], "in the face"),
        ([(BACK, EVEN), (BACK, LEFT)], "from behind"),
        ([(LEFT, EVEN), (RIGHT, EVEN)], "along the beam"),
        ([(RIGHT, EVEN)], "along the beam, from the other side"),
        ([(RIGHT, EVEN), (FRONT, EVEN)], "along the beam, from the other side; in the face"),
    ],
)
def test_winds_that_slacken_a_guy_are_told_by_direction(
    winds: list[tuple[str, str]], told: str
) -> None:
    made = [
        WindCase(name="", words="", direction=d, case="A", flow="", side=s, coefficients=())
        for d, s in winds
    ]
    assert words.slack_winds(made, guy("guys", Edge.FRONT, Side.LEFT)) == told


@pytest.mark.parametrize(
    ("part", "told"), [(0.0, "0 %"), (7.3e-6, "0.0007 %"), (0.004, "0.4 %"), (0.25, "25 %")]
)
def test_a_difference_has_one_figure_below_one_percent(part: float, told: str) -> None:
    assert words.difference_words(part) == told


def test_a_gust_that_nothing_reaches_and_one_that_is_no_gust() -> None:
    assert words.gust_rounded_down(None, "us") == "none reaches it"
    assert words.gust_rounded_down(0.0, "us") == "still air"
    assert words.gust_rounded_down(44.704, "us") == "100 mph"
