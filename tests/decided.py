"""Decisions on case files and on random racks, each worked out once for all who ask."""

from functools import cache

from frame.casefile.syntax import read_text
from frame.plan.decision import Decision, decide
from tests.builders import path_of
from tests.random_racks import random_file


def file_of(name: str) -> tuple[str, str]:
    """Text and name of a case file, or of the random one of a seed, as "random 7"."""
    if name.startswith("random "):
        return random_file(int(name.removeprefix("random ")))
    path = path_of(name)
    return read_text(path), path.name


@cache
def decided(name: str) -> Decision:
    """What `rack compare` decides on such a file."""
    return decide(*file_of(name))
