"""What the reports print on a terminal, as plain heads, paragraphs and tables."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """A head, a paragraph, or a table: what is not there is empty.

    `right`: which columns of the table stand to the right.
    """

    head: str = ""
    text: str = ""
    columns: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    right: tuple[bool, ...] = ()


def passages(printed: RenderableType) -> Iterator[Passage]:
    """Take a report apart; a bold line is a head."""
    if isinstance(printed, Group):
        for part in printed.renderables:
            yield from passages(part)
    elif isinstance(printed, Table):
        yield _table(printed)
    else:
        text = _plain(printed)
        bold = isinstance(printed, Text) and "bold" in str(printed.style).split()
        if text.strip():
            yield Passage(head=text) if bold else Passage(text=text)


def table_passage(
    columns: Sequence[str], rows: Sequence[Sequence[str]], right: int = 99
) -> Passage:
    """Return a table whose columns from the one at place `right` stand to the right."""
    return Passage(
        columns=tuple(columns),
        rows=tuple(tuple(row) for row in rows),
        right=tuple(i >= right for i in range(len(columns))),
    )


def _table(printed: Table) -> Passage:
    cells = [[_plain(cell) for cell in column.cells] for column in printed.columns]
    return Passage(
        columns=tuple(_plain(column.header) for column in printed.columns),
        rows=tuple(zip(*cells, strict=True)),
        right=tuple(column.justify == "right" for column in printed.columns),
    )


def _plain(cell: RenderableType) -> str:
    if isinstance(cell, Text):
        return cell.plain
    if isinstance(cell, Group):
        return "\n".join(_plain(part) for part in cell.renderables)
    return str(cell)
