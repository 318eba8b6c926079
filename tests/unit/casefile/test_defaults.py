"""Every default is printed as assumed, with its reason; no reason is left without a default."""

import ast
from collections.abc import Iterator
from pathlib import Path

import frame.casefile
from frame.casefile.keys.rack import SECTIONS
from frame.casefile.notes import reasons

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
