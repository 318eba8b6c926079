"""From a path to the plain tables of a rack file; says in builder's words why it cannot be."""

import re
import tomllib
from pathlib import Path
from typing import Any

from frame.casefile.keys.fields import MENDED
from frame.errors import InputError, Problem

MOST_FAULTS = 25
UNREADABLE = "\ue000 unreadable"
"""Stands for a value that cannot be read until the rest of the file is."""
ASSIGNED = re.compile(r"\s*[A-Za-z0-9_-]+\s*=")
HEAD = re.compile(r"\s*(\[{1,2})\s*([A-Za-z0-9_-]+)")
CURLY = re.compile("[\u2018\u2019\u201c\u201d]")
MOST_BYTES = 1_000_000
START = "`rack new FILE` writes one to start from"


def read_text(path: Path) -> str:
    """Read a rack file as text; a rack file is a page long, so a big one is no rack file."""
    where = str(path)
    try:
        if path.is_dir():
            raise refused(where, "is a folder", "name the rack file in it")
        if not path.exists():
            raise refused(where, "there is no such file", f"check the name, or {START}")
        if not path.is_file():
            raise refused(where, "is not a plain file", "name a rack file")
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
        size = path.stat().st_size
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "the name cannot be used"
        raise refused(where, f"cannot be read ({reason.lower()})", "check the file") from None
    if len(data) > MOST_BYTES:
        what = f"is {size / 1e6:.1f} MB long"
        raise refused(where, what, "a rack file is a page of text, 1 MB at most")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = "\0"
    if "\0" in text:
        raise refused(where, "is not plain text", "save it as plain text (UTF-8)")
    return text


def read_tables(text: str, name: str) -> tuple[dict[str, Any], tuple[Problem, ...]]:
    """Read TOML text into plain tables, and say which lines cannot be read.

    A line that is at fault by itself does not hide the others: its value comes back as `MENDED`.

    Raises
    ------
    InputError
        Where the fault cannot be kept to its line.
    """
    lines = text.replace("\r\n", "\n").split("\n")
    problems: list[Problem] = []
    while True:
        try:
            tables = tomllib.loads("\n".join(lines))
            break
        except RecursionError:
            raise refused(name, "is nested too deeply to read", f"start again: {START}") from None
        except ValueError as error:
            number = line_number(lines, str(error))
            mended = mend_line(lines, number, str(error))
            if mended is not None or not problems:
                problems.append(misread(lines, number, name, str(error)))
            if mended is None or len(problems) == MOST_FAULTS:
                raise InputError(tuple(problems)) from None
            lines[number - 1] = mended
    if not tables and not problems:
        raise refused(name, "is empty", f"describe a rack in it; {START}")
    mend_values(tables)
    return tables, tuple(problems)


def line_number(lines: list[str], message: str) -> int:
    """Return the line, from 1, that a message of the TOML reader names; the last if none."""
    found = re.search(r"line (\d+)", message)
    return min(int(found[1]), len(lines)) if found else len(lines)


def mend_line(lines: list[str], number: int, message: str) -> str | None:
    """Return what may stand in place of a line at fault; None if others are at fault too."""
    line = lines[number - 1]
    key, head = ASSIGNED.match(line), HEAD.match(line)
    if "overwrite" in message and key:
        return ""
    try:
        tomllib.loads(line)
    except (ValueError, RecursionError):
        if key:
            return f'{key[0]} "{UNREADABLE}"'
        if head:
            return f"{head[1]}{head[2]}{']' * len(head[1])}"
    return None


def mend_values(inside: Any) -> None:
    """Put `MENDED` for every value that could not be read."""
    for key, value in inside.items() if isinstance(inside, dict) else enumerate(inside):
        if value == UNREADABLE:
            inside[key] = MENDED
        elif isinstance(value, dict | list):
            mend_values(value)


def refused(where: str, what: str, right: str) -> InputError:
    """Make the error for a file that cannot be used at all."""
    return InputError((Problem(where, what, right),))


def misread(lines: list[str], number: int, name: str, message: str) -> Problem:
    """Say where the text stops being TOML, show the line, and guess what was meant."""
    found = re.search(r"column (\d+)", message)
    column = f", column {found[1]}" if found else ""
    line = lines[number - 1].strip()
    what = f'cannot be read: "{line[:60]}"' if line.isprintable() and line else "cannot be read"
    return Problem(f"{name}, line {number}{column}", what, guess_fault(line, message))


def guess_fault(line: str, message: str) -> str:
    """Guess what is wrong with a line."""
    value = line.partition("=")[2].strip()
    clues = (
        ("overwrite" in message or "twice" in message, "it stands twice in the file; keep one"),
        (
            CURLY.search(line),
            'its quotes are curly, as a word processor makes them; type plain ones, "6 ft 3 in"',
        ),
        (line.startswith("[") and "]" not in line, "close the section's name with ]"),
        (
            re.match(r'".*\d".', value),
            'inside double quotes write "in" for inches, or use single quotes outside',
        ),
        (
            re.match(r"[\d.+-]", value),
            'put quotes round a value with a unit, as height = "6 ft 3 in"',
        ),
        (re.match(r"[A-Za-z]", value), 'put quotes round words, as soil = "clay"'),
        (value.count('"') % 2 or value.count("'") % 2, "close the quotes"),
        (value.startswith("[") and "]" not in value, "close the list with ]"),
    )
    usual = 'write one key and its value on a line, as soil = "clay"'
    return next((right for clue, right in clues if clue), usual)
