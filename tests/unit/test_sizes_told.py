"""Sizes that bolts are bought by."""

import pytest

from frame.units import METRIC, US, show_size


@pytest.mark.parametrize(
    ("size", "system", "told"),
    [(0.0127, METRIC, "1/2 in"), (0.00635, METRIC, "1/4 in"), (0.012, METRIC, "12 mm"),
     (0.0127, US, "1/2 in"), (0.008, METRIC, "8 mm"), (0.015875, METRIC, "5/8 in"),
     (0.01905, METRIC, "3/4 in"), (0.016, METRIC, "16 mm")],
)  # fmt: skip
def test_a_bolt_of_the_inch_series_is_told_in_inches_to_anyone(
    size: float, system: str, told: str
) -> None:
    """Half an inch is no M13, and M12 has a tenth less area: inch and metric series of ASME B1.1
    and ISO 261, from memory."""
    assert show_size(size, system) == told
