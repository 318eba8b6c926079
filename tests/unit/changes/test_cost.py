"""Cost against sums by hand, and that the cheapest by the file's prices is picked."""

import math
from dataclasses import replace
from io import StringIO
from types import SimpleNamespace

import pytest
from rich.console import Console

from frame.changes.cost import (
    STEEL_AN_HOUR,
    TURNED_BACK,
    bought_steel,
    burden,
    cost,
    hours,
    pipe_weight,
    rod_weight,
)
from frame.changes.thrown_away import ThrownAway, thrown_away
from frame.plan.decision import side_by_side
from frame.plan.offers import Offer
from frame.plan.price import OVERHEAD, price_of
from frame.rack.rack import KNEES, Rack
from frame.rack.sleeve import Pin
from frame.report.compare_page import page
from frame.report.data.document import document
from frame.report.money import amount, money
from frame.verdict.inspect import inspect
from frame.verdict.verdict import best
from tests.builders import FOOT, INCH, POUND, case, changed, path_of

PRICES = """
[prices]
currency = "dollars"
pipe = "$1.20 per lb"
rail = "3 per ft"
wire = "0.60 per ft"
fitting = "12 each"
anchor = "20 each"
concrete = "6 per bag"
rod = "2 per lb"
work = "25 per hour"
"""
PER_LB = 1.20
NOMINAL_5, NOMINAL_3_5, NOMINAL_1_5 = 14.62, 9.11, 2.72  # lb/ft, ASME B36.10M, AISC Table 1-14


@pytest.fixture(scope="module")
def rack() -> Rack:
    return changed("boat_shed", more=PRICES)


def test_the_bare_rack_costs_its_pipe_rails_concrete_and_rod(rack: Rack) -> None:
    """Post 12 ft 6 in, sleeve of 1.4 times that weight for 8 in, beam 14 ft 2-1/2 in, 8 rails.

    The pier is 18 in wide and 6 ft deep round a 5.563 in post; a bag makes 0.6 cu ft. U-bolts: 16
    of 1/2 in rod (0.668 lb/ft, any steel handbook), half round a 4 in beam, legs through 3-1/4 in
    of rail and 1-1/2 in beyond. Its rails are two channels back to back.
    """
    post = NOMINAL_5 * (12.5 + 1.4 * 8 / 12)
    beam = NOMINAL_3_5 * (14 + 2.5 / 12)
    rails = 8 * (2 * 69 + 0.5) / 12
    hole = math.pi / 4 * 1.5**2 * 6
    concrete = hole - math.pi / 4 * (5.563 / 12) ** 2 * 6
    rod = 16 * 0.668 * (math.pi / 2 * 4.5 + 4 + 2 * 4.75) / 12
    work = 25 * (2 + 0.4 * hole + 0.25 * concrete)
    total = PER_LB * (post + beam) + 2 * 3 * rails + 6 * concrete / 0.6 + 2 * rod + work
    assert cost(rack, ()) == pytest.approx(total, rel=2e-3)


def test_steel_is_pipe_rails_and_rod(rack: Rack) -> None:
    """As above; knees add their pipe alone, rails as heavy again add what rails weigh."""
    post = NOMINAL_5 * (12.5 + 1.4 * 8 / 12)
    rod = 16 * 0.668 * (math.pi / 2 * 4.5 + 4 + 2 * 4.75) / 12
    channel = rack.rails.channel
    rails = channel.weight / POUND * FOOT * 8 * (2 * 69 + 0.5) / 12
    bare = post + NOMINAL_3_5 * (14 + 2.5 / 12) + rails + rod
    assert bought_steel(rack, ()) / POUND == pytest.approx(bare, rel=2e-3)
    knees = 2 * NOMINAL_1_5 * 2.5 * math.sqrt(2)
    added = bought_steel(rack, (KNEES,)) - bought_steel(rack, ())
    assert added / POUND == pytest.approx(knees, rel=2e-3)
    heavy = replace(rack.rails, channel=replace(channel, weight=2 * channel.weight))
    more = bought_steel(replace(rack, rails=heavy), ()) - bought_steel(rack, ())
    assert more / POUND == pytest.approx(rails, rel=2e-3)


def test_a_pin_costs_its_rod_and_earth_no_concrete(rack: Rack) -> None:
    """A 1 in pin (2.670 lb/ft) through 5.563 in of post and two 0.240 in walls, an inch past."""
    sleeve = replace(rack.sleeve, lock=Pin(diameter=INCH), wall=0.240 * INCH)
    pin = 2.670 * (5.563 + 2 * 1.240) / 12
    added = cost(replace(rack, sleeve=sleeve), ()) - cost(rack, ())
    assert added == pytest.approx(2 * pin, rel=2e-3)
    earth = replace(rack.posts, footing=replace(rack.posts.footing, backfill="earth"))
    volume = math.pi / 4 * (1.5**2 - (5.563 / 12) ** 2) * 6
    saved = cost(rack, ()) - cost(replace(rack, posts=earth), ())
    assert saved == pytest.approx(6 * volume / 0.6 + 25 * 0.25 * volume, rel=1e-6)


