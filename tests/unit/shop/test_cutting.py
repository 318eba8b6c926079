"""The cut plan against brute force on small piles, and its laws on random ones."""

import time
from collections.abc import Iterable
from itertools import product

import numpy as np
import pytest
from scipy.optimize import linprog

from frame.shop.cutting.best import best_plan
from frame.shop.cutting.pile import CutPlan, Need, Pile, Stick
from tests.unit.shop.piles import faults, random_pile

Choice = tuple[int, ...]


def choices(pile: Pile, need: Need) -> list[Choice]:
    """Every way to make a need: (bin), or (bin, bin, zone) with one splice."""
    bins = pile.bins()
    good = [b for b, (s, _) in enumerate(bins) if s in need.fits]
    whole = [(b,) for b in good]
    both = need.fits if need.joins is None else need.joins
    good = [b for b in good if bins[b][0] in both]
    return whole + [(a, b, z) for a in good for b in good for z in range(len(need.zones))]


def feasible(pile: Pile, picked: tuple[Choice, ...]) -> bool:
    """Whether splices can be placed so that every stretch holds its parts: a linear program."""
    bins = pile.bins()
    free = [i for i, c in enumerate(picked) if len(c) == 3]
    used = np.zeros((len(bins), len(free)))
    fixed = np.zeros(len(bins))
    bounds = []
    for i, choice in enumerate(picked):
        need = pile.needs[i]
        if len(choice) == 1:
            fixed[choice[0]] += need.length + pile.kerf
            continue
        first, second, zone = choice
        k = free.index(i)
        used[first, k] += 1
        used[second, k] -= 1
        fixed[first] += pile.kerf
        fixed[second] += need.length + pile.kerf
        low, high = need.zones[zone]
        bounds.append((max(low, pile.least), min(high, need.length - pile.least)))
    room = np.array([b - a + pile.kerf for _, (a, b) in bins]) - fixed
    if not free:
        return bool(np.all(room >= -1e-9))
    if any(a > b for a, b in bounds):
        return False
    low, high = np.array(bounds).T
    least = np.where(used > 0, used * low, used * high).sum(axis=1)
    if np.any(least > room + 1e-9):
        return False
    found = linprog(np.zeros(len(free)), A_ub=used, b_ub=room + 1e-9, bounds=bounds)
    return found.status == 0


def brute(pile: Pile) -> tuple[int, int, float] | None:
    """Return the least (bought, splices, money) of all ways there are."""
    bins = pile.bins()
    ranked = []
    for picked in product(*(choices(pile, n) for n in pile.needs)):
        sticks = {bins[b][0] for c in picked for b in c[:2]}
        bought = sum(not pile.sticks[s].at_hand for s in sticks)
        splices = sum(len(c) == 3 for c in picked)
        ranked.append(((bought, splices, sum(pile.sticks[s].cost for s in sticks)), picked))
    ranked.sort(key=lambda r: r[0])
    return next((rank for rank, picked in ranked if feasible(pile, picked)), None)


SPLICED = (15, 17, 24, 33, 36, 45, 47, 54)
"""Piles of which the best plan has splices; all of sixty are in `tests/long`."""


@pytest.mark.parametrize("seed", [0, 3, 5, 6, 8, 9, 12, *SPLICED])
def test_small_piles_are_cut_as_brute_force_finds(seed: int) -> None:
    plan = assert_as_brute_force(seed)
    assert seed not in SPLICED or plan.splices


def assert_as_brute_force(seed: int) -> CutPlan | None:
    """Look at every way there is to cut three pieces from two to four sticks."""
    sticks = 3 if seed > 13 else 2 + seed % 2
    pile = random_pile(seed, needs=3, sticks=sticks, new=seed % 3 == 0)
    best, plan = brute(pile), best_plan(pile, seconds=20)
    if best is None:
        assert plan is None
        return None
    assert plan is not None
    assert plan.proved
    assert (plan.bought, plan.splices, round(plan.money, 6)) == (*best[:2], round(best[2], 6))
    assert not faults(pile, plan)
    return plan


