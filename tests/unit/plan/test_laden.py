"""Snow, ice and people, which no gust changes: the plan sees them, and says what it leaves."""

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from frame.casefile.write import edited
from frame.named.limit_state import LimitState
from frame.named.load_kind import LoadKind
from frame.named.part import Edge, Part, PartKind, tie
from frame.plan.standing import Asked, stand
from frame.plan.unmended import unmended_load
from frame.rack.rack import Rack
from frame.report.screen import reached
from frame.report.screen.first import first_screen
from frame.search.laden import Laden, laden
from frame.search.weakest import Limit
from frame.sizing.bench import worst_uses
from frame.solved.blocks import Block, blocks, split
from frame.solved.frames import solve_frames
from frame.units import MPH
from tests.builders import case
from tests.decided import file_of, once


@pytest.mark.parametrize(
    ("use", "carried", "short"),
    [
        (0.5, True, 1.0),
        (1.0, True, 1.0),
        (1.44, False, 1.2),
        # Nothing left of a wall under snow: still a number, which other gains are weighed beside.
        (math.inf, False, math.sqrt(1000)),
    ],
)
def test_strength_short_of_a_load_is_told_as_a_gust_is(
    use: float, carried: bool, short: float
) -> None:
    # Wind goes with the square of its gust: 1.44 times the strength is 1.2 times the gust.
    found = Laden(use)
    assert (found.carried, found.short) == (carried, pytest.approx(short))


def bare(rack: Rack) -> tuple[Block, ...]:
    return blocks(solve_frames(rack, [()], rack.tilts), (), rack.tilts)


def test_more_snow_never_uses_less_and_hardly_any_wind_adds_nothing() -> None:
    rack = case("orchard_wall")
    # Wind of 5 mph is nothing: the worst of every load is the worst of those without it.
    calm = replace(rack.site, map_gust=5 * MPH)
    uses = []
    for snow in (0.0, 2000.0, 4000.0):
        found = bare(replace(rack, site=replace(calm, snow=snow)))
        worst = laden(found)
        every = worst_uses(found)
        assert worst.use == pytest.approx(max(every.values()))
        assert worst.key is not None
        assert every[worst.key] == pytest.approx(worst.use)
        uses.append(worst.use)
    assert uses == sorted(uses)
    assert uses[2] > 1.5 * uses[0]


def test_a_plan_mends_what_snow_alone_breaks() -> None:
    text, name = file_of("wash_house")
    found = once(edited(text, {("site", "snow"): "25 psf"}), name, None)
    plan = found.plan
    assert not plan.start.laden.carried
    assert plan.start.limit_gust >= plan.start.rack.site.map_gust
    assert plan.steps
    assert plan.reached
    assert plan.end.laden.carried
    said = "\n".join(first_screen(found, name))
    assert "margin!: in wind alone" in said
    assert "it has the code's margin for its site" in said
    again = stand(plan.end.text, plan.end.bracing, Asked(name=name, ranged=False))
    assert laden(split(again.blocks)[0]).use == pytest.approx(plan.end.laden.use, rel=1e-6)


def test_what_a_plan_leaves_of_the_snow_is_not_called_wind(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    key = Part(PartKind.RAIL), LimitState.RAIL_BENDING
    end = SimpleNamespace(
        laden=Laden(1.3, key),
        weakest=SimpleNamespace(limit=Limit(50.0, key)),
        rack=SimpleNamespace(),
        passes=False,
        uncovered=frozenset(),
    )
    kind = SimpleNamespace(words="two posts", standing=SimpleNamespace(holds=True))
    plan = SimpleNamespace(steps=(1, 2), reached=False, end=end)
    rack = SimpleNamespace(site=SimpleNamespace(map_gust=100 * MPH, snow=0.0), units="us")
    monkeypatch.setattr(reached, "not_carried", lambda *_: "its snow load, whatever the wind")
    parts = {"rack": rack, "plan": plan, "end": None, "kinds": (kind,)}
    made: Any = SimpleNamespace(**parts, laden_unmended=None)
    said = " ".join(" ".join(reached.reached(made)).split())
    assert said.startswith("After 2 it has the code's margin in wind, mapped at 100 mph, but does")
    assert "does not carry its snow load, whatever the wind: " in said
    assert "Built the same, it would with two posts." in said
    assert "only, not to the" not in said
    assert "Nothing here mends" not in said
    made.laden_unmended = SimpleNamespace(key=key)
    assert ": the rails bend first. Nothing here mends that. Built" in _said(made)
    other = Part(PartKind.PANEL), LimitState.PANEL_RATING
    made.laden_unmended = SimpleNamespace(key=other)
    assert "Nothing here mends this: the panels' own rating is passed." in _said(made)


def _said(made: Any) -> str:
    return " ".join(" ".join(reached.reached(made)).split())


def test_what_nothing_offered_mends_of_a_load_is_found_among_what_fails() -> None:
    """No tie rail is offered in another size, a rail and a beam are."""
    text, name = file_of("hay_barn")
    rack: Any = SimpleNamespace(rack=case(name.removesuffix(".toml")), text=text)

    def row(part: Part, check: LimitState, use: float) -> Any:
        calm = SimpleNamespace(wind=0.0, kind=LoadKind.SNOW)
        known = {"part": part, "check": check, "key": (part, check), "utilisation": use}
        return SimpleNamespace(**known, passes=use <= 1, limit_gust=None, combination=calm)

    rail = row(Part(PartKind.RAIL), LimitState.RAIL_BENDING, 1.9)
    beam = row(Part(PartKind.BEAM), LimitState.INTERACTION, 1.2)
    ties = [row(tie(Edge.LOWER), LimitState.TIE_RAIL, use) for use in (0.8, 1.1, 1.4)]
    end: Any = SimpleNamespace(rows=(rail, *ties, beam))
    assert unmended_load(rack, end) is ties[2]
    end.rows = (rail, ties[0], beam)
    assert unmended_load(rack, end) is None