def test_a_deeper_or_wider_pier_is_a_burden_without_prices_too() -> None:
    plain = case("boat_shed")
    footing = plain.posts.footing
    for more in ({"depth": footing.depth + FOOT}, {"hole": footing.hole + 6 * INCH}):
        posts = replace(plain.posts, footing=replace(footing, **more))
        light = pipe_weight(replace(plain, posts=posts), ()) - pipe_weight(plain, ())
        assert burden(replace(plain, posts=posts), ()) - burden(plain, ()) > light + 10 * POUND


def test_knees_cost_their_pipe_and_the_work_on_them(rack: Rack) -> None:
    pipe = 2 * NOMINAL_1_5 * 2.5 * math.sqrt(2)
    work = hours(rack, (KNEES,)) - hours(rack, ())
    assert work == 2 * 1.5
    added = cost(rack, (KNEES,)) - cost(rack, ())
    assert added == pytest.approx(PER_LB * pipe + 25 * work, rel=2e-3)


def test_guys_cost_their_wire_fittings_anchors_and_digging(rack: Rack) -> None:
    """Attached 78 in less half the 4.000 in beam and the 8 in sleeve above grade."""
    up = (78 - 2 - 8) * INCH / FOOT
    length = math.sqrt(5.5**2 + 5.5**2 + up**2)
    turned = TURNED_BACK / FOOT
    one = 0.60 * (length + turned) + 12 + 20 + 25 * (hours(rack, ("guys",)) - hours(rack, ())) / 4
    added = cost(rack, ("guys",)) - cost(rack, ())
    assert added == pytest.approx(4 * one, rel=5e-3)


def test_without_prices_there_is_no_cost() -> None:
    plain = case("boat_shed")
    assert cost(plain, (KNEES,)) is None


def test_a_bigger_beam_costs_its_steel_and_longer_u_bolts(rack: Rack) -> None:
    wide = replace(rack.beam.pipe, od=4.5 * INCH, weight=10.79 * POUND / FOOT)  # 4 in nominal
    bigger = replace(rack, beam=replace(rack.beam, pipe=wide))
    added = (wide.weight - rack.beam.pipe.weight) * rack.beam.length
    longer = 16 * 0.668 * (math.pi / 2 + 1) * 0.5 * INCH / FOOT  # U-bolts round a wider beam
    rise = cost(bigger, ()) - cost(rack, ())
    assert rise == pytest.approx(PER_LB * added / POUND + 2 * longer, rel=1e-3)


def test_the_plan_adds_the_trouble_of_a_change_to_what_it_costs(rack: Rack) -> None:
    """Nothing bought, 30 lb of trouble and the overhead of a step, at 25 dollars an hour."""
    before = SimpleNamespace(rack=rack, bracing=(), cost=cost(rack, ()), steel=0.0)
    jack = Offer(do="jack the beam", kind="move", work=30 * POUND)
    hours = (30 * POUND + OVERHEAD) / STEEL_AN_HOUR
    assert price_of(before, rack, (), [jack]) == pytest.approx(25 * hours, rel=1e-9)


def test_channels_back_to_back_are_two_to_buy(rack: Rack) -> None:
    """The same rails of twice the channel: their length is paid for once more, at 3 a foot."""
    twice = rack
    rails = changed("boat_shed", (' back to back"', '"'), more=PRICES)
    feet = 8 * rails.rails.length / FOOT
    prices = cost(twice, ()), cost(rails, ())
    assert prices[0] is not None
    assert prices[1] is not None
    rods = 2 * (rod_weight(twice) - rod_weight(rails)) / POUND
    assert prices[0] - prices[1] == pytest.approx(3 * feet + rods, rel=1e-6)


def test_deep_channel_costs_by_its_weight(rack: Rack) -> None:
    """Two of 3-1/4 in: 6.1 lb/ft (trade tables, from memory), of the common one 1.89, at 3 a foot.

    Longer legs of U-bolts aside.
    """
    deep = changed(
        "boat_shed", ("1-5/8 x 1-5/8 in 12 ga back", "1-5/8 x 3-1/4 in 12 ga back"), more=PRICES
    )
    feet = 8 * rack.rails.length / FOOT
    prices = cost(deep, ()), cost(rack, ())
    assert prices[0] is not None
    assert prices[1] is not None
    rods = 2 * (rod_weight(deep) - rod_weight(rack)) / POUND
    assert prices[0] - prices[1] == pytest.approx(3 * feet * (6.1 / 1.89 - 2) + rods, rel=1e-6)


