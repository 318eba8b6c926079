"""What is expected to go, as it is told."""

import pytest

from frame.checks.check import Check, Kind
from frame.records.going import Going


@pytest.mark.parametrize("kind", list(Kind))
def test_only_what_tilts_or_breaks_is_to_be_acted_on_before(kind):
    """From the kinds' own words: turned or leaning the rack still stands (judgement)."""
    one = Going(
        part="",
        check="",
        kind=kind,
        gust=1.0,
        low=1.0,
        high=1.0,
        case="",
        words="",
        tilt=0.0,
        shifts=(),
        hand=Check(name="", demand=0.0, allowable=1.0, nominal=1.0, unit="", source=""),
    )
    assert one.grave == (kind in {Kind.TILTS, Kind.BREAKS})
    assert one.slips == (kind != Kind.BREAKS)
