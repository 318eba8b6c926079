"""What is at hand: only that is offered, and never more than can be cut from it."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from frame.casefile.read import parse_rack
from frame.changes.offered import all_series
from frame.changes.stock import SAW, check_stock, first_not_cut, needed, supply
from frame.changes.tried import Tried
from frame.errors import FrameError, InputError
from frame.rack.pipe import Pipe
from frame.rack.stock import StockPiece
from frame.sizing.bench import Bench
from frame.sizing.growth import cuttable
from frame.sizing.size import size
from frame.tables import steels, wires
from tests.builders import FOOT, INCH, changed, path_of
from tests.often import often

PIPE = Pipe(label="any", od=0.1, wall=0.005, weight=100.0, steel=steels.find("A53 B"))
NAME = "yard.toml"
YARD = """
[[stock]]
pipe = "3-1/2 in nominal"
length = "12 ft"
[[stock]]
pipe = "5 in nominal"
steel = "A53 B"
length = "20 ft"
count = 2
[[stock]]
pipe = { od = "2-7/8 in", wall = "0.217 in" }
length = "9 ft 6 in"
[[stock]]
wire = "3/16 in 7x19 rope"
length = "40 ft"
"""


def text(more: str, name: str = "fifteen_lines", gust: str = "50 mph") -> str:
    said = path_of(name).read_text(encoding="utf-8")
    return said.replace('"115 mph"', f'"{gust}"') + more


def rungs(said: str, section: str, bracing=(), **options) -> list:
    rack = parse_rack(said, NAME)
    found = all_series(rack, bracing, supply(rack, said, **options))
    (one,) = (x for x in found if x.name == f"{section} pipe")
    return [r.edits.get((section, "pipe")) for r in one.rungs]


def test_only_what_is_at_hand_and_long_enough_is_offered() -> None:
    """Beam of 10 ft: the tubing of 9 ft 6 in is too short; the post takes 11 ft 4 in."""
    said = text(YARD)
    assert set(rungs(said, "beam")) == {None, "3-1/2 in nominal", "5 in nominal"}
    assert set(rungs(said, "post")) == {None, "3-1/2 in nominal", "5 in nominal"}
    tall = said.replace('height = "6 ft 4 in"', 'height = "7 ft 4 in"')
    assert set(rungs(tall, "post")) == {None, "5 in nominal"}


def test_the_catalog_comes_on_top_when_told_and_alone_where_no_pipe_is_listed() -> None:
    said = text(YARD)
    both = rungs(said, "beam", catalog=True)
    for wanted in ("6 in nominal sch 40", "5 in nominal", {"od": "2-7/8 in", "wall": "0.217 in"}):
        assert wanted in both
    alone = set(rungs(text(""), "beam"))
    assert alone == set(rungs(text('[[stock]]\nwire = "1/4 in EHS strand"\n'), "beam"))


def test_pipe_too_wide_for_a_home_shop_is_offered_from_stock_alone() -> None:
    """10 in nominal is 10-3/4 in across, 8 in nominal 8-5/8 in (ASME B36.10M): judgement."""
    bought = rungs(text(""), "post")
    assert "8 in nominal sch 80" in bought
    assert not [name for name in bought if name and name.startswith("10 in")]
    wide = '[[stock]]\npipe = "10 in nominal sch 40"\nlength = "20 ft"\n'
    assert "10 in nominal sch 40" in rungs(text(wide), "post")
    assert "10 in nominal sch 40" in rungs(text(wide), "post", catalog=True)


def test_wire_is_offered_from_the_coils() -> None:
    said = text(YARD, "salvage_yard")
    rack = parse_rack(said, NAME)
    assert [w.name for w in supply(rack, said).wires] == ["3/16 in 7x19 rope"]
    assert len(supply(rack, said, catalog=True).wires) > len(wires.wires())


def test_a_sized_rack_is_cut_from_the_stock() -> None:
    said = text(YARD)
    found = size(said, NAME, ())
    assert found.holds
    check_stock(found.rack, ())
    described = parse_rack(said, NAME)
    for pipe, was in (
        (found.rack.posts.pipe, described.posts.pipe),
        (found.rack.beam.pipe, described.beam.pipe),
    ):
        sizes = (pytest.approx(4 * INCH), pytest.approx(5.563 * INCH))
        assert pipe == was or pipe.od in sizes
    assert "[[stock]]" in found.method
    if found.rack.posts.pipe.od > 5 * INCH:
        assert found.rack.posts.pipe.steel.name == "A53 B"


def test_what_is_described_and_at_hand_must_be_long_enough() -> None:
    """Described post of 4 in nominal, 11 ft 4 in of it: a piece of 8 ft will not do."""
    short = text('[[stock]]\npipe = "4 in nominal"\nlength = "8 ft"\n')
    with pytest.raises(InputError, match="stock: has no 11'-4"):
        size(short, NAME, ())
    longer = f'{short}[[stock]]\npipe = "5 in nominal"\nlength = "20 ft"\n'
    rack = parse_rack(longer, NAME)
    stock = supply(rack, longer)
    bench = Bench(
        text=longer,
        name=NAME,
        bracing=(),
        series=all_series(rack, (), stock),
        limited=stock.limited,
        tell=lambda _: None,
        solved=Tried(bracing=()),
    )
    at_hand = bench.rack(cuttable(bench, bench.start))
    assert at_hand.posts.pipe.od == pytest.approx(5.563 * INCH)


def test_pipe_that_is_not_listed_is_bought_and_wire_may_run_out() -> None:
    rack = changed("boat_shed", more='[[stock]]\npipe = "2 in nominal"\nlength = "1 ft"\n')
    check_stock(rack, ("knees", "guys"))
    for length, enough in (("20 ft", False), ("60 ft", True)):
        coil = f'[[stock]]\nwire = "1/4 in EHS strand"\nlength = "{length}"\n'
        rack = changed("boat_shed", more=coil)
        check_stock(rack, ())
        if enough:
            check_stock(rack, ("guys",))
        else:
            with pytest.raises(FrameError, match="needed"):
                check_stock(rack, ("guys",))


def test_a_spliced_beam_needs_only_its_lengths() -> None:
    rack = changed("boat_shed", ("[rails]", 'splices = ["-3 ft", "3 ft"]\n[rails]'))
    beam = [n / FOOT for p, n in needed(rack, ("knees",)) if p == rack.beam.pipe]
    assert beam == pytest.approx([4 + 1.25 / 12, 6, 4 + 1.25 / 12])
    knees = [n / FOOT for p, n in needed(rack, ("knees",)) if p == rack.knees.pipe]
    assert knees == pytest.approx([2.5 * 2**0.5] * 2)


def can_be_cut(rests: list[float], lengths: list[float]) -> bool:
    """Every way to give each length a piece."""
    for plan in product(range(len(rests)), repeat=len(lengths)):
        used = [
            sum(n for n, p in zip(lengths, plan, strict=True) if p == i)
            + SAW * max(0, plan.count(i) - 1)
            for i in range(len(rests))
        ]
        if all(u <= r for u, r in zip(used, rests, strict=True)):
            return True
    return False


@settings(max_examples=often(50, 200), deadline=None)
@given(
    st.lists(st.floats(1.0, 7.0), min_size=1, max_size=3),
    st.lists(st.floats(0.5, 5.0), min_size=1, max_size=5),
)
def test_no_more_is_cut_than_there_is(rests: list[float], lengths: list[float]) -> None:
    """What the rule of thumb says can be cut, an exhaustive search can cut too."""
    have = [StockPiece(pipe=PIPE, length=r, count=1, entry=0) for r in rests]
    if not first_not_cut(have, lengths):
        assert can_be_cut(rests, lengths)
    if len(lengths) == 1:
        assert bool(first_not_cut(have, lengths)) == (max(rests) < lengths[0])