def test_what_is_taken_off_a_standing_rack_is_bought_anew(rack: Rack) -> None:
    """A beam of 14 ft 2-1/2 in, 3-1/2 in nominal, 9.11 lb/ft; nothing where no rack stands."""
    stands = replace(rack, stands=True)
    heavier = replace(rack.beam, pipe=rack.posts.pipe)
    after = replace(stands, beam=heavier)
    old = NOMINAL_3_5 * (14 + 2.5 / 12)
    gone = thrown_away(stands, after, ())
    assert gone.steel / POUND == pytest.approx(old, rel=2e-3)
    assert gone.money == pytest.approx(PER_LB * old, rel=2e-3)
    papers = replace(rack.beam.pipe, steel=replace(rack.beam.pipe.steel, name="with papers"))
    same_size = replace(stands, beam=replace(rack.beam, pipe=papers))
    assert thrown_away(stands, same_size, ()) == gone
    assert thrown_away(rack, replace(rack, beam=heavier), ()) == ThrownAway()
    assert thrown_away(stands, stands, ()) == ThrownAway()
    deeper = replace(rack.posts.footing, depth=rack.posts.footing.depth + 1.0)
    dug_out = thrown_away(stands, replace(stands, posts=replace(rack.posts, footing=deeper)), ())
    post = NOMINAL_5 * 12.5
    assert dug_out.steel / POUND == pytest.approx(post, rel=2e-3)
    pier = math.pi / 4 * (1.5**2 - (5.563 / 12) ** 2) * 6
    assert dug_out.money > PER_LB * post + 6 * pier / 0.6


def test_prices_decide_what_is_cheapest(rack: Rack) -> None:
    """Where steel is dear and anchors are free the guys win, and the other way round.

    Both are taken to hold: the checks are left out. What a bracing costs hangs on no tilt.
    """
    steep = replace(rack, tilts=rack.tilts[-1:])
    found = [inspect(steep, b).result for b in ((KNEES,), ("guys",))]
    for one in found:
        assert one.effort == one.added_cost == one.cost - cost(steep, ())
    nothing = dict.fromkeys(
        ("pipe", "rail", "wire", "fitting", "anchor", "concrete", "rod", "work"), 0.0
    )
    for dear, wins in (("anchor", (KNEES,)), ("pipe", ("guys",))):
        priced = replace(steep, prices=replace(rack.prices, **{**nothing, dear: 10.0}))
        either = []
        for one in found:
            added = cost(priced, one.bracing) - cost(priced, ())
            either.append(replace(one, rows=(), effort=added))
        assert best(priced, either).bracing == wins


def test_cost_is_told_and_what_has_no_price_is_named() -> None:
    text = path_of("fifteen_lines").read_text(encoding="utf-8")
    priced = f'{text}\n[prices]\ncurrency = "kroner"\npipe = "20 per kg"\n'
    study = side_by_side(priced, "priced.toml")
    found = document(study)
    bare = found["bracings"][0]
    assert bare["cost"] > 0
    assert bare["added_cost"] == 0
    assert all(move["cost"] is not None for move in found["moves"])
    assumed = {a["key"] for a in found["assumptions"]}
    assert {"prices.rail", "prices.work", "prices.anchor"} <= assumed
    assert "prices.pipe" not in assumed
    console = Console(file=StringIO(), width=100)
    console.print(page(study, "us"))
    said = console.file.getvalue()
    told = " ".join(said.split())
    assert "Cost in kroner, by the file's prices: pipe. Counted as nothing, being free" in told
    assert "rails and ties, wire, fittings, anchors, concrete, rod of pins" in told


def test_amounts_are_rounded_as_money_is(rack: Rack) -> None:
    assert [amount(x) for x in (None, 0.0, -0.001, 1.5, 7.0, 1234.5)] == [
        "-", "-", "-", "1.50", "7", "1,234",
    ]  # fmt: skip
    assert money(98.4, rack) == "98 dollars"
    assert money(0.0, rack) == "nothing"


@pytest.mark.parametrize(
    ("text", "per"),
    [("7 per bag", 0.6 * FOOT**3), ("7/cu ft", FOOT**3), ("7 per cubic yard", 27 * FOOT**3),
     ("7 per m3", 1.0), ("free", math.inf)],
)  # fmt: skip
def test_concrete_is_priced_by_volume_or_by_the_bag(text: str, per: float) -> None:
    """A bag of 80 lb makes 0.6 cubic feet: common practice, no source."""
    rack = changed("boat_shed", more=f'[prices]\nconcrete = "{text}"\n')
    assert rack.prices.concrete == pytest.approx(7 / per)


@pytest.mark.parametrize(
    ("text", "per"),
    [("1.20 per lb", POUND), ("$1.20/lb", POUND), ("1.20 per kg", 9.80665), ("free", math.inf)],
)
def test_prices_are_read_in_any_unit(text: str, per: float) -> None:
    rack = changed("boat_shed", more=f'[prices]\npipe = "{text}"\n')
    assert rack.prices.pipe == pytest.approx(1.20 / per)
