"""A rack told in other units than its file's is the same rack, in other words."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from frame.casefile.read import read_rack

CASES = sorted((Path(__file__).parents[3] / "cases").glob("*.toml"))
US = re.compile(r"\d (?:in|ft|lb|mph|psf)\b")
LABEL = re.compile(r"label='[^']*'")
NAME = re.compile(r" ga\b|nominal|strand|rope|round, to")
"""Sizes that are names in the catalog."""
METRIC = re.compile(r"\d (?:mm|kg|kN|N|m/s|kPa)\b")


@pytest.mark.parametrize("path", CASES, ids=lambda p: p.stem)
def test_only_words_change(path):
    us, metric = (read_rack(path, units) for units in ("us", "metric"))
    silent = [repr(replace(r, units="", assumptions=(), warnings=())) for r in (us, metric)]
    one, other = (LABEL.sub("", text) for text in silent)
    assert one == other
    assert len(us.assumptions) == len(metric.assumptions)
    for a, b in zip(us.assumptions, metric.assumptions, strict=True):
        assert not METRIC.search(a.value)
        assert NAME.search(b.value) or not US.search(b.value)
