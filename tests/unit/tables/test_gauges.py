"""Sheet gauges."""

import pytest

from frame.errors import CatalogError
from frame.tables.gauges import gauge_thickness, is_gauge
from frame.tables.reader import rows, si

INCH = 0.0254
OUNCES = {3: 160, 4: 150, 5: 140, 6: 130, 7: 120, 8: 110, 9: 100, 10: 90, 11: 80, 12: 70, 13: 60,
          14: 50, 16: 40}  # fmt: skip
"""Weight by which the gauges are defined [ounces a square foot], 15 U.S.C. 206, from memory."""


@pytest.mark.parametrize("row", rows("sheet_gauges"), ids=lambda row: row["gauge"])
def test_gauges_are_what_sheet_of_their_weight_measures(row: dict[str, str]) -> None:
    """Sheet of 41.82 lb a square foot and inch: Manufacturers' Standard Gauge, from memory."""
    by_weight = OUNCES[int(row["gauge"])] / 16 / 41.82
    assert si(row, "wall_in") / INCH == pytest.approx(by_weight, abs=0.0006)


def test_words() -> None:
    assert is_gauge("11 ga")
    assert is_gauge("#11 gage")
    assert not is_gauge("11 in")
    assert not is_gauge("0.11")
    assert gauge_thickness("11 ga") < gauge_thickness("10 ga")
    with pytest.raises(CatalogError, match="bigger number is thinner"):
        gauge_thickness("15 ga")
