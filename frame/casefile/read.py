"""Read a rack file: keys, quantities, catalog names and geometry, every error at once."""

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

from frame.casefile.assemble.rack import assemble
from frame.casefile.buildable.rack import check_rack
from frame.casefile.explain import validate
from frame.casefile.notes import Notes
from frame.casefile.syntax import read_tables, read_text
from frame.errors import InputError
from frame.rack.rack import Rack

METRIC = re.compile(r"[\d.]\s*(?:mm|cm|m|kg|kN|N|m/s|km/h)\b")
US = re.compile(r"[\d.]\s*(?:in|ft|lb|mph|['\"])(?:\b|$|\s)")

FOLLOWS = {"post.spacing": "post.count"}
"""What is not told of one key where another, on which it hangs, could not be read."""


def read_rack(path: str | Path, units: str | None = None) -> Rack:
    """Read the rack file at `path`; `InputError` carries all that is wrong with it.

    What is said of it is told in `units`, "us" or "metric": the file's own if left out.
    """
    file = Path(path)
    return parse_rack(read_text(file), file.name, units)


def parse_rack(text: str, name: str, units: str | None = None) -> Rack:
    """Read the text of a rack file; `name` stands for it in messages and names the rack."""
    raw, unreadable = read_tables(text, name)
    notes = Notes(units or system_of(raw))
    keys, problems = validate(raw)
    rack = assemble(keys, notes, Path(name).stem.replace("_", " ") or "rack")
    check_rack(rack, notes)
    known = {p.where for p in problems}
    follow = (p for p in notes.problems if FOLLOWS.get(p.where) not in known)
    problems = (*unreadable, *problems, *follow)
    if problems:
        raise InputError(problems)
    return replace(rack, assumptions=tuple(notes.assumptions), warnings=tuple(notes.warnings))


def system_of(raw: dict[str, Any]) -> str:
    """Tell whether most quantities of a file are written in metric or US units."""
    texts = list(strings(raw))
    metric = sum(bool(METRIC.search(text)) for text in texts)
    us = sum(bool(US.search(text)) for text in texts)
    return "metric" if metric > us else "us"


def strings(value: Any) -> list[str]:
    """List all texts in nested tables."""
    if isinstance(value, str):
        return [value]
    inside = (
        value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    )
    return [text for part in inside for text in strings(part)]
