"""File names as they must be typed in a command."""

from pathlib import Path


def typed(file: str | Path) -> str:
    """Return a file name fit to follow a command: in double quotes where a blank would split it.

    Double quotes are read alike by the shells of every system.
    """
    text = str(file)
    plain = text and not any(letter.isspace() or letter in "()&;'`$|<>*?" for letter in text)
    return text if plain else f'"{text}"'
