"""Write a rack file with some of its values changed, comments and the rest left as they are."""

import json
import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from frame.errors import InputError, Problem

Where = tuple[str, str]
"""Section as headed in the file ("guys 2" for the second of several; "" for none), and key."""
Value = str | int | float | list[str] | dict[str, str] | dict[str, float] | None
Edits = Mapping[Where, Value]
"""New value of a key: a text with its unit, a count, texts in a list or by key; None: no key."""
HEAD = re.compile(r"\s*(\[\[?)\s*([A-Za-z0-9_-]+)\s*\]\]?\s*(?:#.*)?$")
BEHIND = re.compile(r"""(?:[^"'#]|"(?:\\.|[^"\\])*"|'[^']*')*(?:#(.*))?$""")
ASSIGNED = re.compile(r"(\s*)([A-Za-z0-9_-]+)(\s*=\s*)")


def edited(text: str, edits: Edits) -> str:
    """Return the text of a rack file with `edits` made.

    Raises
    ------
    InputError
        Where a section is not headed by a line of its own, so that it cannot be edited safely.
    """
    lines = text.replace("\r\n", "\n").split("\n")
    for (section, key), value in edits.items():
        lines = _edit(lines, section, key, value)
    made = "\n".join(lines)
    _check(text, made, edits)
    return made


def marked(text: str, edits: Edits, marks: Mapping[Where, str]) -> str:
    """Make edits as `edited` does, each with a mark as a comment behind it.

    A comment that stood there stays, behind the mark.
    """
    lines = text.replace("\r\n", "\n").split("\n")
    kept = {where: _comment(lines, *where) for where in marks}
    made = edited(text, edits).split("\n")
    for where, mark in marks.items():
        at = _line(made, *where)
        assert at is not None
        said = "; ".join(part for part in (mark, _without(kept[where], mark)) if part)
        made[at] = f"{made[at]}  # {said}"
    found = "\n".join(made)
    _check(text, found, edits)
    return found


def _line(lines: list[str], section: str, key: str) -> int | None:
    start, end = _extent(list(lines), section)
    return next((i for i in range(start, min(end, len(lines))) if _key(lines[i]) == key), None)


def _comment(lines: list[str], section: str, key: str) -> str:
    """Return the comment behind a value, "" if there is none."""
    at = _line(lines, section, key)
    found = BEHIND.match(lines[at]) if at is not None else None
    return found[1].strip() if found and found[1] else ""


def _without(comment: str, mark: str) -> str:
    """Return a comment without an earlier mark of the same first word."""
    word = mark.partition(":")[0]
    return "; ".join(p for p in comment.split("; ") if p and not p.startswith(f"{word}:"))


def without_section(text: str, name: str) -> str:
    """Return the text of a rack file without a section, the comments right above it with it."""
    lines = text.replace("\r\n", "\n").split("\n")
    heads = [i for i, line in enumerate(lines) if (m := HEAD.match(line)) and m[2] == name]
    if not heads:
        return text
    start, end = _extent(lines, name)
    start -= 1
    while start and lines[start - 1].startswith("#"):
        start -= 1
    while end < len(lines) and lines[end - 1].startswith("#"):
        end -= 1
    made = "\n".join(lines[:start] + lines[end:])
    _check_same(made, {k: v for k, v in tomllib.loads("\n".join(lines)).items() if k != name})
    return made


def refuse_existing(path: Path) -> None:
    """Refuse, before any work, a path that `write_rack` would not write to unless forced."""
    if path.exists():
        raise InputError((_exists(path),))
    if not path.parent.is_dir():
        right = "choose a file in a folder that exists and that you may write to"
        raise InputError((Problem(str(path), "cannot be written (no such folder)", right),))


def write_rack(path: Path, text: str, *, force: bool = False) -> None:
    """Write a rack file to `path`; never over a file unless `force`."""
    try:
        with path.open("w" if force else "x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        raise InputError((_exists(path),)) from None
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or "the name cannot be used").lower()
        right = "choose a file in a folder that exists and that you may write to"
        problem = Problem(str(path), f"cannot be written ({reason})", right)
        raise InputError((problem,)) from None


def _exists(path: Path) -> Problem:
    right = "choose another name, or add --force to write over it"
    return Problem(str(path), "exists already", right)


def _edit(lines: list[str], section: str, key: str, value: Value) -> list[str]:
    start, end = _extent(lines, section)
    at = next((i for i in range(start, end) if _key(lines[i]) == key), None)
    if value is None:
        return lines if at is None else lines[:at] + lines[at + 1 :]
    shown = toml_value(value)
    if at is None:
        last = max((i for i in range(start, end) if lines[i].strip()), default=start - 1)
        return [*lines[: last + 1], f"{key} = {shown}", *lines[last + 1 :]]
    head = ASSIGNED.match(lines[at])
    assert head is not None
    return [*lines[:at], f"{head[0]}{shown}", *lines[at + 1 :]]


def toml_value(value: Value) -> str:
    """Return a value as it stands in a file; None, no value, is not one."""
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{k} = {toml_value(v)}" for k, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(map(toml_value, value)) + "]"
    # A text in JSON is one in TOML too, quotes inside it and all.
    return str(value) if isinstance(value, int | float) else json.dumps(value, ensure_ascii=False)


def _extent(lines: list[str], section: str) -> tuple[int, int]:
    """Lines of a section, its head not among them; a section that is missing is put at the end."""
    name, _, number = section.partition(" ")
    heads = [(i, m[2]) for i, line in enumerate(lines) if (m := HEAD.match(line))]
    if not section:
        return 0, heads[0][0] if heads else len(lines)
    found = [i for i, head in heads if head == name]
    which = int(number or 1) - 1
    if which >= len(found):
        if number or name == "guys" or any(_key(line) == name for line in lines):
            right = f"give it lines of its own under [{name}], then size it again"
            raise InputError((Problem(name, "is not headed by a line of its own", right),))
        lines += [f"[{name}]"] if lines and not lines[-1].strip() else ["", f"[{name}]"]
        return len(lines), len(lines)
    later = [i for i, _ in heads if i > found[which]]
    return found[which] + 1, later[0] if later else len(lines)


def _key(line: str) -> str:
    found = ASSIGNED.match(line)
    return found[2] if found else ""


def _check(before: str, after: str, edits: Edits) -> None:
    """Make sure that the new text says what it should, and that nothing else changed."""
    wanted: dict[str, Any] = tomllib.loads(before.replace("\r\n", "\n"))
    for (section, key), value in edits.items():
        name, _, number = section.partition(" ")
        table: Any = wanted
        if section:
            table = wanted.setdefault(name, {})
            table = table[int(number or 1) - 1] if isinstance(table, list) else table
        if value is None:
            table.pop(key, None)
        else:
            table[key] = value
    _check_same(after, wanted)


def _check_same(after: str, wanted: dict[str, Any]) -> None:
    try:
        same = tomllib.loads(after) == wanted
    except tomllib.TOMLDecodeError:
        same = False
    if not same:
        right = "write one key to a line, sections in square brackets, then size it again"
        raise InputError((Problem("rack file", "is laid out in a way not edited here", right),))
