"""Checks worked out for many blocks at once: the same numbers as block by block."""

import numpy as np
import pytest

from frame.loads.cases import WHOLE_WIND
from frame.study.checkers import CHECKERS
from frame.study.frames import stiff_part
from frame.study.governing import by_case
from frame.study.situation import at_gusts
from frame.study.stack import Alike, whole
from tests.builders import MPH, case_blocks

RACKS = [
    ("boat_shed", ("knees", "guys")),
    ("wash_house", ("knees", "ties")),
    ("salvage_yard", ("post-top guys", "corner guys")),
    ("fifteen_lines", ()),
]


def uses(check, count):
    return [by_case(np.atleast_1d(u), count) for u in (check.utilisation, check.let_go)]


@pytest.mark.parametrize(("name", "bracing"), RACKS)
def test_cases_of_many_blocks_give_what_each_block_gives(name, bracing):
    """Rows of all blocks mixed in a random order, every check, at gusts from still air up.

    Among them those of the bracing without its guys.
    """
    blocks = tuple(
        b
        for some in dict.fromkeys((bracing, stiff_part(bracing)))
        for b in case_blocks(name, some)
    )
    tables = [b.frame.cases(WHOLE_WIND) for b in blocks]
    draw = np.random.default_rng(3)
    count = 40 * len(blocks)
    block = draw.integers(0, len(blocks), count)
    case = draw.integers(0, min(len(t.labels) for t in tables), count)
    gust = draw.uniform(0, 70 * MPH, count) * (draw.uniform(size=count) > 0.1)
    together = whole(blocks, tables, block, case, gust)
    for checker in CHECKERS:
        seen = np.zeros(count, dtype=int)
        for rows, now in together.groups(checker, np.arange(count)):
            seen[rows] += 1
            found = {(part, c.name): uses(c, len(rows)) for part, c in checker(now)}
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
