"""No step works on a part that a later one replaces: a builder does nothing twice (judgement)."""

from types import SimpleNamespace
from typing import Any

import pytest

from frame.casefile.write import Edits, Value
from frame.plan.in_order import in_order
from frame.plan.offers import Offer
from frame.plan.steps import MEANWHILE, PlanStep, last_sizes, with_meanwhile
from frame.plan.written import written
from tests.decided import DECIDED, decided


def change(do: str, section: str = "", fits: tuple[str, ...] = (), **keys: Value) -> Offer:
    """A change of some keys of one section of the file."""
    edits: Edits = {(section, key): value for key, value in keys.items()}
    return Offer(do=do, kind="move", fits=fits, edits=edits)


POST = change("post", "post", pipe="8 in nominal")
DEEPER = change("deeper", "post", depth="8 ft")
BEAM = change("beam", "beam", pipe="5 in nominal")
PIN = change("pin", "sleeve", pin="1 in", set_bolts=None)
SHIM = change("shim", "sleeve", play="1/32 in")
LONG = change("long sleeve", "sleeve", length="12 in")
STOPS = change("stops", "rails", tilt_stops=4)
U_BOLTS = change("U-bolts", "rails", u_bolts=2)
RAILS = change("rails", "rails", channel="deep")
KNEES = change("knees", fits=("knees",))
GUYS = change("guys", fits=("guys",))
STAYS = change("stays", fits=("stays",))
TIES = change("ties", fits=("ties",))
WELDS = change("welds", "welds", leg="1/4 in")


def step_of(*made: Offer) -> PlanStep:
    """One step, whatever it gains."""
    after: Any = None
    return PlanStep(made=made, after=after, added_steel=0.0, added_cost=None)


def ordered(*made: Offer, stands: bool = False) -> list[str]:
    """Words of the steps, one change each, in the order to take them."""
    ours = SimpleNamespace(name="guys", attach="post top")
    stays = SimpleNamespace(attach="beam ends")
    rack: Any = SimpleNamespace(stands=stands, guys=(ours,), stays=stays)
    return [" + ".join(o.do for o in group) for group in in_order([(o,) for o in made], rack)]


def test_what_sits_on_a_part_goes_right_after_what_replaces_it() -> None:
    assert ordered(SHIM, U_BOLTS, POST, RAILS) == ["post", "shim", "rails", "U-bolts"]
    assert ordered(STOPS, GUYS, U_BOLTS, BEAM, RAILS) == [
        "guys", "beam", "rails", "stops", "U-bolts",
    ]  # fmt: skip
    assert ordered(STAYS, POST, BEAM, RAILS) == ["post", "beam", "stays", "rails"]
    assert ordered(KNEES, GUYS, POST, RAILS, BEAM) == ["post", "guys", "beam", "knees", "rails"]
    assert ordered(WELDS, SHIM, BEAM, RAILS, POST) == ["beam", "rails", "post", "welds", "shim"]


def test_a_size_passed_through_is_no_step_nor_told_within_one() -> None:
    """A builder who is told of three walls of one sleeve has to guess which one to make."""
    thin, thick = (change(t, "sleeve", wall=t) for t in ("5/16 in", "1/2 in"))
    wide = change("wider post", "post", pipe="8 in nominal sch 80")
    found = last_sizes([(POST, thin), (BEAM,), (SHIM, wide, thick)])
    assert [[o.do for o in made] for made in found] == [
        ["wider post", "1/2 in"], ["beam"], ["shim"],
    ]  # fmt: skip
    (once,) = last_sizes([(BEAM, thin, thick)])
    assert [o.do for o in once] == ["beam", "1/2 in"]


def test_a_pin_is_drilled_once_through_the_new_post() -> None:
    """No work told twice; where the old ones stand they may be pinned meanwhile (judgement)."""
    assert ordered(PIN, SHIM, POST, RAILS) == ["post", "pin", "shim", "rails"]
    assert ordered(PIN, SHIM, POST, RAILS, stands=True) == ["post", "pin", "shim", "rails"]
    stands: Any = SimpleNamespace(stands=True, guys=(), stays=None)
    built: Any = SimpleNamespace(stands=False, guys=(), stays=None)
    bigger = change("bigger pin", "sleeve", pin="5/4 in", set_bolts=None)
    for rack, climbed, pin, told in (
        (stands, (PIN, RAILS, POST), PIN, True),
        (built, (PIN, RAILS, POST), PIN, False),
        (stands, (PIN, RAILS), PIN, False),
        (stands, (POST, PIN), PIN, False),
        (stands, (PIN, POST, bigger), bigger, False),
    ):
        (step,) = with_meanwhile([step_of(pin)], [step_of(one) for one in climbed], rack)
        assert step.meanwhile is told
        assert step.words == (f"{pin.do} ({MEANWHILE})" if told else pin.do)


