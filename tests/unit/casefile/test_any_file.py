"""Whatever stands in a file, reading gives a rack or an `InputError`, nothing else."""

import copy
import tomllib
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from frame.casefile.assemble.rack import assemble
from frame.casefile.buildable.rack import check_rack
from frame.casefile.explain import validate
from frame.casefile.notes import Notes
from frame.casefile.starter import starter_text
from frame.errors import InputError, Problem
from tests.often import often

SOUND = tomllib.loads(starter_text())
ODD = st.one_of(
    st.sampled_from(
        ["", "0 in", "-3 ft", "3 ft", "1e300 ft", "1e-300 in", "nan", "40 deg", "4 in nominal"]
    ),
    st.sampled_from(
        [0, -1, 7, 10**400, 0.5, float("nan"), float("inf"), True, [], {}, [{}], [[]]]
    ),
    st.sampled_from([{"od": "4 in", "wall": "0.2 in"}, ["1 ft", "2 ft"], {"odd": 1}]),
    st.text(max_size=12),
    st.integers(),
    st.floats(),
)


def places(table: Any, so_far: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    items = table.items() if isinstance(table, dict) else enumerate(table)
    found = []
    for key, value in items:
        found.append((*so_far, key))
        if isinstance(value, dict | list):
            found += places(value, (*so_far, key))
    return found


def problems_of(raw: dict[str, Any]) -> tuple[Problem, ...]:
    notes = Notes("us")
    try:
        keys, problems = validate(raw)
        check_rack(assemble(keys, notes, "odd"), notes)
    except InputError as error:
        return error.problems
    return (*problems, *notes.problems)


@settings(max_examples=often(100, 400), deadline=None)
@given(st.lists(st.tuples(st.sampled_from(places(SOUND)), ODD), min_size=1, max_size=4))
def test_odd_values_never_break_the_reading(changes: list[tuple[tuple[Any, ...], Any]]) -> None:
    raw = copy.deepcopy(SOUND)
    for place, value in changes:
        inside = raw
        try:
            for key in place[:-1]:
                inside = inside[key]
            inside[place[-1]] = value
        except (TypeError, KeyError, IndexError):
            continue
    assert all(problem.what and problem.right for problem in problems_of(raw))


@settings(max_examples=often(50, 200), deadline=None)
@given(st.sampled_from(places(SOUND)), st.booleans())
def test_a_part_left_out_or_misspelt_never_breaks_the_reading(
    place: tuple[Any, ...], misspell: bool
) -> None:
    raw = copy.deepcopy(SOUND)
    inside = raw
    for key in place[:-1]:
        inside = inside[key]
    value = inside[place[-1]]
    del inside[place[-1]]
    if misspell and isinstance(inside, dict):
        inside[f"{place[-1]}s"] = value
    assert problems_of(raw) or not misspell or not isinstance(inside, dict)
