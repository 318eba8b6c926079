"""The plan against every combination on small random racks, by hand: some minutes.

    .venv/bin/python -m tests.long.greedy_against_all [RACKS [COMBINATIONS [FIRST SEED]]]

Twenty racks of one or two posts and 96 combinations each where nothing is said. Prints how far
each plan's first break falls short of the best and how much dearer it is than the cheapest as
good; exit code 1 where a first break falls short by more than 5 %.
"""

import sys
import time

from frame.plan.decision import as_it_is, with_bracing
from frame.plan.exhaustive import exhausted
from frame.plan.greedy import make_plan
from frame.plan.standing import Asked, stand
from frame.search.weakest import learned_of
from frame.units import MPH
from tests.random_racks import random_file

MOST_BEHIND = 0.05
MOST_POSTS = 2


def tell(words: str) -> None:
    sys.stdout.write(f"{words}\n")
    sys.stdout.flush()


def main(racks: int = 20, combinations: int = 96, seed: int = 500) -> int:
    """Run, print, and return how many plans are too far behind."""
    worst: list[float] = []
    dear: list[float] = []
    while len(worst) < racks:
        seed += 1
        text, name = random_file(seed)
        text, rack, _ = with_bracing(text, name, None)
        if len(rack.posts.positions) > MOST_POSTS:
            continue
        began = time.time()
        asked = Asked(name=name, learned=learned_of(rack), read=rack)
        plan, _ = make_plan(stand(text, as_it_is(rack), asked), asked)
        found = exhausted(text, name, None, plan, most=combinations)
        worst.append(found.behind)
        dear.append(found.dearer)
        mine, best = (c.found.first_break / MPH for c in (found.plan, found.best))
        said = "" if found.some_holds == plan.reached else "; MISSES one that holds"
        tell(
            f"{name}: {found.tried} tried, breaks at {mine:.0f}, best {best:.0f} mph, behind "
            f"{found.behind:.3f}, price {found.dearer:.2f} of the cheapest{said}; "
            f"{time.time() - began:.0f} s"
        )
        if found.behind > MOST_BEHIND:
            tell(f"  plan {found.plan.do}\n  best {found.best.do}")
    far = sum(behind > MOST_BEHIND for behind in worst)
    tell(
        f"{racks} racks: {far} behind by more than {100 * MOST_BEHIND:.0f} %, most "
        f"{max(worst):.3f}; price over the cheapest: mean {sum(dear) / racks:.2f}, most "
        f"{max(dear):.2f}"
    )
    return far


if __name__ == "__main__":
    sys.exit(min(main(*map(int, sys.argv[1:])), 1))
