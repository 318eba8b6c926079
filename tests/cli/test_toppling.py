"""Every command on a rack so slender that it sways over: an answer, never a traceback or a NaN."""

import json
import re
from itertools import islice
from pathlib import Path

import pytest
from click.testing import CliRunner

from frame.cli.main import rack
from frame.plan import greedy
from frame.whatif import imperfect, tilts

SLENDER = """
tilts = ["30 deg"]
[site]
map_gust = "115 mph"
flow = "clear"
[panels]
across = 3
up = 2
size = "40 in x 66 in"
weight = "46 lb"
[post]
pipe = "1-1/2 in nominal"
height = "12 ft"
depth = "5 ft"
[beam]
pipe = "3 in nominal"
length = "10 ft"
[knees]
pipe = "1-1/2 in nominal"
drop = "2 ft"
reach = "2 ft"
"""


STEPS = 1
"""Steps of its plan, and errors of building, that are enough to see that they are answered."""


def refused(constant: str) -> None:
    raise AssertionError(f"{constant} in the JSON")


@pytest.mark.parametrize(
    "words",
    [
        "compare --json",
        "check --bracing bare",
        "check --bracing knees --json",
        "gusts --bracing knees -o PICTURE",
        "gusts --bracing knees --json",
        "draw -o PICTURE",
        "draw --bracing knees --tilt 30 --gust 150mph -o PICTURE",
        "model --json",
    ],
)
@pytest.mark.filterwarnings("error")
@pytest.mark.usefixtures("decided_once")
def test_a_rack_that_sways_over_is_answered(
    words: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(greedy, "MOST_STEPS", STEPS)
    monkeypatch.setattr(tilts, "SWEEP", tilts.SWEEP[::4])
    every = imperfect.building_errors
    monkeypatch.setattr(imperfect, "building_errors", lambda *of: islice(every(*of), STEPS))
    file, picture = tmp_path / "slender.toml", tmp_path / "picture.png"
    file.write_text(SLENDER, "utf-8")
    command, *more = words.split()
    asked = [str(picture) if word == "PICTURE" else word for word in more]
    result = CliRunner().invoke(rack, [command, str(file), *asked], catch_exceptions=False)
    assert result.exit_code in (0, 1), result.output
    assert picture.exists() == ("PICTURE" in words)
    if "--json" in words:
        json.loads(result.stdout, parse_constant=refused)
    else:
        assert not re.search(r"\b(nan|inf|NaN|Infinity)\b", result.output)
        # Millions of pounds, inches or per cent are no answer: the rack topples, and is said to.
        assert not re.search(r"\d,\d{3},\d{3}|(?<![\d.])\d{6,} ?%", result.output)
