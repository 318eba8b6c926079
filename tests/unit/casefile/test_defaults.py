"""Every default is printed as assumed, with its reason; no reason is left without a default."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import frame.casefile
from frame.casefile.keys.rack import SECTIONS
from frame.casefile.notes import reasons
from frame.casefile.read import parse_rack

TWO_POSTS = Path(__file__).parents[2] / "racks" / "two_posts.toml"
FOLDER = Path(next(iter(frame.casefile.__path__)))


def static() -> set[str]:
    return {
        f"{home}.{name}"
        for home, model in SECTIONS.items()
        for name, field in model.model_fields.items()
        if not field.is_required() and field.default is not None
    }


def literals() -> Iterator[str]:
    for path in FOLDER.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield node.value


def test_every_default_has_a_reason() -> None:
    assert static() <= set(reasons())


def test_every_reason_is_used() -> None:
    """Steel of each part is put together from its name, all others stand as they are."""
    named = static() | set(literals()) | {f"{part}.steel" for part in SECTIONS}
    assert set(reasons()) <= named


def test_every_reason_says_which_way_it_errs_and_how_to_find_out() -> None:
    for key, row in reasons().items():
        assert set(row) == {"errs", "find_out"}, key
        assert all(row.values()), key


@pytest.mark.parametrize("each", [2, 3, 4])
def test_rails_counted_by_columns_take_equal_strips_of_each(each: int) -> None:
    """The plan says "4 evenly per panel column": the count typed by hand must mean the same.

    Middles of equal strips of a panel 1.05 m wide, columns 20 mm apart (plane geometry).
    """
    text = TWO_POSTS.read_text("utf-8").replace("[rails]", f"[rails]\ncount = {5 * each}")
    rack = parse_rack(text, "two_posts.toml")
    lefts = [i * 1.07 - (5 * 1.05 + 4 * 0.02) / 2 for i in range(5)]
    strip = 1.05 / each
    places = [left + strip / 2 + i * strip for left in lefts for i in range(each)]
    assert rack.rails.positions == pytest.approx(places)
