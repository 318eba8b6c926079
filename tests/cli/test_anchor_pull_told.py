"""The pull test of an anchor as it is printed: 1.5 times the greatest pull that is printed.

24 CFR 3285.402 tests anchors to 1.5 times the working load. The rack has pickets under guys that
are too steep for them, of which nothing is known, and deadmen that stood a pull in dry ground.
"""

import re
from dataclasses import replace
from functools import cache
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from frame.casefile.read import parse_rack
from frame.named.part import anchor
from frame.rack.rack import Rack
from frame.records.results import BracingResult
from frame.report.data.bracing import bracing_data
from frame.report.screen.lines import guy_paragraph
from frame.shop.ground import Ground
from frame.shop.job_words import proof_words
from frame.shop.yard.lines import guy_lines
from frame.verdict.inspect import inspect
from tests.builders import POUND
from tests.cli.conftest import RACK

GUYS = (
    RACK.replace('"clay"', '"sand"').partition("[[guys]]")[0]
    + """
[[guys]]
from = "post top"
wire = "1/4 in EHS strand"
out = "4 ft"
along = "4 ft"
anchor = { kind = "pickets", pickets = "1-1" }
[[guys]]
from = "beam ends"
wire = "1/4 in EHS strand"
out = "5 ft"
along = "1 ft"
anchor = { kind = "deadman", tested = "2000 lb", tested_in = "dry" }
"""
)


@cache
def guyed() -> tuple[Rack, BracingResult]:
    rack = parse_rack(GUYS, "guyed.toml")
    return rack, inspect(rack, tuple(g.name for g in rack.guys)).result


def greatest(result: BracingResult, group: str = "") -> float:
    return max(g.tension for g in result.guys if group in ("", g.name.group))


def pounds(text: str) -> list[float]:
    return [float(n.replace(",", "")) for n in re.findall(r"([\d,]+) lb", text)]


def to_two_figures(force: float) -> float:
    return float(f"{force / POUND:.1e}")


def screen(rack: Rack, result: BracingResult) -> str:
    end = SimpleNamespace(rack=rack, bracing=result.bracing)
    decision: Any = SimpleNamespace(end=result, plan=SimpleNamespace(end=end))
    return " ".join(line.strip() for line in guy_paragraph(decision))


def job(rack: Rack, result: BracingResult) -> Any:
    lines = guy_lines(rack, result.bracing, Ground())
    return SimpleNamespace(rack=rack, result=result, lines=lines)


def test_nothing_is_known_of_the_pickets() -> None:
    """Pickets are not for guys over 25 deg: no case of theirs has a use to be the worst by."""
    _, result = guyed()
    rows = [r for r in result.rows if str(r.check).startswith("anchor")]
    pulls = {anchor(g.name): g.tension for g in result.guys}
    unknown = [r for r in rows if not r.covered]
    assert len(unknown) == 4
    assert all(r.utilisation == 0 and r.demand < 0.5 * pulls[r.part] for r in unknown)


def test_the_screen_the_json_and_the_sheet_tell_half_as_much_again_as_the_greatest_pull() -> None:
    rack, result = guyed()
    pull, test = pounds(screen(rack, result))[0], pounds(screen(rack, result))[-1]
    assert pull == to_two_figures(greatest(result))
    assert test == to_two_figures(1.5 * greatest(result))
    data = bracing_data(rack, result)
    for guy, held in zip(data["guys"], data["anchors"], strict=True):
        assert held["proof_pull"] == pytest.approx(1.5 * guy["tension"])
        assert held["pull"] == guy["tension"]
    for said, group in zip(proof_words(job(rack, result)), rack.guys, strict=True):
        test, pull = pounds(said)
        assert pull == to_two_figures(greatest(result, group.name)), group.name
        assert test == to_two_figures(1.5 * greatest(result, group.name))


def test_a_rack_that_sways_over_is_told_no_pull_test() -> None:
    rack, result = guyed()
    endless = replace(result, guys=tuple(replace(g, tension=np.inf) for g in result.guys))
    assert "no pull test is told" in screen(rack, endless)
    for said in proof_words(job(rack, endless)):
        assert "none is told" in said
        assert not pounds(said)
