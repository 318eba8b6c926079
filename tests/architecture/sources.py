"""The package as syntax trees, parsed only where a test asks."""

import ast
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "frame"


@cache
def tree_of(path: Path) -> ast.Module:
    """One module, parsed once for all tests that look at it."""
    return ast.parse(path.read_text("utf-8"))


@cache
def trees() -> dict[str, ast.Module]:
    """Every module of the package by its name below it, as "search/grid"."""
    return {
        path.relative_to(PACKAGE).with_suffix("").as_posix(): tree_of(path)
        for path in sorted(PACKAGE.rglob("*.py"))
    }
