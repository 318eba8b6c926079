"""Sleeve pipe as it can be bought, and shims in place of a bore that nobody sells."""

import pytest

from frame.shop.buying.sleeve_stock import nearest_pipe, rolled, sleeve_words
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


@pytest.mark.parametrize(
    ("post", "wall", "none"),
    [
        # NPS 5 sch 80, 5.563 in: 6-5/8 in casing of 32 lb/ft has a bore of 5.675 in (API 5CT).
        ("5 in nominal sch 80", "3/8 in", False),
        # NPS 6 sch 80, 6.625 in: between it and NPS 8 sch 80, bore 7.625 in (ASME B36.10), there
        # is 7 in casing, whose bores are all under 6.6 in.
        ("6 in nominal sch 80", "7/16 in", True),
        # NPS 10, 10.75 in: nothing listed is wider than that.
        ("10 in nominal sch 40", "3/8 in", True),
    ],
)
def test_a_post_that_no_listed_pipe_goes_over(post: str, wall: str, none: bool) -> None:
    rack = changed(
        "hay_barn",
        ('clearance = "1/8 in"', f'clearance = "1/8 in"\nwall = "{wall}"'),
        ('{ od = "4 in", wall = "0.226 in" }', f'"{post}"'),
        ('hole = "10 in"', 'hole = "14 in"'),
    )
    assert rolled(rack) == none
