"""What `rack size` makes of random racks at 90 to 100 mph, by hand: a minute or so a rack.

    .venv/bin/python -m tests.long.sizes_of_random_racks [RACKS [FIRST SEED [SECONDS]]]

Thirty racks where nothing is said, from the generator of the tests, their map gust drawn anew and
their bracing as described. Prints for each whether some rack holds, what it is, and, where none
does, what stops it and the most offered that helps; exit code 1 where fewer than two of three
hold. Stops after so many seconds, if given, and says how many were run.
"""

import re
import sys
import time
from collections import Counter

import numpy as np

from frame.errors import FrameError
from frame.plan.decision import with_bracing
from frame.sizing.size import size
from frame.units import MPH
from tests.random_racks import random_file

LEAST, MOST = 90, 100
SHARE = 2 / 3


def tell(words: str) -> None:
    sys.stdout.write(f"{words}\n")
    sys.stdout.flush()


def windy(seed: int) -> tuple[str, str]:
    """Text and name of a random rack, mapped at 90 to 100 mph."""
    text, name = random_file(seed)
    gust = np.random.default_rng(seed).integers(LEAST, MOST + 1)
    text, _, _ = with_bracing(text, name, None)
    return re.sub(r'map_gust = ".*?"', f'map_gust = "{gust} mph"', text), name


def main(racks: int = 30, first: int = 700, seconds: int = 10**6) -> int:
    """Run, print, and return how many do not hold."""
    began, held, run = time.time(), 0, 0
    stops: Counter[str] = Counter()
    for seed in range(first, first + racks):
        if time.time() - began > seconds:
            break
        text, name = windy(seed)
        since = time.time()
        try:
            found = size(text, name, None)
        except FrameError as error:
            tell(f"{name}: refused: {error}")
            run += 1
            continue
        run, held = run + 1, held + found.holds
        limit = (found.result.limit_gust or 200 * MPH) / MPH
        posts = len(found.rack.posts.positions)
        tell(
            f"{name}: {'HOLDS' if found.holds else 'falls short'} {limit:.0f} of "
            f"{found.rack.site.map_gust / MPH:.0f} mph, {posts} posts, {found.grown[0].words}, "
            f"steel {found.steel[0] / 4.448:.0f} -> {found.steel[1] / 4.448:.0f} lb; "
            f"{time.time() - since:.0f} s"
        )
        for one in found.stopped[:3]:
            stops[one.name] += 1
            tell(f"    {one.name} {one.use:.2f}: {'; '.join(one.most) or 'nothing helps'}")
    tell(f"{held} of {run} hold; stopped by {dict(stops.most_common(6))}")
    return int(held < SHARE * run)


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
