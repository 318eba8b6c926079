"""What `rack size` makes of random racks at 90 to 100 mph, by hand: a minute or so a rack.

    .venv/bin/python -m tests.long.sizes_of_random_racks [RACKS [FIRST SEED [SECONDS]]]

Thirty racks where nothing is said, from the generator of the tests, their map gust drawn anew and
their bracing as described. Prints for each whether some rack holds, what it is, how far the plan
comes, and, where none does, what stops it and the most offered that helps; exit code 1 where fewer
than two of three hold, or where the plan comes further. Stops after so many seconds, if given, and
says how many were run.
"""

import re
import sys
import time
from collections import Counter

import numpy as np

from frame.casefile.read import parse_rack
from frame.errors import FrameError
from frame.plan.decision import as_it_is, begun_from, with_bracing
from frame.plan.greedy import make_plan
from frame.plan.standing import Asked, Standing, stand
from frame.sizing.begun import Begun
from frame.sizing.size import Sized, size
from frame.units import MPH
from tests.random_racks import random_file

LEAST, MOST = 90, 100
SHARE = 2 / 3
LESS = 1e-3


def tell(words: str) -> None:
    sys.stdout.write(f"{words}\n")
    sys.stdout.flush()


def windy(seed: int) -> tuple[str, str]:
    """Text and name of a random rack, mapped at 90 to 100 mph."""
    text, name = random_file(seed)
    gust = np.random.default_rng(seed).integers(LEAST, MOST + 1)
    text, _, _ = with_bracing(text, name, None)
    return re.sub(r'map_gust = ".*?"', f'map_gust = "{gust} mph"', text), name


def planned(text: str, name: str) -> tuple[Standing, Begun]:
    """The end of a rack's plan, and the same to begin a search from."""
    rack = parse_rack(text, name)
    asked = Asked(name=name, read=rack, ranged=False)
    plan, end = make_plan(stand(text, as_it_is(rack), asked), asked)
    return end, begun_from(plan)


def worse(found: Sized, end: Standing) -> bool:
    """Whether what was found holds less than the plan's end: no gust beyond the site's counts."""
    site = end.rack.site.map_gust
    limit = min(found.result.limit_gust or site, site)
    return (end.holds and not found.holds) or limit < (1 - LESS) * min(end.limit_gust, site)


def main(racks: int = 30, first: int = 700, seconds: int = 10**6) -> int:
    """Run, print, and return how many do not hold."""
    began, held, run, behind = time.time(), 0, 0, 0
    stops: Counter[str] = Counter()
    for seed in range(first, first + racks):
        if time.time() - began > seconds:
            break
        text, name = windy(seed)
        since = time.time()
        try:
            end, begun = planned(text, name)
            found = size(text, name, None, begun=begun)
        except FrameError as error:
            tell(f"{name}: refused: {error}")
            run += 1
            continue
        run, held, behind = run + 1, held + found.holds, behind + worse(found, end)
        limit = (found.result.limit_gust or 200 * MPH) / MPH
        posts = len(found.rack.posts.positions)
        tell(
            f"{name}: {'HOLDS' if found.holds else 'falls short'} {limit:.0f} of "
            f"{found.rack.site.map_gust / MPH:.0f} mph (plan {end.limit_gust / MPH:.0f}"
            f"{', WORSE' if worse(found, end) else ''}), {posts} posts, {found.grown[0].words}, "
            f"steel {found.steel[0] / 4.448:.0f} -> {found.steel[1] / 4.448:.0f} lb; "
            f"{time.time() - since:.0f} s"
        )
        for one in found.stopped[:3]:
            stops[one.name] += 1
            tell(f"    {one.name} {one.use:.2f}: {'; '.join(one.most) or 'nothing helps'}")
    tell(f"{held} of {run} hold, {behind} worse than the plan")
    tell(f"stopped by {dict(stops.most_common(6))}")
    return int(held < SHARE * run or behind > 0)


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
