"""Settings of every test run: one thread, no screen, few examples, every day the same."""

import gc
import os
from collections.abc import Iterator

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
os.environ.setdefault("MPLBACKEND", "Agg")

import pytest
from hypothesis import HealthCheck, settings
from hypothesis.internal.conjecture import providers

from tests.often import LONG, often

settings.register_profile(
    "desk",
    max_examples=often(15, 100),
    deadline=None,
    derandomize=not LONG,
    database=None,
    print_blob=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("desk")
if not LONG and hasattr(providers, "_get_local_constants"):
    # Else examples would depend on which modules are loaded by then, so on the order of tests.
    providers._get_local_constants = lambda: providers._local_constants


MUCH = 2
"""Times that the collection of garbage has looked at what is kept, to look at it no more."""
SHARED = {"decided", "beside", "studied", "searched", "case_models", "case_blocks"}
"""What is worked out once a rack, by its name."""
FIRST = (
    "boat_shed",
    "hay_barn",
    "salvage_yard",
    "fifteen_lines",
    "orchard_wall",
    "sized lines",
    "tests/cli/test_toppling.py",
    "wash_house",
    "tests/unit/diagnosis/test_diagnosis.py",
    "tests/cli/test_draw.py",
    "odd page",
    "tests/property/test_expected_laws.py",
    "tests/unit/sizing/test_arrangements.py",
)
"""Groups that take longest, begun first, so that all workers end at about the same time."""


@pytest.fixture
def decided_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Work out once what is decided on a file, for all commands and tests that ask for it."""
    from tests.decided import share

    share(monkeypatch)


@pytest.fixture(scope="module")
def solved_once() -> Iterator[None]:
    """Share as `decided_once` does, all through a module, its fixtures included."""
    from tests.decided import share

    with pytest.MonkeyPatch.context() as patch:
        share(patch)
        yield


def pytest_collection_finish() -> None:
    """Let no collection of garbage look again at thousands of tests: they stay to the end.

    Nor so often at the racks solved, which are kept for the tests of one rack and are many.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(100_000, 30, 30)


@pytest.hookimpl(trylast=True)
def pytest_runtest_teardown(item: pytest.Item, nextitem: pytest.Item | None) -> None:
    """Nor again at what a module has left behind, once that is much."""
    if (nextitem is None or nextitem.path != item.path) and gc.get_count()[2] > MUCH:
        gc.freeze()


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Keep tests that share work on one worker: those of one rack, else those of one file.

    Groups are handed out in the order of `FIRST`, then of the files.
    """
    places = {}
    for item in items:
        asked = getattr(item, "callspec", None)
        rack = asked and SHARED & vars(item.module).keys() and asked.params.get("name")
        if not item.get_closest_marker("xdist_group"):
            group = rack or item.path.relative_to(item.config.rootpath)
            item.add_marker(pytest.mark.xdist_group(str(group)))
        name = item.get_closest_marker("xdist_group").args[0]
        places[item] = FIRST.index(name) if name in FIRST else len(FIRST)
    items.sort(key=places.__getitem__)