def test_random_piles_never_break_a_rule() -> None:
    made, spliced = count_of_plans(range(24))
    assert made > 17
    assert spliced > 1


def count_of_plans(seeds: Iterable[int]) -> tuple[int, int]:
    """Cut random piles; count those with a plan and those with splices, none with a fault."""
    made = spliced = 0
    for seed in seeds:
        pile = random_pile(seed, needs=4, sticks=4, new=2, most=2)
        plan = best_plan(pile, seconds=0.3)
        if plan is None:
            continue
        made += 1
        spliced += plan.splices > 0
        assert not faults(pile, plan), seed
        assert plan.bound[0] <= plan.bought
    return made, spliced


def test_sixty_of_sixty_within_the_time_with_a_bound() -> None:
    assert_in_time(seconds=4, most=6)


def assert_in_time(seconds: float, most: float) -> None:
    """Cut sixty pieces from sixty sticks, stopped early: no fault, and a bound on what is lost."""
    pile = random_pile(3, needs=60, sticks=60, new=20, most=2)
    told: list[str] = []
    start = time.monotonic()
    plan = best_plan(pile, told.append, seconds=seconds)
    assert time.monotonic() - start < most
    assert plan is not None
    assert told
    assert not faults(pile, plan)
    assert plan.bound <= (plan.bought, plan.splices, plan.money)


def test_a_kerf_is_paid_between_parts_and_not_at_the_end() -> None:
    def pile(length: float) -> Pile:
        needs = tuple(Need(name=f"p{i}", length=1.0, fits=frozenset({0})) for i in range(3))
        return Pile(needs=needs, sticks=(Stick(name="s", length=length),), kerf=0.003, least=0.3)

    assert best_plan(pile(3.006)) is not None
    assert best_plan(pile(3.005)) is None


def test_the_longest_leftover_stays_in_one_piece() -> None:
    """Two pieces of 1 m, two sticks opened anyway by two of 2 m: both go into the same stick."""
    sticks = tuple(Stick(name=f"s{i}", length=4.1) for i in range(2))
    needs = [
        Need(name="a", length=2.2, fits=frozenset({0})),
        Need(name="b", length=2.2, fits=frozenset({1})),
    ]
    needs += [Need(name=f"c{i}", length=0.9, fits=frozenset({0, 1})) for i in range(2)]
    plan = best_plan(Pile(needs=tuple(needs), sticks=sticks, kerf=0.003, least=0.3))
    assert plan is not None
    small = [c.stick for c in plan.cuts if c.need >= 2]
    assert len(set(small)) == 1


def test_a_new_length_is_left_long_where_the_pile_gives_the_short_pieces() -> None:
    """4 m must come from the new 8 m; of three of 1 m two come from the old stick of 2.1 m."""
    sticks = (Stick(name="old", length=2.1), Stick(name="new", length=8.0, at_hand=False))
    needs = [Need(name="long", length=4.0, fits=frozenset({1}))]
    needs += [Need(name=f"c{i}", length=1.0, fits=frozenset({0, 1})) for i in range(3)]
    plan = best_plan(Pile(needs=tuple(needs), sticks=sticks, kerf=0.003, least=0.3))
    assert plan is not None
    assert plan.bought == 1
    assert sorted(c.stick for c in plan.cuts if c.need) == [0, 0, 1]


def test_the_weak_stick_goes_where_least_is_carried() -> None:
    sticks = (
        Stick(name="weak", length=2.1, strength=0.8),
        Stick(name="strong", length=2.1),
    )
    both = frozenset({0, 1})
    for loads in ((0.3, 0.7), (0.7, 0.3)):
        needs = tuple(
            Need(name=f"p{i}", length=2.0, fits=both, load=load) for i, load in enumerate(loads)
        )
        plan = best_plan(Pile(needs=needs, sticks=sticks, kerf=0.003, least=0.3))
        assert plan is not None
        (weak,) = [c.need for c in plan.cuts if c.stick == 0]
        assert loads[weak] == 0.3
