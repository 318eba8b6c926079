"""Turn what the key models object to into problems a builder can act on, all at once."""

from difflib import get_close_matches
from typing import Any

from pydantic import ValidationError

from frame.casefile.keys.fields import MENDED, printable, wrong_value_words
from frame.casefile.keys.lines import AnchorKeys, HillKeys
from frame.casefile.keys.pipes import PipeKeys
from frame.casefile.keys.rack import (
    SECTIONS,
    RackKeys,
    key_names,
)
from frame.casefile.keys.section import Section
from frame.errors import InputError, Problem

FORMS = {"text", "table"}
INSIDE: dict[str, type[Section]] = {"pipe": PipeKeys, "anchor": AnchorKeys, "hill": HillKeys}
"""Keys that hold a table of their own."""
TWO_SENSES = ("gap",)
"""Keys of a section whose names a builder may mean something else by in another."""
GROUPS = ("guys", "stock", "sticks")
"""Sections in double brackets."""
LISTS = {*GROUPS, "tilts", "positions", "splices", "at", "bad"}
LISTED_IN = {"fitted": ("stood", "measured")}
"""Keys that are a list in one section and a word in others."""
KeyPath = tuple[int | str, ...]


def validate(raw: dict[str, Any]) -> tuple[RackKeys, tuple[Problem, ...]]:
    """Read the keys of a file; wrong values come back mended beside their problems.

    `raw` is changed: unknown keys are taken out and wrong values replaced, so that the rest can
    still be read and judged.
    """
    problems: tuple[Problem, ...] = ()
    for attempt in range(5):
        try:
            return RackKeys.model_validate(raw), problems
        except ValidationError as error:
            faults = [(key_path(fault["loc"]), fault) for fault in error.errors(include_url=False)]
        if attempt == 0:
            problems = explain([fault for fault in faults if fault[1]["input"] is not MENDED])
        for where, fault in faults:
            mend(raw, where, fault["type"])
    raise InputError(problems)


def key_path(loc: KeyPath) -> KeyPath:
    """Drop the parts of an error's path that are no keys: the two forms of a pipe or an anchor."""
    return tuple(
        part for i, part in enumerate(loc) if part not in FORMS or loc[i - 1] not in INSIDE
    )


def path(where: KeyPath) -> str:
    """Write a place as a key path, groups counted from 1: "guys[2].out"."""
    text = ""
    for part in where:
        text += f"[{part + 1}]" if isinstance(part, int) else f".{printable(part)}"
    return text.removeprefix(".")


def holds_list(where: KeyPath) -> bool:
    """Tell whether a place is a key with a list for its value."""
    last = where[-1]
    return last in LISTS or (last in LISTED_IN and where[0] in LISTED_IN[str(last)])


def section_at(where: KeyPath) -> type[Section]:
    """Return the section a place lies in."""
    keys = [part for part in where if isinstance(part, str)]
    if keys and keys[-1] in INSIDE:
        return INSIDE[keys[-1]]
    return SECTIONS.get(keys[0], RackKeys) if keys else RackKeys


def explain(faults: list[tuple[KeyPath, Any]]) -> tuple[Problem, ...]:
    """Put every fault in words; a misspelt key is not reported as missing too."""
    found, meant = [], set()
    for where, fault in faults:
        if fault["type"] == "extra_forbidden":
            right, target = right_key(where, str(where[-1]))
            meant.add(target)
            found.append(Problem(path(where), "there is no such key", right))
    for where, fault in faults:
        if fault["type"] == "extra_forbidden" or (fault["type"] == "missing" and where in meant):
            continue
        found.append(fault_in_words(where, fault))
    return tuple(found)


def fault_in_words(where: KeyPath, fault: Any) -> Problem:
    """Put one fault of a known key in words."""
    kind, last = fault["type"], str(where[-1])
    if kind == "rack":
        return Problem(path(where), fault["ctx"]["what"], fault["ctx"]["right"])
    if kind == "missing":
        return missing_key(where)
    if holds_list(where):
        each = "group" if last == "guys" else "kind of piece"
        right = f"write the section as [[{last}]], in double brackets, once for each {each}"
        if last not in GROUPS:
            right = f'write a list in square brackets, as {last} = ["...", "..."]'
        return Problem(path(where), wrong_value_words(fault["input"]), right)
    right = f"write a section [{last}] with its keys below it"
    if last in INSIDE:
        needed = ", ".join(f"{name} = ..." for name in required(INSIDE[last]))
        right = f"write a table in braces, {last} = {{ {needed} }}"
    return Problem(path(where), wrong_value_words(fault["input"]), right)


def required(model: type[Section]) -> tuple[str, ...]:
    """Keys that a section cannot do without, as written in the file."""
    return tuple(f.alias or n for n, f in model.model_fields.items() if f.is_required())


def missing_key(where: KeyPath) -> Problem:
    """Say that a key or a whole section is missing, and what belongs there."""
    last = str(where[-1])
    if len(where) == 1 and last in SECTIONS:
        model = SECTIONS[last]
        right = f"add a section [{last}] with at least {', '.join(required(model))}"
        return Problem(last, "the section is missing", right)
    field = next(f for n, f in section_at(where[:-1]).model_fields.items() if last in (n, f.alias))
    return Problem(path(where), "is missing", f"add {last}: {field.description}")


def right_key(where: KeyPath, wrong: str) -> tuple[str, KeyPath]:
    """Say what an unknown key should be, and the place that is probably meant."""
    here = section_at(where[:-1])
    known = key_names(here)
    near = get_close_matches(wrong.lower(), known, 1, 0.7)
    if near:
        return f'the nearest key is "{near[0]}"', (*where[:-1], near[0])
    homes: dict[str, type[Section]] = {"": RackKeys, **SECTIONS}
    for home, model in homes.items():
        if model is not here and wrong in key_names(model):
            above = "stands at the top of the file, above the first section"
            listed = f"; keys here are {', '.join(known)}" if home and wrong in TWO_SENSES else ""
            told = f"belongs in [{home}]" if home else above
            return f'"{wrong}" {told}{listed}', (home, wrong)
    every = {key: home for home, model in SECTIONS.items() for key in key_names(model)}
    near = get_close_matches(wrong.lower(), known, 1, 0.6)
    far = get_close_matches(wrong.lower(), every, 1, 0.8)
    if near or not far:
        listed = f"keys here are {', '.join(known)}"
        return (f'the nearest key is "{near[0]}"; {listed}' if near else listed), ("",)
    home = every[far[0]]
    return f'the nearest key is "{far[0]}", which belongs in [{home}]', (home, far[0])


def mend(raw: dict[str, Any], where: KeyPath, kind: str) -> None:
    """Take an unknown key out of `raw`, or put something readable in place of a wrong value."""
    inside: Any = raw
    for part in where[:-1]:
        inside = inside[part]
    last = where[-1]
    if kind == "extra_forbidden":
        _, meant = right_key(where, str(last))
        inside.pop(last, None)
        if meant[:-1] == where[:-1]:
            inside.setdefault(meant[-1], MENDED)
    elif last == "hill":
        del inside[last]
    elif holds_list(where):
        inside[last] = [] if last in GROUPS else [MENDED]
    elif len(where) == 1 or (where[0] in GROUPS and len(where) == 2):
        inside[last] = {} if where[0] in SECTIONS else MENDED
    else:
        inside[last] = MENDED
