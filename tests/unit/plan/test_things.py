"""What a builder puts up anew, works on and carries to the scrap heap, thing by thing.

Common practice, no source: pipe of another size, steel or length takes the place of what is there,
and takes what was drilled, welded or clamped to it along. Judgement: clamps, bolts, wire, anchors
and lugs are little or used again, concrete stays in the ground.
"""

from functools import cache

import pytest

from frame.casefile.read import parse_rack
from frame.casefile.write import edited
from frame.changes.cost import (
    beam_weight,
    knees_weight,
    posts_weight,
    rail_length,
    sleeves_weight,
    stays_weight,
)
from frame.changes.offered import all_series
from frame.changes.series import Series, Thing
from frame.changes.stock import supply
from frame.changes.thrown_away import thrown_away
from frame.plan.in_order import replaced, worked_on
from frame.plan.offers import Offer
from frame.rack.rack import Rack
from tests.builders import STAYS, path_of

PINNED = (
    ('ends = "welded"', 'ends = "pinned"'),
    ('fitted = "jacked"', 'fitted = "after"'),
    ('hole = "10 in"', 'hole = "14 in"'),
)
NOTHING = frozenset[str]()
POST, BEAM, SLEEVE = frozenset({"post"}), frozenset({"beam"}), frozenset({"sleeve"})
RAILS, KNEES, STAYED = frozenset({"rails"}), frozenset({"knees"}), frozenset({"stays"})
LOST = {
    Thing.POST_PIPE: (POST | SLEEVE, NOTHING),
    Thing.POST_STEEL: (POST | SLEEVE, NOTHING),
    Thing.POST_DEPTH: (POST, NOTHING),
    Thing.HOLE: (NOTHING, NOTHING),
    Thing.BACKFILL: (NOTHING, NOTHING),
    Thing.FOOT: (NOTHING, NOTHING),
    Thing.BEAM_PIPE: (BEAM, NOTHING),
    Thing.BEAM_STEEL: (BEAM, NOTHING),
    Thing.SLEEVE_LENGTH: (SLEEVE, POST),
    Thing.SLEEVE_WALL: (SLEEVE, POST),
    Thing.CLEARANCE: (NOTHING, POST | SLEEVE),
    Thing.LOCK: (NOTHING, POST | SLEEVE),
    Thing.RAILS: (RAILS, BEAM),
    Thing.RAIL_COUNT: (NOTHING, BEAM),
    Thing.U_BOLTS: (NOTHING, BEAM | RAILS),
    Thing.TILT_STOP: (NOTHING, BEAM | RAILS),
    Thing.CLAMPS: (NOTHING, NOTHING),
    Thing.WELDS_LEG: (NOTHING, POST | BEAM | SLEEVE),
    Thing.LUGS: (NOTHING, POST),
    Thing.KNEES_PIPE: (KNEES, POST | BEAM),
    Thing.KNEES_PLACE: (NOTHING, POST | BEAM),
    Thing.KNEES_FITTED: (NOTHING, POST | BEAM),
    Thing.STAYS_PIPE: (STAYED, BEAM),
    Thing.WIRE: (NOTHING, NOTHING),
    Thing.FITTINGS: (NOTHING, NOTHING),
    Thing.ANCHORS: (NOTHING, NOTHING),
    Thing.GUYS_PLACE: (NOTHING, NOTHING),
}
"""Of a thing changed where the rack stands: what is made anew, and what else is worked on."""


@cache
def texts() -> tuple[str, str]:
    """Racks that stand: one in concrete, and one in earth with stays and pinned knees."""
    concrete, earth = (path_of(name).read_text("utf-8") for name in ("boat_shed", "hay_barn"))
    for old, new in PINNED:
        assert old in earth
        earth = earth.replace(old, new)
    first, second = (edited(text, {("", "stands"): "yes"}) for text in (concrete, earth + STAYS))
    return first, second


@cache
def offered() -> dict[Thing, tuple[str, Rack, Series]]:
    """One series of every thing, with the file and rack it is offered for."""
    found: dict[Thing, tuple[str, Rack, Series]] = {}
    for text in texts():
        rack = parse_rack(text, "standing")
        for one in all_series(rack, rack.bracing_names, supply(rack, text)):
            found.setdefault(one.thing, (text, rack, one))
    return found


def steel_of(rack: Rack, parts: frozenset[str]) -> float:
    """Weight [N] of the steel in some parts."""
    weights = {
        "post": posts_weight(rack),
        "beam": beam_weight(rack),
        "sleeve": sleeves_weight(rack),
        "rails": rail_length(rack) * rack.rails.channel.weight,
        "knees": knees_weight(rack),
        "stays": stays_weight(rack),
    }
    return sum(weights[part] for part in parts)


def test_it_is_known_of_every_thing_what_is_lost_with_it() -> None:
    assert set(LOST) == set(offered()) == set(Thing)


@pytest.mark.parametrize("thing", Thing)
def test_order_of_work_and_scrap_agree_on_what_a_thing_takes_the_place_of(thing: Thing) -> None:
    text, rack, series = offered()[thing]
    new, on = LOST[thing]
    edits = series.rungs[-1].edits or series.rungs[0].edits
    made = (Offer(do=thing, kind="move", edits=edits),)
    elsewhere = RAILS if thing is Thing.RAIL_COUNT else NOTHING
    assert replaced(made, stands=True) == (new | elsewhere) & (POST | BEAM | SLEEVE | RAILS)
    assert worked_on(made, rack) - replaced(made, stands=True) == on
    after = parse_rack(edited(text, edits), "changed")
    gone = thrown_away(rack, after, rack.bracing_names)
    assert gone.steel == pytest.approx(steel_of(rack, new), rel=1e-9)
