"""The gusts of every check, looked at again by brute force: every case at every gust of a grid."""

import numpy as np
import pytest

from frame.loads.combinations import ASD, WHOLE_WIND
from frame.parts.checkers import CHECKERS
from frame.solved.blocks import split
from frame.solved.situation import situation, whole_table
from tests.builders import CASES, MPH, bare_and_all, case_blocks, case_models
from tests.decided import searched
from tests.often import often

CODE = tuple(c for c in ASD if c.wind)
FINE = np.arange(0.0, 201.0, often(10, 5)) * MPH
ACT_BY, LET_GO = "utilisation", "let_go"
SWAYING = "rack", "topples"
ABOUT_TO = 0.8
"""Use of the rack against swaying over from which second order grows five times and more."""
LOOKED_AT = bare_and_all()


def uses(blocks, combinations, speeds, measure) -> dict:
    """Largest use of every check of every part over all blocks and cases, (gusts,) each.

    In the whole wind of the blocks' model where no `combinations` are given.
    """
    found: dict = {}
    for block in blocks:
        table = block.frame.cases(combinations) if combinations else whole_table(block)
        now = situation(block, table, speeds)
        for checker in CHECKERS:
            for part, check in checker(now):
                values = np.nan_to_num(np.atleast_1d(getattr(check, measure)), nan=0.0)
                rows = values.reshape(len(values), -1).max(axis=1)
                rows = np.broadcast_to(rows, (len(now.case),)) if len(rows) == 1 else rows
                worst = rows.reshape(len(speeds), -1).max(axis=1)
                key = part, check.name
                found[key] = np.maximum(found.get(key, 0.0), worst)
    return found


def first_rungs(found, count=12):
    """Checks that go first, by let-go gust."""
    going = {k: g.going.gust for k, g in found.items() if g.going and g.going.gust > 0}
    return sorted(going, key=going.get)[:count]


@pytest.mark.parametrize(("name", "bracing"), LOOKED_AT)
def test_no_gust_of_a_fine_grid_is_lower(name, bracing):
    """From still air to 200 mph a check is under 1 below its gust, nowhere over it.

    Up to where the rack is about to sway over: there a force may grow past a strength and turn
    round between two gusts of the search.
    """
    found = searched(name, bracing)
    for measure, blocks in zip((ACT_BY, LET_GO), split(case_models(name, bracing)), strict=True):
        seen = uses(blocks, (), FINE, measure)
        assert set(seen) <= set(found)
        standing = np.cumsum(seen[SWAYING] > ABOUT_TO) == 0
        for key, use in seen.items():
            going = found[key].going
            lowest = found[key].whole if measure == ACT_BY else going.gust if going else None
            lowest = np.inf if lowest is None else lowest
            assert (use[standing & (lowest * (1 - 1e-9) > FINE)] < 1 + 1e-9).all(), key
            over = FINE[standing & (use >= 1)]
            assert lowest <= over.min(initial=np.inf) * (1 + 1e-9), key
            assert (lowest == 0) == (use[0] >= 1), key


@pytest.mark.parametrize(("name", "bracing"), LOOKED_AT)
def test_use_passes_one_at_the_limit_gust_of_the_codes_combinations(name, bracing):
    """Just under it below 1, just above at least 1, solved with 0.6 W as the code has it."""
    blocks, found = case_blocks(name, bracing), searched(name, bracing)
    rungs = [k for k in first_rungs(found) if found[k].limit]
    limits = np.array([found[k].limit for k in rungs])
    around = np.concatenate([limits * (1 - 1e-6), limits * (1 + 1e-6)])
    seen = uses(blocks, CODE, around, ACT_BY)
    for i, key in enumerate(rungs):
        under, over = seen[key][[i, i + len(rungs)]]
        assert under < 1 <= over, key
        if under > 1 - 1e-3:
            assert over == pytest.approx(1, abs=1e-4), key


@pytest.mark.parametrize(("name", "bracing"), LOOKED_AT)
def test_the_let_go_gust_is_where_the_strength_is_reached(name, bracing):
    """At the gust found the use is 1 within 1e-6 wherever it does not jump."""
    (_, blocks), found = split(case_models(name, bracing)), searched(name, bracing)
    rungs = first_rungs(found)
    at = np.array([found[k].going.gust for k in rungs])
    seen = uses(blocks, (), np.concatenate([at * (1 - 1e-7), at]), LET_GO)
    for i, key in enumerate(rungs):
        under, here = seen[key][[i, i + len(rungs)]]
        assert under < 1 + 1e-9, key
        if here < 1.001:
            assert here == pytest.approx(1, abs=1e-6), key


@pytest.mark.parametrize(("name", "bracing"), LOOKED_AT)
def test_the_order_of_the_ladder_by_brute_force(name, bracing):
    """Going up 6 mph at a time, checks reach their strength in the order of their gusts."""
    (_, blocks), found = split(case_models(name, bracing)), searched(name, bracing)
    speeds = np.arange(2.0, 202.0, 6.0) * MPH
    seen = uses(blocks, (), speeds, LET_GO)
    reached = {k: np.flatnonzero(u >= 1).min(initial=len(speeds)) for k, u in seen.items()}
    going = sorted((found[k].going.gust if found[k].going else np.inf, reached[k]) for k in seen)
    steps = [step for _, step in going]
    assert steps == sorted(steps)


@pytest.mark.parametrize("name", CASES)
def test_twice_the_gust_is_four_times_the_wind_without_guys(name):
    block = case_blocks(name)[0]
    table = block.frame.cases(WHOLE_WIND[:1])
    still, once, twice = (
        block.answer(table.at(block.frame.pressure(g * MPH))).member_forces for g in (0, 50, 100)
    )
    assert np.abs(twice - still - 4 * (once - still)).max() < 1e-9 * np.abs(twice).max()
