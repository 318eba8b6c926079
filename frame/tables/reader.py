"""Read the data tables: CSV files with the unit in the column head and a source for every row."""

import csv
from functools import cache
from importlib.resources import files

from frame.units import column_factor

TableRow = dict[str, str]


@cache
def rows(name: str) -> tuple[TableRow, ...]:
    """Return every row of `frame/tables/data/<name>.csv`, as text by column head.

    Raises ValueError for a row with a missing or extra cell or without a source: the tables are
    part of the program, so that is a fault of the program.
    """
    text = files("frame.tables").joinpath("data", f"{name}.csv").read_text(encoding="utf-8")
    table = tuple(csv.DictReader(text.splitlines(), strict=True))
    for line, row in enumerate(table, start=2):
        if None in row or None in row.values():
            raise ValueError(f"{name}.csv, line {line}: a cell too many or too few")
        if not row.get("source", "").strip():
            raise ValueError(f"{name}.csv, line {line}: no source")
    return table


def si(row: TableRow, head: str) -> float:
    """Return the number under a column head in SI, by the unit the head ends in; empty is 0."""
    text = row[head].strip()
    return float(text) * column_factor(head) if text else 0.0
