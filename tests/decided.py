"""What commands find of case files and of random racks, each worked out once for all who ask."""

from functools import cache

import pytest

from frame.casefile.syntax import read_text
from frame.draw import whats
from frame.page import page
from frame.plan import decision, second_process
from frame.plan.decision import Decision, decide
from frame.records.results import Study
from frame.verdict.compare import compare
from tests.builders import case, path_of
from tests.random_racks import random_file


def file_of(name: str) -> tuple[str, str]:
    """Text and name of a case file, or of the random one of a seed, as "random 7"."""
    if name.startswith("random "):
        return random_file(int(name.removeprefix("random ")))
    path = path_of(name)
    return read_text(path), path.name


@cache
def once(text: str, name: str, units: str | None) -> Decision:
    """What `rack compare` decides on a file, worked out once for all who ask."""
    return decide(text, name, units)


def decide_once(text: str, name: str, units: str | None = None, **_how: object) -> Decision:
    """Stand in for `decide`, however it is to go about it."""
    return once(text, name, units)


def share(patch: pytest.MonkeyPatch) -> None:
    """Let commands take a decision from here, and work in this process alone."""
    for module in (decision, whats):
        patch.setattr(module, "decide", decide_once)
    for module in (second_process, whats, page):
        patch.setattr(module, "processes", lambda: 1)


@cache
def studied(name: str) -> Study:
    """Every bracing of a case file side by side."""
    return compare(case(name))


def decided(name: str) -> Decision:
    """What `rack compare` decides on a case file or a random one."""
    return once(*file_of(name), None)
