"""One name for one thing: records, functions and methods called alike mean alike."""

import ast
import re
from collections import defaultdict
from collections.abc import Iterator

import pytest

from tests.architecture.sources import trees

pytestmark = pytest.mark.xdist_group("architecture")
ABOUT_TYPES = {"Array", "BoolArray", "Data", "FloatArray", "IntArray", "Mask", "Numbers", "Three"}
"""Short for an array or a plain dictionary, the same wherever it is written."""
READ_AND_BUILT = {"Anchor", "Pipe", "Wall"}
"""What a rack file may say of a thing, in `casefile/keys`, and the thing itself."""
FACADE = "api"
"""Calls the functions of the same names with a path in place of a text."""
SAME_WORK = {
    "command": "what each file of `cli` is found by",
    "covered": "whether a rule's limits of validity hold",
    "document": "an answer as JSON",
    "find": "an entry of a catalog, by its name",
    "page": "a whole answer as it is printed",
}
"""Functions that several modules have because they do the same for different things."""
FUNCTION_AND_METHOD = {
    "beside": "racks beside each other: drawn, and asked for",
    "blocks": "every tilt and corner of a bracing",
    "bow": "what N does along a member's own bow",
    "coefficients": "CN of local wind, pressing and lifting",
    "covered": "whether a rule's limits of validity hold",
    "frequencies": "lowest natural frequencies",
    "gone": "why a movement means nothing",
    "guy_directions": "way of each guy to its anchor",
    "holds": "whether the code's margin is kept in every case",
    "key": "of the rack file, where they are made; of a check, in records",
    "line_loads": "uniform loads on members",
    "lowest": "factor on the forces at which the rack buckles, or its shape; of frequencies",
    "paragraph": "a stretch of text, on a screen and on paper",
    "rack": "the command itself; whose rack a record is about",
    "show": "a value with its unit",
    "solve": "answers to loads",
    "unmended": "what nothing offered mends",
    "value": "what a formula, an unknown or a rack comes to",
    "values": "of everything uncertain, by its key",
    "written": "the rack file with changes made",
}
"""Functions and methods elsewhere that mean the same by one name."""
OTHER_TYPES = {
    "answer": "solved cases, in the form that whoever asks can use",
    "bracings": "bracings of a rack, of a search",
    "do": "what to do, in words",
    "expected": "by the median model: of winds, of an input",
    "freeze": "a draft as what it becomes",
    "give": "movement under unit forces; of guys with what goes with it",
    "guess": "about where a use reaches 1",
    "kind": "of a step of the plan; of what happens",
    "let_go": "the median model's question: a use of strength, a gust, what goes",
    "only": "some of the cases",
    "read": "a value as the file has it",
    "topples": "whether the rack sways over, case by case",
}
"""Methods of one meaning whose answers are of different types, and what they mean."""


def test_no_two_records_have_one_name() -> None:
    """Classes, and types that are called like one."""
    where = defaultdict(list)
    for module, tree in trees().items():
        for node in tree.body:
            for name in _types(node):
                where[name].append(module)
    twice = {name: files for name, files in where.items() if len(files) > 1}
    assert {n: f for n, f in twice.items() if n not in ABOUT_TYPES | READ_AND_BUILT} == {}
    assert all(any(f.startswith("casefile/keys") for f in twice[n]) for n in READ_AND_BUILT)


def test_no_two_functions_have_one_name() -> None:
    twice = {name: where for name, where in _functions().items() if len(where - {FACADE}) > 1}
    assert {name: where for name, where in twice.items() if name not in SAME_WORK} == {}
    assert set(SAME_WORK) <= set(twice)


def test_no_method_is_called_like_a_function_that_means_something_else() -> None:
    functions, methods = _functions(), _methods()
    both = {
        name: where
        for name, where in methods.items()
        if {m for m, _ in where} - functions.get(name, {m for m, _ in where}) - {FACADE}
        and functions[name] != {FACADE}
    }
    assert {name: where for name, where in both.items() if name not in FUNCTION_AND_METHOD} == {}
    assert set(FUNCTION_AND_METHOD) <= set(both)


def test_methods_of_one_name_answer_with_one_type() -> None:
    differing = {
        name: where for name, where in _methods().items() if len({kind for _, kind in where}) > 1
    }
    assert {n: where for n, where in differing.items() if n not in OTHER_TYPES} == {}
    assert set(OTHER_TYPES) <= set(differing)


def _types(node: ast.stmt) -> list[str]:
    if isinstance(node, ast.ClassDef):
        return [] if node.name.startswith("_") else [node.name]
    if isinstance(node, ast.Assign):
        names = [x.id for x in node.targets if isinstance(x, ast.Name)]
        return [n for n in names if n[0].isupper() and not n.isupper()]
    return []


def _public(body: list[ast.stmt]) -> Iterator[ast.FunctionDef]:
    yield from (n for n in body if isinstance(n, ast.FunctionDef) and not n.name.startswith("_"))


def _functions() -> dict[str, set[str]]:
    """Modules of every public function, by its name."""
    where = defaultdict(set)
    for module, tree in trees().items():
        for function in _public(tree.body):
            where[function.name].add(module)
    return where


def _methods() -> dict[str, set[tuple[str, str]]]:
    """Module and type of the answer of every public method of a public class, by its name."""
    where = defaultdict(set)
    for module, tree in trees().items():
        for one in tree.body:
            if isinstance(one, ast.ClassDef) and not one.name.startswith("_"):
                for method in _public(one.body):
                    where[method.name].add((module, _answer(method, one.name)))
    return where


def _answer(method: ast.FunctionDef, owner: str) -> str:
    """Type of a method's answer: None besides is left out, numbers and arrays are one."""
    told = ast.unparse(method.returns).replace("'", "") if method.returns else ""
    told = re.sub(rf"\b{owner}\b", "Self", told.removesuffix(" | None"))
    arrays = r"npt\.NDArray\[np\.float64\]|np\.ndarray|\b(FloatArray|Array|Size|Numbers)\b"
    return re.sub(arrays, "float", told)
