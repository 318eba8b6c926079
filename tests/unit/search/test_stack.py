"""Checks worked out for many blocks at once: the same numbers as block by block."""

from dataclasses import replace

import numpy as np
import pytest

from frame.loads.combinations import WHOLE_WIND
from frame.parts.checker import Alike
from frame.parts.checkers import CHECKERS
from frame.rack.guy import BLOCK, DEADMAN, PICKETS, RAIL_CORNERS, ROCK, SCREW, Anchor
from frame.search.governing import by_case
from frame.search.searched import Search
from frame.search.stack import stacked, whole
from frame.solved.frames import stiff_part
from frame.solved.situation import at_gusts, fixed
from tests.builders import FOOT, INCH, MPH, POUND, blocks_of, case, case_blocks

RACKS = [
    ("boat_shed", ("knees", "guys")),
    ("wash_house", ("knees", "ties")),
    ("salvage_yard", ("post-top guys", "corner guys")),
    ("fifteen_lines", ()),
]
ANCHORS = [
    (DEADMAN, Anchor(depth=4 * FOOT, height=8 * INCH, length=3 * FOOT)),
    (BLOCK, Anchor(weight=600 * POUND, height=0.5, length=0.5)),
    (PICKETS, Anchor(holdfast="3-2-1")),
    (ROCK, Anchor(size=2 * INCH, length=24 * INCH)),
    (SCREW, Anchor(tested=3000 * POUND)),
]


def uses(check, count):
    return [by_case(np.atleast_1d(u), count) for u in (check.utilisation, check.let_go)]


@pytest.mark.parametrize(("name", "bracing"), RACKS)
def test_cases_of_many_blocks_give_what_each_block_gives(name, bracing):
    """Among them the blocks of the bracing without its guys."""
    assert_same_together(
        tuple(
            b
            for some in dict.fromkeys((bracing, stiff_part(bracing)))
            for b in case_blocks(name, some)
        )
    )


@pytest.mark.parametrize(("kind", "hold"), ANCHORS)
def test_guys_whose_slope_changes_with_the_tilt_and_splices_are_the_same_too(kind, hold):
    """Guys from the rail corners: at some tilts too steep for pickets."""
    rack = case("salvage_yard")
    corner = next(g for g in rack.guys if g.attach == RAIL_CORNERS)
    eye = {"fitting": "eye bolt, forged", "fitting_size": 3 / 8 * INCH}
    guys = replace(corner, anchor=kind, hold=hold, out=11 * FOOT, along=4 * FOOT, **eye)
    beam = replace(rack.beam, splices=(0.0, 10 * INCH))
    assert_same_together(blocks_of(replace(rack, guys=(guys,), beam=beam), (guys.name,)))


def assert_same_together(blocks):
    """Rows of all blocks mixed in a random order, many at the same gust, every check."""
    tables = [b.frame.cases(WHOLE_WIND) for b in blocks]
    draw = np.random.default_rng(3)
    count = 40 * len(blocks)
    block = draw.integers(0, len(blocks), count)
    case = draw.integers(0, min(len(t.labels) for t in tables), count)
    gust = draw.integers(0, 12, count) * 6.3 * MPH
    together = whole(blocks, tables, block, case, gust)
    for checker in CHECKERS:
        seen = np.zeros(count, dtype=int)
        for rows, which, now in together.groups(checker, np.arange(count)):
            seen[rows] += 1
            found = {
                (part, c.name): [use[which] for use in uses(c, len(now.case))]
                for part, c in checker(now)
            }
            for i in np.unique(block[rows]):
                mine = block[rows] == i
                at = rows[mine]
                alone = at_gusts(blocks[i], tables[i], case[at], gust[at])
                for part, check in checker(alone):
                    for whole_use, own in zip(
                        found[part, check.name], uses(check, len(at)), strict=True
                    ):
                        np.testing.assert_allclose(whole_use[mine], own, rtol=1e-9, atol=1e-12)
        assert (seen == 1).all()


def test_a_checker_not_said_to_be_alike_gets_one_block_at_a_time():
    blocks = case_blocks("fifteen_lines")
    tables = [b.frame.cases(WHOLE_WIND) for b in blocks]
    block = np.repeat(np.arange(len(blocks)), 2)
    some = whole(blocks, tables, block, 0 * block, 20.0 + 0 * block)

    def plain(now):
        yield from ()

    assert len(list(some.groups(plain, np.arange(len(block))))) == len(blocks)
    assert len(list(some.groups(Alike(plain), np.arange(len(block))))) == 1


def test_guys_too_steep_for_pickets_at_one_tilt_are_not_covered_at_that_tilt_alone():
    rack = case("salvage_yard")
    corner = next(g for g in rack.guys if g.attach == RAIL_CORNERS)
    kind, hold = ANCHORS[2]
    guys = replace(corner, anchor=kind, hold=hold, out=11 * FOOT, along=4 * FOOT)
    blocks = blocks_of(replace(rack, guys=(guys,)), (guys.name,))
    nows = [fixed(block) for block in blocks]
    together, start = Search.of(blocks).used(stacked(nows)), 0
    for block, now in zip(blocks, nows, strict=True):
        mine = slice(start, start := start + len(now.case))
        for key, own in Search.of([block]).used(stacked([now])).items():
            assert (together[key].covered[mine] == own.covered).all(), key
