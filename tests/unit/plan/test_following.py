"""Doing what a plan says, in the file, gives what the plan promised; and nothing is said twice."""

import math

import pytest

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.plan.decision import with_bracing
from frame.report.data.plan_data import plan_data
from frame.units import MPH
from frame.verdict.compare import compare
from tests.decided import LONG_PLANS, decided, file_of
from tests.often import LONG

FOLLOWED = ("fifteen_lines", "orchard_wall")
PLANNED = (*FOLLOWED, "boat_shed", *(("random 0", "random 1") if LONG else ()))


def after_last(name: str) -> str:
    """The file with the edits of every step of its plan made, as the JSON tells them."""
    text, _, _ = with_bracing(*file_of(name), None)
    for step in plan_data(decided(name))["plan"]:
        for edit in step["edits"]:
            text = edited(text, {(edit["section"], edit["key"]): edit["value"]})
    return text


@pytest.mark.parametrize("name", FOLLOWED)
def test_following_the_plan_gives_the_gusts_promised(name: str) -> None:
    """Compared afresh from the changed file, by the search of `compare`: within 1 mph."""
    promised = plan_data(decided(name))["plan"][-1]
    found = compare(parse_rack(after_last(name), name), knees=False)
    end = next(r for r in found.results if list(r.bracing) == promised["bracing"])
    for key in ("first_slip", "first_break"):
        going, told = getattr(end, key), promised[key]
        assert (going is None) == (told is None)
        if going:
            assert (going.part, going.check) == (told["part"], told["check"])
            assert going.gust == pytest.approx(told["gust"], abs=MPH)
            if file_of(name)[1] not in LONG_PLANS:
                assert going.low == pytest.approx(told["low"], abs=MPH)
    limit = math.inf if promised["limit_gust"] is None else promised["limit_gust"]
    assert (end.limit_gust or math.inf) == pytest.approx(limit, abs=MPH)
    assert end.sag.dead == pytest.approx(promised["sag"], abs=1e-5)
    assert end.sway.top == pytest.approx(promised["sway"], rel=1e-3)
    assert end.holds == promised["holds"]


@pytest.mark.parametrize("name", PLANNED)
def test_no_step_undoes_or_repeats_another(name: str) -> None:
    steps = plan_data(decided(name))["plan"]
    keys = [(e["section"], e["key"]) for step in steps for e in step["edits"]]
    assert len(keys) == len(set(keys))
    fitted = [one for step in steps for one in step["names"]]
    assert len(fitted) == len(set(fitted))
    assert all(step["edits"] or step["names"] for step in steps)


@pytest.mark.parametrize("name", PLANNED)
def test_the_post_is_dug_for_once(name: str) -> None:
    """A post set deeper and then exchanged for a bigger one would be set twice."""
    digs = [
        any(o.digs and any(section == "post" for section, _ in o.edits) for o in step.made)
        for step in decided(name).plan.steps
    ]
    assert sum(digs) <= 1


@pytest.mark.parametrize("name", PLANNED)
def test_bracing_is_fitted_or_left_out(name: str) -> None:
    found = decided(name)
    fitted = {one for step in found.plan.steps for one in step.names}
    assert fitted | set(found.plan.left_out) | set(found.plan.start.bracing) == set(
        found.rack.bracing_names
    )
    assert set(found.plan.end.bracing).isdisjoint(found.plan.left_out)
