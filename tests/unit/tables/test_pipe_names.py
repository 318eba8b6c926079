"""A nominal size is never taken for an outside diameter, however it is spelled.

Outside diameters: ASME B36.10M (nominal 3 is 3.500 in, 3-1/2 is 4.000, 4 is 4.500).
"""

import pytest

from frame.errors import CatalogError
from frame.tables.pipes import find, of_diameter, pipes

INCH = 0.0254
FOUND = [
    ("3-1/2 in nominal sch 40", 4.000, 0.226),
    ("3-1/2 in nominal", 4.000, 0.226),
    ('3 1/2" nominal schedule 40', 4.000, 0.226),
    ("3\u00bd in nominal", 4.000, 0.226),
    ("3.5 in nominal", 4.000, 0.226),
    ("3-1/2 NOMINAL", 4.000, 0.226),
    ("nominal 3-1/2 in. pipe", 4.000, 0.226),
    ("NPS 3-1/2", 4.000, 0.226),
    ("nps 3 1/2 std", 4.000, 0.226),
    ("3-1/2 nominal, standard weight", 4.000, 0.226),
    ("3-1/2 nominal xs", 4.000, 0.318),
    ("3-1/2 in nominal extra strong", 4.000, 0.318),
    ("3-1/2 in nominal sch80", 4.000, 0.318),
    ("DN 90 sch 40", 4.000, 0.226),
    ("DN 80 sch 40", 3.500, 0.216),
    ("dn100 sch. 80", 4.500, 0.337),
    ("3 in nominal", 3.500, 0.216),
    ("4-in nominal", 4.500, 0.237),
    ("5 in nominal sch 80", 5.563, 0.375),
    ("1-1/4 in nominal", 1.660, 0.140),
    ("6 in sch 40", 6.625, 0.280),
    ("8 in nominal", 8.625, 0.322),
    ("8 in nominal xs", 8.625, 0.500),
    ("10 in nominal std", 10.750, 0.365),
    ("10 in nominal extra strong", 10.750, 0.500),
    ("10 in nominal sch 60", 10.750, 0.500),
    ("10 in nominal sch 80", 10.750, 0.594),
    ("DN 200 sch 80", 8.625, 0.500),
    ("6-5/8 casing 24", 6.625, 0.352),
    ("8-5/8 in casing 32 lb/ft", 8.625, 0.352),
    ("9-5/8 casing 36", 9.625, 0.352),
    ("9 5/8 casing 32.30#", 9.625, 0.312),
    ("2 in. sch. 80 steel pipe", 2.375, 0.218),
    ("2-7/8 in tubing 6.5 lb/ft", 2.875, 0.217),
    ("2-7/8 tubing 6.5", 2.875, 0.217),
    ('2-7/8" tubing, 6.4 lbs per foot', 2.875, 0.217),
    ("6.5 lb/ft 2-7/8 in tubing", 2.875, 0.217),
    ("2.875 tubing 6.50#", 2.875, 0.217),
    ("3-1/2 in tubing 9.2", 3.500, 0.254),
    ("4-1/2 in casing 10.5 lb/ft", 4.500, 0.224),
    ("casing 4 1/2 in 10.5 ppf", 4.500, 0.224),
    ("7 in casing 23", 7.000, 0.317),
]
DOUBTFUL = [
    ("3-1/2 in", ("3-1/2 in nominal sch 40", "4.000 in outside", "3 in nominal sch 40")),
    ("3-1/2", ("3-1/2 in nominal sch 40", "3 in nominal sch 40")),
    ("3-1/2 in pipe", ("3-1/2 in nominal sch 40", "3 in nominal sch 40")),
    ("3.5 inch steel pipe", ("3-1/2 in nominal sch 40", "3 in nominal sch 40")),
    ("3\u00bd\u2033", ("3-1/2 in nominal sch 40", "3 in nominal sch 40")),
    ("3-1/2 in sch 40", ("3-1/2 in nominal sch 40", "3 in nominal sch 40")),
    ("3-1/2 in sch 80", ("3-1/2 in nominal sch 80", "3 in nominal sch 80")),
    ("3-1/2 standard", ("3-1/2 in nominal sch 40", "3 in nominal sch 40")),
    ("4 in", ("4 in nominal sch 40", "3-1/2 in nominal sch 40")),
    ("4 in sch 40", ("4 in nominal sch 40", "3-1/2 in nominal sch 40")),
    ("5", ("5 in nominal sch 40", "5.563 in outside")),
    ("4-1/2 in", ("4 in nominal sch 40", "measures 4-1/2 in outside")),
    ("4.500 in od", ("4 in nominal sch 40",)),
    ("3.5 OD sch 40", ("3 in nominal sch 40",)),
    ("3-1/2 outside nominal", ("3 in nominal sch 40",)),
    ("88.9 mm", ("3 in nominal sch 40",)),
    ("4-1/2 10.5 lb/ft", ("4-1/2 in casing 10.5 lb/ft", "outside diameter and the wall")),
    ("2-7/8", ("2-1/2 in nominal sch 40", "2-7/8 in tubing")),
]
WRONG = [
    ("2-7/8 tubing", "gives no weight"),
    ("2-7/8 tubing 9", "is not in the catalog"),
    ("2-7/8 nominal tubing 6.5", "without nominal"),
    ("4-1/2 casing sch 40", "without nominal"),
    ("4-1/2 nominal", "no nominal size 4-1/2"),
    ("7 in nominal", "7 in casing"),
    ("3 in nominal sch 160", "no schedule 160"),
    ("3 in nominal sch 40 xs", "no schedule 40 and 80"),
    ("DN 80", "metric standards"),
    ("dn 77 sch 40", "not a pipe"),
    ("copper pipe 3 in nominal", "not a pipe"),
    ("4-1/2 in x 0.237 in", "not a pipe"),
    ("1/0 in nominal", "not a pipe"),
    ("9 in casing 20", "8-5/8 in casing 24"),
    ("9-5/8 casing", "gives no weight"),
    ("4 in nominal sch 60", "write sch 40 or sch 80"),
    ("10 in nominal sch 120", "write sch 40 or sch 60 or sch 80"),
    ("nominal", "not a pipe"),
    ("garbage", "not a pipe"),
    ("", "not a pipe"),
]


@pytest.mark.parametrize(("text", "od", "wall"), FOUND)
def test_a_clear_name_finds_its_pipe(text: str, od: float, wall: float) -> None:
    pipe = find(text)
    assert (pipe.od / INCH, pipe.wall / INCH) == pytest.approx((od, wall))


@pytest.mark.parametrize(("text", "words"), DOUBTFUL)
def test_a_doubtful_size_asks_and_says_how_to_write_each(text: str, words: tuple[str]) -> None:
    with pytest.raises(CatalogError) as error:
        find(text)
    for word in (*words, "write "):
        assert word in str(error.value)


@pytest.mark.parametrize(("text", "words"), WRONG)
def test_a_wrong_name_is_answered_with_a_right_one(text: str, words: str) -> None:
    with pytest.raises(CatalogError) as error:
        find(text)
    assert words in str(error.value)
    assert len(str(error.value)) < 330


def test_every_listed_name_finds_itself() -> None:
    for pipe in pipes():
        assert find(pipe.name) is pipe
        assert find(pipe.name.upper().replace(" in ", '" ')) is pipe


def test_pipes_by_outside_diameter() -> None:
    names = {pipe.name for pipe in of_diameter(3.5 * INCH)}
    assert {"3 in nominal sch 40", "3-1/2 in tubing 9.3 lb/ft"} <= names
    assert "3-1/2 in nominal sch 40" not in names
