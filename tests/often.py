"""How much is tried at random: enough every day, more where LONG is set in the environment."""

import os

LONG = bool(os.environ.get("LONG"))


def often(every_day: int, long: int) -> int:
    """Return how many examples to try, or every which one."""
    return long if LONG else every_day
