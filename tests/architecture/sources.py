"""The package as syntax trees, parsed only where a test asks."""

import ast
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "frame"


@cache
def trees() -> dict[str, ast.Module]:
    """Every module of the package by its name below it, as "search/grid"."""
    return {
        path.relative_to(PACKAGE).with_suffix("").as_posix(): ast.parse(path.read_text("utf-8"))
        for path in sorted(PACKAGE.rglob("*.py"))
    }
