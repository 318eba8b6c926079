"""A browser without a screen, as Debian packages it: pages are read in it as a reader has them."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from importlib.util import find_spec

import pytest

BINARY = shutil.which("chromium") or shutil.which("chromium-browser")
FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip
WHY = "no chromium (apt-get install chromium) or no playwright: nothing is read in a browser"
needs_chromium = pytest.mark.skipif(BINARY is None or not find_spec("playwright"), reason=WHY)


@dataclass
class Heard:
    """What a page asked for and complained about."""

    asked: list[str] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)


@contextmanager
def browser() -> Iterator:
    """Start the browser, and end it."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as played:
        started = played.chromium.launch(executable_path=BINARY, args=list(FLAGS))
        try:
            yield started
        finally:
            started.close()


def opened(started, path, **how):
    """Open the file of a page; return it and what is heard of it."""
    heard = Heard()
    page = started.new_page(**how)
    page.on("request", lambda r: heard.asked.append(r.url))
    page.on("console", lambda m: heard.errors.append(m.text) if m.type != "log" else None)
    page.on("pageerror", lambda e: heard.errors.append(str(e)))
    page.goto(path.as_uri())
    return page, heard
