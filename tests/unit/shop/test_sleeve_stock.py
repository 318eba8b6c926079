"""Sleeve pipe as it can be bought, and shims in place of a bore that nobody sells."""

import pytest

from frame.shop.buying.sleeve_stock import nearest_pipe, sleeve_words
from frame.shop.job import make_job
from frame.shop.steel.cut_list import sleeve_bore
from tests.builders import INCH, case, changed


def test_the_nearest_pipe_goes_over_the_post_and_is_no_thinner() -> None:
    """Post 4 in: NPS 4 sch 40, 4.500 x 0.237 in, has a bore of 4.026 in (ASME B36.10)."""
    rack = changed("hay_barn", ('clearance = "1/8 in"', 'clearance = "0.03 in"'))
    found = nearest_pipe(rack)
    assert found is not None
    assert found.od - 2 * found.wall == pytest.approx(4.026 * INCH, abs=0.01 * INCH)
    assert found.wall >= rack.sleeve.wall - INCH / 64


def test_a_sleeve_that_is_listed_as_described_needs_no_words() -> None:
    exact = 'clearance = "0.026 in"\nwall = "0.237 in"'
    assert not sleeve_words(changed("hay_barn", ('clearance = "1/8 in"', exact)))
    said = sleeve_words(case("orchard_wall"))
    assert "nearest listed pipe" in said
    assert "6-7/16 in thick" in said


def test_a_shim_leaves_the_bore_and_is_set_when_the_rack_is_raised() -> None:
    """Post 4 in, bore 4-1/8 in: shimmed to 1/32 in it is still cut and coped from that bore."""
    shimmed = changed(
        "hay_barn", ('clearance = "1/8 in"', 'clearance = "1/8 in"\nplay = "1/32 in"')
    )
    assert shimmed.sleeve.clearance == pytest.approx(INCH / 32)
    assert sleeve_bore(shimmed) == pytest.approx(4.125 * INCH)
    told = " ".join(stage.do for stage in make_job(shimmed, ()).raising.stages)
    assert "Shim the sleeve on the post" in told
    assert "Shim" not in " ".join(s.do for s in make_job(case("hay_barn"), ()).raising.stages)
