"""One browser for all pages: to start it takes longer than to read most of them."""

from collections.abc import Iterator

import pytest

from tests.browser.chromium import browser


@pytest.fixture(scope="package")
def started() -> Iterator:
    with browser() as one:
        yield one
