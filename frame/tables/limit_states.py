"""Tables of words by limit state: their first column holds names of `LimitState`, ; between."""

from functools import cache

from frame.named.limit_state import LimitState
from frame.tables.reader import TableRow, rows


@cache
def by_limit_state(table: str) -> dict[LimitState, TableRow]:
    """Return the row of each limit state that a table has one for.

    Raises KeyError for a name that is none, ValueError for one told twice: faults of the program.
    """
    found: dict[LimitState, TableRow] = {}
    for row in rows(table):
        for name in row["limit_state"].split(";"):
            state = LimitState[name]
            if state in found:
                raise ValueError(f"{table}.csv tells twice of {name}")
            found[state] = row
    return found
