"""Which size of a thing a plan takes, and what is enough of a gain."""

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

from frame.casefile.write import Edits
from frame.plan.glance import Glance
from frame.plan.offers import Offer
from frame.plan.trials import Trial, _sizes
from frame.plan.worth import as_good, better


def sized(
    gains: dict[str, float], serves: set[str], key: str = ""
) -> tuple[list[str], str | None]:
    """Sizes looked at, and the one taken, of a thing with such gains of which some serve."""
    looked: list[str] = []

    def look(one: Offer) -> Any:
        looked.append(one.do)
        if one.do not in gains:
            return None
        return Trial(
            made=(one,), text="", bracing=(), gain=gains[one.do], price=1.0, enough=True,
            found=Glance(1.0, 1.0, 1.0, 0.0, serves=one.do in serves),
        )  # fmt: skip

    def alike(smaller: Trial, larger: Trial) -> bool:
        return larger.gain - smaller.gain <= math.log(1.03)

    every = sorted({*gains, "f"})
    edits: Edits = {("post", key): "any"} if key else {}
    taken = _sizes([Offer(do=do, kind="move", edits=edits) for do in every], look, alike)
    return looked, taken.do[0] if taken else None


def test_the_smallest_size_that_serves_is_taken() -> None:
    gains = {"a": 0.1, "b": 0.2, "c": 0.2, "d": 0.2, "e": 0.2, "f": 0.2}
    looked, taken = sized(gains, {"b", "c", "d", "e", "f"})
    assert taken == "b"
    assert len(looked) <= 4


def test_where_no_size_serves_the_smallest_from_which_on_another_part_limits_is_taken() -> None:
    """The largest gains 22 %; from the third size on, less than 3 % is left to gain."""
    gains = {"a": 0.05, "b": 0.12, "c": 0.18, "d": 0.19, "e": 0.2, "f": 0.2}
    assert sized(gains, set())[1] == "c"
    assert sized(dict.fromkeys("abcdef", 0.2), set())[1] == "a"


def test_where_the_largest_gains_nothing_no_smaller_is_looked_at() -> None:
    assert sized({"a": 0.0, "f": 0.0}, set()) == (["f"], None)


def test_where_the_largest_pipe_gains_nothing_a_smaller_may() -> None:
    """A post far wider than the beam has the beam's wall dented sooner by its sleeve."""
    gains = {"a": 0.1, "b": 0.2, "c": 0.2, "d": -0.1, "e": -0.2, "f": -0.3}
    assert sized(gains, set(), key="pipe")[1] == "b"
    assert sized(gains, set(), key="depth")[1] is None


def test_what_is_good_for_the_site_is_taken_though_another_part_limits_right_behind() -> None:
    """It gains nothing alone, and may together with what mends the other part."""
    gains = dict.fromkeys("abcdef", -0.01)
    assert sized(gains, {"c", "d", "e", "f"})[1] == "c"


def test_a_size_that_cannot_be_built_is_passed_over() -> None:
    """As a pin too thick for its sleeve: the largest of the others is taken for it."""
    assert sized({"a": 0.1, "b": 0.2}, set())[1] == "b"


def test_a_size_is_not_taken_for_stiffness_where_strength_gains() -> None:
    """Three gusts within 3 % at both sizes; the larger moves a whole limit less far."""
    rack: Any = SimpleNamespace(site=SimpleNamespace(map_gust=50.0))
    was = Glance(first_break=30.0, slip=30.0, limit=20.0, over=3.0)
    small = Glance(first_break=40.0, slip=35.0, limit=20.0, over=3.0)
    large = Glance(first_break=41.0, slip=35.0, limit=20.0, over=2.0)
    assert as_good(rack, was, small, large)
    assert not as_good(rack, small, small, large)
    assert not as_good(rack, was, small, replace(large, first_break=41.6))


def test_a_slip_later_than_the_break_is_no_gain() -> None:
    rack: Any = SimpleNamespace(site=SimpleNamespace(map_gust=50.0))
    was = Glance(first_break=30.0, slip=31.0, limit=20.0, over=0.0)
    assert not better(rack, was, replace(was, slip=40.0))
    assert better(rack, replace(was, slip=25.0), was)


def test_several_changes_must_gain_more_than_one() -> None:
    """4 % is enough for one change, and not for two: 1.03 squared is 1.061."""
    rack: Any = SimpleNamespace(site=SimpleNamespace(map_gust=50.0))
    was = Glance(first_break=40.0, slip=30.0, limit=20.0, over=0.0)
    now = Glance(first_break=41.6, slip=30.0, limit=20.0, over=0.0)
    assert better(rack, was, now)
    assert not better(rack, was, now, 2)
