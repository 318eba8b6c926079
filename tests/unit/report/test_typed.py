"""File names as they must be typed."""

import shlex
from pathlib import Path

import pytest

from frame.report.typed import typed


@pytest.mark.parametrize("name", ["rack.toml", "my rack.toml", "a/b c/d.toml", "rack (2).toml"])
def test_a_shell_reads_back_the_name(name: str) -> None:
    """As the standard library splits a line of the POSIX shell."""
    assert shlex.split(f"rack compare {typed(Path(name))}") == ["rack", "compare", name]


def test_plain_names_are_left_alone() -> None:
    assert typed("cases/boat_shed.toml") == "cases/boat_shed.toml"
