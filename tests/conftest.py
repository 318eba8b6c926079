"""Settings of every test run: one thread, no screen, few examples at the desk."""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
os.environ.setdefault("MPLBACKEND", "Agg")

import pytest
from hypothesis import HealthCheck, settings

settings.register_profile(
    "desk", max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile("ci", settings.get_profile("desk"), derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Keep tests of the same rack's decision on one worker, which works it out once."""
    for item in items:
        asked = getattr(item, "callspec", None)
        if asked and "name" in asked.params and hasattr(getattr(item, "module", None), "decided"):
            item.add_marker(pytest.mark.xdist_group(str(asked.params["name"])))
