"""Anchors, fittings, the hill and the ground as a file describes them."""

import re

import pytest

from frame.casefile.read import parse_rack
from frame.casefile.starter import starter_text
from frame.errors import InputError
from frame.rack.guy import Anchor
from frame.rack.rack import Rack
from frame.shop.buying.shopping import BAG
from frame.tables.soils import CONCRETE_UNIT_WEIGHT
from frame.units import FT, FT_LB, INCH, LB, PCF, PSF


def read(guys: str = "", site: str = "", post: str = "") -> Rack:
    text = re.sub(r"(?m)^anchor = .*\n", "", starter_text())
    for mark, more in (('# pretension = "200 lb"', guys), ("# flow =", site), ("# steel =", post)):
        text = text.replace(mark, f"{more}\n{mark}", 1)
    return parse_rack(text, "mine.toml")


def assumed(rack: Rack, part: str) -> set[str]:
    return {a.key for a in rack.assumptions if a.key.startswith(part)}


def test_a_described_anchor_is_taken_as_it_is() -> None:
    rack = read('anchor = { kind = "deadman", depth = "4 ft", height = "8 in", length = "3 ft" }')
    (group,) = rack.guys
    assert group.anchor == "deadman"
    assert group.hold == Anchor(depth=4 * FT, height=8 * INCH, length=3 * FT)
    assert not assumed(rack, "guys.anchor")


def test_who_measures_a_block_weighs_it_as_the_program_does() -> None:
    (told,) = (a for a in read('anchor = "concrete block"').assumptions if "weight" in a.key)
    assert f"concrete weighs {CONCRETE_UNIT_WEIGHT / PCF:g} lb a cubic foot" in told.find_out
    volume, words = BAG["us"]
    assert f"{words} of dry mix gives {volume / FT**3:.1f} of one" in told.find_out


def test_a_named_anchor_is_taken_for_a_small_one() -> None:
    rack = read('anchor = "screw anchor"')
    hold = rack.guys[0].hold
    assert hold.torque == pytest.approx(150 * FT_LB)
    assert assumed(rack, "guys.anchor") == {
        f"guys.anchor.{key}" for key in ("torque", "shaft", "depth", "size")
    }


def test_a_block_is_a_cube_of_its_weight() -> None:
    """600 lb of concrete at 145 lb per cubic foot: 1.605 ft each way."""
    hold = read('anchor = { kind = "concrete block", weight = "600 lb" }').guys[0].hold
    assert hold.length == hold.height == pytest.approx((600 / 145) ** (1 / 3) * FT)
    assert hold.weight / hold.length**3 == pytest.approx(145 * PCF)


def test_a_tested_anchor_needs_no_description() -> None:
    rack = read('anchor = { kind = "pickets", tested = "2000 lb", tested_in = "wet" }')
    assert rack.guys[0].hold == Anchor(tested=2000 * LB, tested_wet=True)
    assert not assumed(rack, "guys.anchor")
    assert not read('anchor = { kind = "pickets", tested = "1 kip" }').guys[0].hold.tested_wet


def test_a_hill_stands_in_for_its_factor() -> None:
    rack = read(site='hill = { height = "60 ft", half_length = "200 ft" }')
    assert rack.site.hill is not None
    assert (rack.site.hill.shape, rack.site.hill.distance) == ("ridge", 0.0)
    assert assumed(rack, "site.hill") == {"site.hill.shape", "site.hill.distance"}


def test_snow_slab_and_foot() -> None:
    rack = read(site='snow = "25 psf"', post='slab = "yes"\nfoot = "8 in"')
    assert rack.site.snow == pytest.approx(25 * PSF)
    assert rack.posts.footing.slab
    assert rack.posts.footing.foot == pytest.approx(8 * INCH)
    assert "post.foot" in assumed(read(), "post")


def test_the_gust_that_comes_with_ice() -> None:
    """The highest of the maps' continental zones, 60 mph, unless given; nothing without ice."""
    icy = read(site='ice = "1/2 in"')
    assert icy.site.ice_gust == pytest.approx(60 * 0.44704)
    assert "site.ice_gust" in assumed(icy, "site")
    given = read(site='ice = "1/2 in"\nice_gust = "40 mph"')
    assert given.site.ice_gust == pytest.approx(40 * 0.44704)
    assert "site.ice_gust" not in assumed(given, "site")
    assert "site.ice_gust" not in assumed(read(), "site")
    bare = read(site='ice_gust = "40 mph"')
    assert bare.site.ice_gust == 0
    assert any("ice" in w for w in bare.warnings)


@pytest.mark.parametrize(
    ("frost", "words"), [("18 in", "post.ignored"), ("5 ft", "below the foot of the post")]
)
def test_frost_is_warned_of(frost: str, words: str) -> None:
    assert any(words in w for w in read(site=f'frost = "{frost}"').warnings)
    assert not any("Frost" in w for w in read(site='frost = "6 in"').warnings)


@pytest.mark.parametrize(
    ("guys", "site", "says"),
    [
        (
            'anchor = { kind = "deadman", torque = "3 ft-lb" }',
            "",
            "guys.anchor.torque: says nothing",
        ),
        ('anchor = { depth = "3 ft" }', "", "guys[1].anchor.kind: is missing"),
        ('anchor = { kind = "rock", tested_in = "dry" }', "", "guys.anchor.tested: is missing"),
        ('fitting_size = "1/8 in"', "", "guys.fitting_size: 1/8 in is smaller than any"),
        ("", 'hill = "ridge"', "site.hill: is"),
        (
            "",
            'hill = { height = "60 ft", half_length = "200 ft" }\nhill_factor = 1.2',
            "site.hill_factor: stands beside a hill",
        ),
        ("", 'snow = "-3 psf"', 'site.snow: "-3 psf" is negative'),
    ],
)
def test_what_cannot_be_is_said(guys: str, site: str, says: str) -> None:
    with pytest.raises(InputError) as raised:
        read(guys, site)
    assert says in str(raised.value)
