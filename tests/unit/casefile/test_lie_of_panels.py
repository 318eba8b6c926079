"""Panels described lying the other way than they fit: `long_side` is named."""

import pytest

from frame.casefile.read import parse_rack
from frame.casefile.starter import starter_text
from frame.errors import InputError

UPRIGHT, ALONG = 'long_side = "up the slope"', 'long_side = "along the beam"'


def said(*swaps: tuple[str, str]) -> str:
    text = starter_text()
    for old, new in swaps:
        assert old in text
        text = text.replace(old, new, 1)
    with pytest.raises(InputError) as caught:
        parse_rack(text, "mine.toml")
    return str(caught.value)


def test_too_wide_lying_along_the_beam() -> None:
    """4 x 69 in is wider than the beam of 170 in by far; 4 x 41 in is not."""
    text = said(('# long_side = "up the slope"', ALONG))
    assert f"With {UPRIGHT} they fit" in text


def test_rails_too_short_for_panels_up_the_slope() -> None:
    """Two panels of 69 in want rails of 8 ft 7 in; lying along the beam, of 5 ft 2 in."""
    text = said(
        ("across = 4", "across = 2"),
        ('# length = "11 ft 6 in"       # up', 'length = "6 ft"\ncount = 4 # up'),
    )
    assert "rails.length" in text
    assert f"With {ALONG} they fit" in text


def test_nothing_is_named_where_they_fit_neither_way() -> None:
    assert "long_side" not in said(("across = 4", "across = 9"))


def test_nothing_is_named_of_square_panels() -> None:
    assert "long_side" not in said(("41 in x 69 in", "69 in x 69 in"))