def test_a_job_and_guys_are_told_in_few_words() -> None:
    """A post is named once; guys from their wire to their anchors."""
    dug = [
        Offer(do=do, again=again, kind="move", edits={("post", key): "x"}, digs=True)
        for do, again, key in (
            ("a post of 6 in nominal", "", "pipe"),
            ("a longer post, 8 ft deep", "8 ft deep", "depth"),
            ("concrete round the post, hole 30 in", "concrete round it, hole 30 in", "hole"),
        )
    ]
    assert step_of(*dug).words == (
        "a post of 6 in nominal, 8 ft deep, concrete round it, hole 30 in"
    )
    assert step_of(*dug[1:]).words == "a longer post, 8 ft deep, concrete round it, hole 30 in"
    anchors = change("guys: deadmen 4 ft long, 6 ft down", "guys", anchor="deadman")
    fittings = change("guys: turnbuckle, 3/4 in", "guys", fitting="turnbuckle")
    wire = change("guys: 3/8 in EHS strand", "guys", wire="3/8 in EHS strand")
    fit = change("fit the guys", fits=("guys",))
    assert step_of(fit, anchors, fittings, wire).words == (
        "fit the guys: 3/8 in EHS strand; turnbuckle, 3/4 in; deadmen 4 ft long, 6 ft down"
    )


def test_stops_and_u_bolts_come_after_the_rails_they_hold() -> None:
    """Rails of another channel, or set elsewhere, take off what is bolted to them."""
    more = change("more rails", "rails", count=None, positions=["-1 ft", "1 ft"])
    for rails in (RAILS, more):
        assert ordered(STOPS, U_BOLTS, rails, GUYS) == [rails.do, "stops", "U-bolts", "guys"]
    assert ordered(TIES, PIN, RAILS) == ["pin", "rails", "ties"]


def test_what_replaces_nothing_that_was_worked_on_keeps_its_place() -> None:
    made = (POST, PIN, GUYS, BEAM, RAILS, STOPS, KNEES)
    assert ordered(*made) == [o.do for o in made]
    assert ordered(SHIM, PIN, RAILS, STOPS) == ["shim", "pin", "rails", "stops"]


def test_a_new_post_gets_its_sleeve_with_it_and_a_new_sleeve_alone_its_pin_after() -> None:
    assert ordered(SHIM, POST, PIN, LONG) == ["post + long sleeve", "shim", "pin"]
    assert ordered(LONG, RAILS, POST) == ["rails", "post + long sleeve"]
    assert ordered(SHIM, RAILS, LONG) == ["rails", "long sleeve", "shim"]


def test_only_a_rack_that_stands_gets_another_post_to_be_deeper() -> None:
    assert ordered(SHIM, DEEPER) == ["shim", "deeper"]
    assert ordered(SHIM, DEEPER, stands=True) == ["deeper", "shim"]


NEW = {
    ("post", "pipe"): ("post", "sleeve"),
    ("post", "steel"): ("post", "sleeve"),
    ("beam", "pipe"): ("beam",),
    ("beam", "steel"): ("beam",),
    ("sleeve", "length"): ("sleeve",),
    ("sleeve", "wall"): ("sleeve",),
    ("rails", "channel"): ("rails",),
    ("rails", "positions"): ("rails",),
}
ON = {
    ("sleeve", "pin"): ("post", "sleeve"),
    ("sleeve", "set_bolt_torque"): ("post", "sleeve"),
    ("sleeve", "play"): ("post", "sleeve"),
    ("sleeve", "length"): ("post",),
    ("sleeve", "wall"): ("post",),
    ("rails", "tilt_stops"): ("beam", "rails"),
    ("rails", "u_bolts"): ("beam", "rails"),
    ("knees", "pipe"): ("post", "beam"),
    ("welds", "leg"): ("post", "sleeve", "beam"),
}
"""Parts that an edit makes anew, and parts that are drilled, welded to or clamped for it."""


@pytest.mark.parametrize("name", DECIDED)
def test_no_step_of_a_case_files_plan_is_lost_in_a_later_one(name: str) -> None:
    steps = decided(name).plan.steps
    for i, step in enumerate(steps):
        on = {part for o in step.made for where in o.edits for part in ON.get(where, ())}
        on |= {"post", "beam"} if "knees" in step.names else set()
        on |= {"post"} if {"guys", "post-top guys"} & set(step.names) else set()
        for later in steps[i + 1 :]:
            new = {part for o in later.made for where in o.edits for part in NEW.get(where, ())}
            assert not on & new, f"{step.words}: lost in {later.words}"


@pytest.mark.parametrize("name", DECIDED)
def test_the_end_is_the_rack_of_all_the_changes_in_whatever_order(name: str) -> None:
    plan = decided(name).plan
    made = [one for step in plan.steps for one in step.made]
    _, rack, bracing = written(plan.start, made[::-1], f"{name}.toml")
    assert (rack, bracing) == (plan.end.rack, plan.end.bracing)
