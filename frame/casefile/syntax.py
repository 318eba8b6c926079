"""From a path to the plain tables of a rack file; says in builder's words why it cannot be."""

import re
import tomllib
from pathlib import Path
from typing import Any

from frame.errors import InputError, Problem

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


def read_tables(text: str, name: str) -> dict[str, Any]:
    """Read TOML text into plain tables."""
    try:
        tables = tomllib.loads(text.replace("\r\n", "\n"))
    except RecursionError:
        raise refused(name, "is nested too deeply to read", f"start again: {START}") from None
    except ValueError as error:
        raise misread(text, name, str(error)) from None
    if not tables:
        raise refused(name, "is empty", f"describe a rack in it; {START}")
    return tables


def refused(where: str, what: str, right: str) -> InputError:
    """Make the error for a file that cannot be used at all."""
    return InputError((Problem(where, what, right),))


def misread(text: str, name: str, message: str) -> InputError:
    """Say where the text stops being TOML, show the line, and guess what was meant."""
    found = re.search(r"line (\d+), column (\d+)", message)
    lines = text.splitlines()
    number = int(found[1]) if found else len(lines)
    column = f", column {found[2]}" if found else ""
    line = lines[number - 1].strip() if 0 < number <= len(lines) else ""
    what = f'cannot be read: "{line[:60]}"' if line.isprintable() and line else "cannot be read"
    return refused(f"{name}, line {number}{column}", what, guess(line, message))


def guess(line: str, message: str) -> str:
    """Guess what is wrong with a line."""
    value = line.partition("=")[2].strip()
    clues = (
        ("overwrite" in message or "twice" in message, "it stands twice in the file; keep one"),
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
