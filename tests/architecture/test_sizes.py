"""Nothing grows too large to be taken in at one sitting: files, classes, folders."""

import ast
import re
from functools import cache
from pathlib import Path

import pytest

from tests.architecture.sources import tree_of

pytestmark = pytest.mark.xdist_group("architecture")
PACKAGE = Path(__file__).parents[2] / "frame"
FILES = sorted(PACKAGE.rglob("*.py"))
FOLDERS = sorted({p.parent for p in FILES} - {PACKAGE})
TESTS = sorted(PACKAGE.with_name("tests").rglob("*.py"))


@cache
def lines(path: Path) -> int:
    return len(path.read_text(encoding="utf-8").splitlines())


def named(path: Path) -> str:
    return path.relative_to(PACKAGE.parent).as_posix()


@pytest.mark.parametrize("path", FILES, ids=named)
def test_files_and_classes_stay_small(path: Path) -> None:
    assert lines(path) <= 300
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.ClassDef):
            assert node.end_lineno - node.lineno < 150, node.name


@pytest.mark.parametrize("path", TESTS, ids=named)
def test_tests_stay_small(path: Path) -> None:
    assert lines(path) <= 320


@pytest.mark.parametrize("folder", FOLDERS, ids=named)
def test_folders_stay_small(folder: Path) -> None:
    """At most 25 files side by side, and no more than a fifth of the package with all below."""
    assert len(list(folder.glob("*.py"))) <= 25
    assert sum(map(lines, folder.rglob("*.py"))) <= sum(map(lines, FILES)) / 5


@pytest.mark.parametrize("folder", FOLDERS, ids=named)
def test_every_folder_says_what_it_is(folder: Path) -> None:
    """What comes in, what goes out, which file to open first."""
    told = ast.get_docstring(tree_of(folder / "__init__.py"))
    assert told
    assert re.search(r"\b[Oo]pen\b", told), "which file to open first?"
