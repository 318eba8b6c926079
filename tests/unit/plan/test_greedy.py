"""When a plan stops, what an offer answers, what bracing of ours is, and glances by hand."""

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from frame.casefile.read import parse_rack
from frame.casefile.write import Edits, edited
from frame.errors import FrameError
from frame.named.aim import Aim
from frame.named.limit_state import LimitState
from frame.named.part import BEAM, PartKind, Spot, post, wall
from frame.plan import greedy, steps
from frame.plan.glance import Glance, _crossing, over
from frame.plan.offers import Offer, offers
from frame.plan.ours import described
from frame.plan.standing import Asked
from frame.plan.steps import joined, step_to, steps_through
from frame.plan.trials import Trial
from frame.rack.rack import KNEES
from frame.records.motion import Sag, Sagging, Sway
from tests.decided import file_of

INCH = 0.0254
ASKED = Asked(name="")


@pytest.fixture(autouse=True)
def made_up(monkeypatch: pytest.MonkeyPatch) -> None:
    """Standings made up have no blocks to leave out, and no file to solve again."""
    monkeypatch.setattr(steps, "light", lambda at: at)
    monkeypatch.setattr(greedy, "light", lambda at: at)


def standing(*, holds: bool = False, far: bool = False) -> Any:
    """A rack made up, of which a plan asks whether it holds and what it is worth."""
    rack = SimpleNamespace(bracing_names=("knees", "guys"), guys=(), stays=None, stands=False)
    return SimpleNamespace(
        holds=holds,
        moves_too_far=far,
        rack=rack,
        bracing=(),
        text="",
        limit_gust=0.0,
        steel=0.0,
        cost=None,
    )


def test_a_rack_that_holds_and_hardly_moves_needs_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(greedy, "_best", lambda *_: pytest.fail("nothing is to be tried"))
    made, _ = greedy.make_plan(standing(holds=True), ASKED)
    assert (made.steps, made.reached, made.left_out) == ((), True, ("knees", "guys"))


