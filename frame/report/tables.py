"""Tables that read alike on a terminal and in a file."""

from collections.abc import Sequence

from rich.box import SIMPLE_HEAD
from rich.console import Group
from rich.table import Table
from rich.text import Text

OVER = "OVER"
"""Word that flags a limit passed; colour alone is lost in a file."""
FLAG = "bold red"


def new_table(*columns: str) -> Table:
    """Start a table; a column whose head begins with ">" has its cells to the right."""
    made = Table(box=SIMPLE_HEAD, show_edge=False, pad_edge=False, padding=(0, 2, 0, 0))
    for head in columns:
        if head.startswith(">"):
            made.add_column(head[1:], justify="right", vertical="top")
        else:
            made.add_column(head, justify="left", vertical="top", overflow="fold")
    return made


def flagged(text: str, *, over: bool, word: str = OVER) -> Text:
    """Return a cell, flagged in word and colour where it is `over`."""
    said = text if word.lower() in text.lower() else f"{text} {word}"
    return Text(said, style=FLAG) if over else Text(text)


def under_title(title: str, *parts: Table | str) -> Group:
    """Put a title over tables and lines of text, a blank line after."""
    body = [Text(part) if isinstance(part, str) else part for part in parts if part]
    return Group(Text(title, style="bold"), *body, Text(""))


def once(names: Sequence[str]) -> list[str]:
    """Return the names with repeats of the one above left blank."""
    return ["" if i and name == names[i - 1] else name for i, name in enumerate(names)]
