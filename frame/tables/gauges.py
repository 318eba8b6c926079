"""Sheet gauges: walls by number, the bigger the thinner."""

import re

from frame.errors import CatalogError
from frame.tables.reader import rows, si
from frame.units.parse import plain_text

GAUGE = re.compile(r"#? ?(\d{1,2}) ?-?(?:ga\.?|gage|gauge)")


def is_gauge(text: str) -> bool:
    """Tell whether a thickness is written as a gauge: "7 ga", "11 gauge"."""
    return bool(GAUGE.fullmatch(plain_text(text)))


def gauge_thickness(text: str) -> float:
    """Return the thickness [m] of steel sheet of the gauge written in `text`.

    Manufacturers' Standard Gauge for sheet steel. Tubing is rolled to another list that differs by
    a few thousandths of an inch.

    Raises
    ------
    CatalogError
        For a gauge that is not listed.
    """
    found = GAUGE.fullmatch(plain_text(text))
    for row in rows("sheet_gauges"):
        if found and row["gauge"] == str(int(found[1])):
            return si(row, "wall_in")
    listed = ", ".join(row["gauge"] for row in rows("sheet_gauges"))
    raise CatalogError(
        f'"{text}" is not a listed gauge; listed are {listed} (a bigger number is thinner), or '
        'give the wall in inches by calipers, as "0.179 in"'
    )
