"""Tests that share work are run by one worker, or the work is done twice."""

import os

import pytest


@pytest.mark.skipif("PYTEST_XDIST_WORKER" not in os.environ, reason="one process runs them all")
def test_the_group_of_a_test_reaches_the_scheduler(request: pytest.FixtureRequest) -> None:
    """pytest-xdist tells groups apart by what it adds to a test's id behind an @."""
    group = request.node.get_closest_marker("xdist_group").args[0]
    assert request.node.nodeid.endswith(f"@{group}")
