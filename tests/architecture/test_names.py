"""One name for one thing: no two kinds of record are called alike anywhere in the package."""

import ast
from collections import defaultdict
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "frame"
ABOUT_TYPES = {"Array", "BoolArray", "Data", "FloatArray", "IntArray", "Mask", "Numbers", "Three"}
"""Short for an array or a plain dictionary, the same wherever it is written."""
READ_AND_BUILT = {"Anchor", "Pipe", "Wall"}
"""What a rack file may say of a thing, in `casefile/keys`, and the thing itself."""


def test_no_two_records_have_one_name():
    """Classes, and types that are called like one."""
    where = defaultdict(list)
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            for name in _types(node):
                where[name].append(path.relative_to(PACKAGE).as_posix())
    twice = {name: files for name, files in where.items() if len(files) > 1}
    assert {n: f for n, f in twice.items() if n not in ABOUT_TYPES | READ_AND_BUILT} == {}
    assert all(any(f.startswith("casefile/keys") for f in twice[n]) for n in READ_AND_BUILT)


def _types(node: ast.stmt) -> list[str]:
    if isinstance(node, ast.ClassDef):
        return [] if node.name.startswith("_") else [node.name]
    if isinstance(node, ast.Assign):
        names = [x.id for x in node.targets if isinstance(x, ast.Name)]
        return [n for n in names if n[0].isupper() and not n.isupper()]
    return []
