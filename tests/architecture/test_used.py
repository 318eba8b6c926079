"""Whatever the package defines is used in it: nothing is kept alive by its tests alone."""

import ast
from collections import Counter
from collections.abc import Iterator

import pytest

from tests.architecture.sources import trees

pytestmark = pytest.mark.xdist_group("architecture")
ALLOWED = {
    "command": "found by its module's name",
    "list_commands": "click calls it",
    "format_commands": "click calls it",
    "buckling_factors": "the whole frame's own, which the shapes are held to",
    "node_index": "places in a model, for tests",
    "gyration": "tables of pipe print it, which a tube is held to",
    "as_png": "a page as a picture, to measure what is on it",
    "visit_IfExp": "the standard library calls it as it walks a formula",
}
"""Names used from outside the package, and by whom."""


def defined(tree: ast.Module) -> Iterator[str]:
    """Functions, classes and constants of a module, methods and properties of its classes."""
    for node in tree.body:
        match node:
            case ast.FunctionDef():
                yield node.name
            case ast.ClassDef():
                yield node.name
                own = (n for n in node.body if isinstance(n, ast.FunctionDef))
                yield from (n.name for n in own if not n.name.startswith("__"))
            case ast.Assign():
                for target in node.targets:
                    yield from (n.id for n in ast.walk(target) if isinstance(n, ast.Name))
            case ast.AnnAssign(target=ast.Name() as name):
                yield name.id


def named(tree: ast.Module) -> Iterator[str]:
    """Every name that a module reads, attributes and strings of one word among them."""
    for node in ast.walk(tree):
        match node:
            case ast.Name(ctx=ast.Load()):
                yield node.id
            case ast.Attribute():
                yield node.attr
            case ast.Constant(value=str() as text) if text.isidentifier():
                yield text


def test_nothing_is_defined_and_never_used() -> None:
    read = Counter(name for tree in trees().values() for name in named(tree))
    idle = [
        f"{module}: {name}"
        for module, tree in trees().items()
        for name in defined(tree)
        if not read[name] and name not in ALLOWED and not name.startswith("__")
    ]
    assert not idle, "\n".join(idle)


def test_what_is_allowed_is_defined() -> None:
    there = {name for tree in trees().values() for name in defined(tree)}
    assert set(ALLOWED) <= there