def test_a_plan_stops_where_nothing_gains(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(greedy, "_best", lambda *_: (None, frozenset()))
    start = standing()
    made, _ = greedy.make_plan(start, ASKED)
    assert (made.steps, made.reached, made.end) == ((), False, start)


def test_a_plan_stops_as_soon_as_it_holds_and_after_so_many_steps(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(steps, "trimmed", lambda start, made, end, asked: (made, end))

    def one_more(holds: bool) -> Any:
        count = iter(range(100))
        return lambda *_: (
            SimpleNamespace(
                made=(Offer(do="", kind="move", edits={("post", f"key {next(count)}"): 1}),),
                after=standing(holds=holds),
                through=(),
            ),
            frozenset(),
        )

    monkeypatch.setattr(greedy, "_best", one_more(holds=True))
    monkeypatch.setattr(greedy, "stand", lambda *_, **__: standing(holds=True))
    assert len(greedy.make_plan(standing(), ASKED)[0].steps) == 1
    monkeypatch.setattr(greedy, "_best", one_more(holds=False))
    monkeypatch.setattr(greedy, "_further", lambda now, *_: ([], now))
    assert len(greedy.make_plan(standing(), ASKED)[0].steps) == greedy.MOST_STEPS


@pytest.mark.parametrize("power", [1.0, 2.0, 3.5])
@pytest.mark.parametrize("at", [11.0, 30.0, 39.0])
def test_a_power_of_the_gust_crosses_where_it_does(power: float, at: float) -> None:
    """(g / at)^p is straight in logarithms, so the crossing is exact: g = at."""
    gusts = np.array([10.0, 20.0, 40.0])
    assert _crossing(gusts, (gusts / at) ** power) == pytest.approx(at)


def test_beyond_the_gusts_looked_at_a_use_goes_with_the_square() -> None:
    """(g / 50)^2 above and (g / 5)^2 below; none is taken for more than twice as far above."""
    gusts = np.array([10.0, 20.0, 40.0])
    assert _crossing(gusts, (gusts / 50) ** 2) == pytest.approx(50)
    assert _crossing(gusts, (gusts / 5) ** 2) == pytest.approx(5)
    assert _crossing(gusts, (gusts / 1000) ** 2) == pytest.approx(80)


def test_what_is_gone_already_at_the_least_gust_crosses_below_it() -> None:
    gusts = np.array([10.0, 20.0])
    found = _crossing(gusts, np.array([math.inf, math.inf]))
    assert 0 < found < 1
    assert _crossing(gusts, np.array([0.5, math.inf])) < 11


def test_an_offer_answers_the_checks_it_strengthens_whichever_post_they_are_of() -> None:
    leaning, bearing = LimitState.POST_LEANING, LimitState.SLEEVE_BEARING
    helps = (
        Aim(kind=PartKind.POST, states=(leaning,)),
        Aim(kind=PartKind.WALL, on=PartKind.POST),
    )
    deeper, bent = Offer(do="", kind="move", helps=helps), (BEAM, LimitState.BUCKLING)
    assert deeper.answers([(post(2), leaning)])
    assert deeper.answers([bent, (wall(PartKind.POST, Spot.SLEEVE_FOOT), bearing)])
    assert not deeper.answers([bent, (wall(PartKind.SLEEVE, Spot.FOOT), bearing)])
    assert not deeper.answers([])
    assert Offer(do="", kind="bracing").answers([])


def test_a_file_without_bracing_gets_jacked_knees_and_guys_from_the_post_top() -> None:
    """Knees at a third of the arm of 5 ft less the post's half; guys down at 45 degrees."""
    text, name = file_of("fifteen_lines")
    rack = parse_rack(described(text, parse_rack(text, name)), name)
    assert rack.bracing_names == ("knees", "guys")
    assert rack.knees is not None
    assert rack.knees.fitted == "jacked"
    assert rack.knees.reach == pytest.approx(min(rack.arms) / 3, abs=INCH)
    assert rack.knees.pipe.od <= 0.51 * rack.beam.pipe.od
    (guys,) = rack.guys
    assert guys.wire.name == "1/4 in EHS strand"
    below_sleeve = rack.posts.height - rack.beam.pipe.od / 2 - rack.sleeve.length
    assert math.hypot(guys.out, guys.along) == pytest.approx(below_sleeve, abs=2 * INCH)


def test_no_knees_of_ours_land_on_the_sleeve_of_a_very_short_post() -> None:
    """A post 20 in. up has 6.25 in. free below a sleeve of 12 in. and half a 3-1/2 in. beam."""
    text, name = file_of("fifteen_lines")
    low: Edits = {
        ("post", "height"): "20 in",
        ("sleeve", "length"): "12 in",
        ("panels", "up"): 1,
    }
    text = edited(text, low)
    rack = parse_rack(described(text, parse_rack(text, name)), name)
    assert rack.bracing_names == ("guys",)


def test_bracing_that_is_on_is_not_offered_and_all_else_is_an_edit() -> None:
    text, name = file_of("boat_shed")
    rack = parse_rack(text, name)
    found = [one for sizes in offers(rack, (KNEES,), text) for one in sizes]
    assert [o.fits for o in found if o.fits] == [("guys",)]
    assert all(o.edits for o in found if not o.fits)
    assert all(o.work > 0 and o.do for o in found)


def test_play_of_the_sleeve_is_sag_over_its_limit() -> None:
    """6 mm by weight and 30 mm of play, limit 12 mm: 36/12 - 1 = 2 over; 7.5 mm of play: 0.125."""

    def sag(slop: float) -> Sag:
        return Sag(
            dead=6e-3, still_air=6e-3, limit=12e-3, where=Sagging(), pipe=6e-3, sleeve=0.0,
            post=0.0, slop=slop,
        )  # fmt: skip

    sway = Sway(gust=30.0, top=5e-3, limit=20e-3, words="")
    assert over(sag(30e-3), sway) == pytest.approx(2.0)
    assert over(sag(7.5e-3), sway) == pytest.approx(0.125)
    assert over(sag(0.0), sway) == 0


@pytest.mark.parametrize(("units", "left"), [("us", INCH / 32), ("metric", 1e-3)])
def test_a_shim_leaves_a_thin_gap(units: str, left: float) -> None:
    text, name = file_of("boat_shed")
    rack = parse_rack(text, name, units)
    (shim,) = (o for sizes in offers(rack, (), text) for o in sizes if "shim" in o.do)
    after = parse_rack(edited(text, shim.edits), name)
    assert after.sleeve.clearance == pytest.approx(left)


def test_every_change_offered_can_be_written_and_most_can_be_built() -> None:
    """What cannot be built alone, as a pin too thick for its sleeve, is for the plan to leave."""
    text, name = file_of("boat_shed")
    built, refused = 0, []
    for sizes in offers(parse_rack(text, name), (), text):
        for one in sizes:
            try:
                parse_rack(edited(text, one.edits), name)
                built += 1
            except FrameError as error:
                refused.append((one.do, str(error)))
    assert built > 20
    assert len(refused) <= 2, refused


def on(section: str, fits: tuple[str, ...] = (), do: str = "") -> Offer:
    edits = {} if fits else {(section, "size"): "1 in"}
    return Offer(do=do or section, kind="move", fits=fits, edits=edits)


def steps_of(*made: tuple[Offer, ...]) -> list[Any]:
    return [step_to(standing(), one, standing()) for one in made]


RACK: Any = SimpleNamespace(
    guys=(SimpleNamespace(name="top guys"), SimpleNamespace(name="lines")), stands=False
)


def test_fittings_are_one_step_with_the_guys_they_are_for() -> None:
    """The second group of guys is not the first; nor is a post that comes between."""
    fit, fittings = on("", ("top guys",)), on("guys")
    assert [s.made for s in joined(steps_of((fit,), (fittings,)), RACK)] == [(fit, fittings)]
    numbered = on("guys 1")
    assert [s.made for s in joined(steps_of((fit,), (numbered,)), RACK)] == [(fit, numbered)]
    other = on("guys 2")
    assert len(joined(steps_of((fit,), (other,)), RACK)) == 2
    assert len(joined(steps_of((fit,), (on("post"),), (fittings,)), RACK)) == 3


def test_what_is_done_to_bracing_is_done_as_it_is_fitted() -> None:
    """Knees welded and cut off again for thicker ones would be welded twice."""
    weld, thicker = on("", ("knees",), do="weld the knees"), on("knees", do="knees of 2 in pipe")
    pin, fit = on("sleeve"), on("", ("lines",), do="fit the lines")
    wire = on("guys 2", do="lines: 3/8 in strand")
    found = steps._jobs_at_once([(weld,), (pin,), (fit,), (thicker,), (wire,)], RACK)
    assert found == [(weld, thicker), (pin,), (fit, wire)]
    made = steps_of(*found)
    assert made[0].words == "weld the knees of 2 in pipe"
    assert made[2].words == "fit the lines: 3/8 in strand"
    alone = [(thicker,), (pin,)]
    assert steps._jobs_at_once(alone, RACK) == alone, "knees that are on are not fitted"


def test_guys_are_fitted_with_the_anchors_they_need(monkeypatch: pytest.MonkeyPatch) -> None:
    """The guys alone bring the margin down; with bigger anchors it rises above what it was."""
    fit, anchors, bare = on("", ("lines",)), on("guys 2", do="deadmen"), on("", ("knees",))
    limits = {(): 30.0, (fit.do,): 12.0, (fit.do, anchors.do): 40.0}

    def trial(*made: Offer, gain: float = 0.1) -> Trial:
        glance = Glance(1.0, 1.0, 1.0, 0.0)
        return Trial(
            made=made, text="", bracing=(), gain=gain, price=1.0, enough=False, found=glance
        )

    def full(one: Trial, now: Any, asked: Asked) -> Trial:
        limit = limits[one.do]
        after: Any = SimpleNamespace(limit_gust=limit)
        return replace(one, after=after, enough=limit > 30, gain=math.log(limit / 30))

    def cures(at: Any, made: tuple[Offer, ...], *_: Any, code: bool) -> list[Trial]:
        assert code, "the margin fell, so that is cured"
        return [trial(*made, anchors), trial(*made, bare, gain=0.5)]

    monkeypatch.setattr(greedy, "full", full)
    monkeypatch.setattr(greedy, "trials", cures)
    monkeypatch.setattr(greedy, "settled", lambda one, *_: one)
    now: Any = SimpleNamespace(limit_gust=30.0)
    found = greedy._braced(now, [trial(fit), trial(anchors)], ASKED)
    assert found
    assert found.do == (fit.do, anchors.do)
    assert [at.limit_gust for at in found.through] == [12.0]
    limits[fit.do, anchors.do] = 20.0
    monkeypatch.setattr(greedy, "trials", lambda *_, **__: [])
    assert greedy._braced(now, [trial(fit)], ASKED) is None


def test_no_chain_starts_with_bracing_that_was_in_vain(monkeypatch: pytest.MonkeyPatch) -> None:
    """Guys look best and bring the rack down; the longer sleeve behind them is what gains."""
    guys, sleeve, now = on("", ("lines",)), on("sleeve"), standing()

    def full(one: Trial, at: Any, asked: Asked) -> Trial:
        assert not one.made[0].fits
        return replace(one, after=standing(), enough=True)

    monkeypatch.setattr(greedy, "full", full)
    monkeypatch.setattr(greedy, "settled", lambda one, *_: one)
    looked = [
        Trial(
            made=(one,), text="", bracing=(), gain=gain, price=1.0, enough=False,
            found=Glance(1.0, 1.0, 1.0, 0.0),
        )
        for one, gain in ((guys, 0.5), (sleeve, 0.1))
    ]  # fmt: skip
    chain = greedy._chain(now, looked, ASKED, code=True)
    assert chain
    assert chain.made == (sleeve,)


def test_no_knee_is_offered_wider_than_what_it_is_welded_to() -> None:
    text, name = file_of("boat_shed")
    rack = parse_rack(text, name)
    found = [o for sizes in offers(rack, (KNEES,), text, every=True) for o in sizes]
    knees = [o for o in found if o.edits.keys() == {(KNEES, "pipe")}]
    widths = [parse_rack(edited(text, o.edits), name).knees for o in knees]
    assert widths
    narrower = min(rack.beam.pipe.od, rack.posts.pipe.od)
    assert all(k and k.pipe.od <= narrower * 1.001 for k in widths)


def test_changes_that_have_nothing_to_do_with_each_other_are_steps_of_their_own() -> None:
    """Depth and pipe of the post go together, papers for the beam do not."""
    depth, pipe, papers = on("post", do="depth"), on("post", do="pipe"), on("beam")
    start = SimpleNamespace(rack=RACK, bracing=(), steel=0.0, cost=None)
    through = [standing() for _ in range(3)]
    found = steps_through(start, (depth, pipe, papers), through)  # type: ignore[arg-type]
    assert [s.made for s in found] == [(depth, pipe), (papers,)]
    assert [s.after for s in found] == [through[1], through[2]]
