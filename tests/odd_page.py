"""A page of a rack with an odd name, made once for all who read it."""

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from click.testing import CliRunner

from frame.cli.main import rack
from frame.plan.decision import Decision
from tests.builders import path_of
from tests.decided import decide_once, share

NAME = '<b>"R&D"</b> $x^2$ {{ 7 * 6 }} שלום 😀'
TEXT = path_of("wash_house").read_text("utf-8").replace('"wash house"', f"'{NAME}'")


@cache
def odd_page() -> str:
    """What `rack page` writes of it."""
    with TemporaryDirectory() as folder, pytest.MonkeyPatch.context() as patch:
        share(patch)
        file = Path(folder) / "odd.toml"
        file.write_text(TEXT, "utf-8")
        done = CliRunner().invoke(rack, ["page", str(file)], catch_exceptions=False)
        assert done.exit_code == 0, done.output
        assert done.output == f"Wrote {file.with_suffix('.html')}.\n"
        return file.with_suffix(".html").read_text("utf-8")


def odd_decision() -> Decision:
    """What `rack compare` decides on it."""
    return decide_once(TEXT, "odd.toml")
