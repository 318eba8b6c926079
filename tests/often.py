"""How much is tried at random: enough every day, more where LONG is set in the environment.

Every day the same is tried, so that a run fails by what was changed and not by chance. At length
it is anew each time, by `--hypothesis-seed` if that is given, and the numbered racks are those
from the number in LONG on: `LONG=2000` tries others than `LONG=1`.
"""

import os

LONG = bool(os.environ.get("LONG"))
NUMBER = os.environ.get("LONG", "")
FIRST = int(NUMBER) if NUMBER.isdigit() and NUMBER != "1" else 0
"""Number of the first random rack."""


def often(every_day: int, long: int) -> int:
    """Return how many examples to try, or every which one."""
    return long if LONG else every_day
