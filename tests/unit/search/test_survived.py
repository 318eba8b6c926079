"""What was lived through cuts a distribution off: against the same cut, integrated."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.stats import norm

from frame.checks.check import Check, Kind
from frame.named.limit_state import LimitState
from frame.named.part import SET_BOLT, U_BOLT, Part, PartKind
from frame.rack.stood import LEANED, NOTHING, TILTED, TURNED, Stood
from frame.records.going import Going
from frame.search.survived import OF_ITSELF, SURE, CutOff, learn, still_counts, told
from tests.builders import case

STOOD = 20.0


def going(part="part", kind=Kind.BREAKS, gust=25.0, low=18.0, high=40.0) -> Going:
    nothing = Check(name="made up", demand=0.0, allowable=1.0, nominal=1.0, unit="", source="")
    return Going(
        part=part,
        check="made up",
        kind=kind,
        gust=gust,
        low=low,
        high=high,
        case="",
        words="",
        tilt=0.0,
        shifts=(),
        hand=nothing,
    )


def told_of(*some: Going, moved=NOTHING, gust=STOOD, panels_on=True) -> list[Going]:
    rack = replace(
        case("fifteen_lines"),
        stood=Stood(gust=gust, tilt=0.3, fitted=(), panels_on=panels_on, moved=moved),
    )
    learned = learn(rack, some)
    return [told(one, learned) for one in some]


def density(one: Going):
    """Two halves of lognormals that meet at the median, half the chance on either side."""
    below = np.log(one.gust / one.low) / norm.ppf(0.9)
    above = np.log(one.high / one.gust) / norm.ppf(0.9)

    def at(gust: float) -> float:
        away = np.log(gust / one.gust)
        spread = below if away < 0 else above
        return norm.pdf(away / spread) / (spread * gust)

    return at


def share_below(one: Going, gust: float, least: float, most: float) -> float:
    """Chance that it lies under a gust, given that it lies between two."""
    f = density(one)

    def area(a: float, b: float) -> float:
        split = float(np.clip(one.gust, a, b))
        return quad(f, a, split, limit=200)[0] + quad(f, split, b, limit=200)[0]

    return area(least, gust) / area(least, most)


FAR = 1e3
NEAR = 0.1


@pytest.mark.parametrize("gust", [15.0, 20.0, 25.0, 33.0])
@pytest.mark.parametrize("moved", [NOTHING, TURNED])
def test_cut_off_ranges_are_those_of_the_distribution_integrated(gust, moved):
    """Stood it: above that gust; turned in it: below."""
    one = going(kind=Kind.TURNS)
    (now,) = told_of(one, moved=moved, gust=gust)
    ends = (gust, FAR) if moved == NOTHING else (NEAR, gust)
    for share, found in ((0.1, now.low), (0.5, now.gust), (0.9, now.high)):
        expected = brentq(lambda g, s=share: share_below(one, g, *ends) - s, *ends)
        assert found == pytest.approx(expected, rel=1e-5)
    assert now.guessed == one.gust


def test_the_distribution_uncut_has_its_own_range():
    one = going()
    for share, gust in ((0.1, one.low), (0.5, one.gust), (0.9, one.high)):
        assert share_below(one, gust, NEAR, FAR) == pytest.approx(share, abs=1e-6)


def test_a_breeze_tells_nothing():
    one = going()
    (now,) = told_of(one, gust=3.0)
    assert now.low == pytest.approx(one.low, rel=1e-3)
    assert now.gust == pytest.approx(one.gust, rel=1e-3)


def test_a_gust_past_all_belief_counts_for_one_in_ten_thousand():
    """A report may be wrong: no more is learned than that."""
    one = going()
    (now,) = told_of(one, gust=500.0)
    spread = np.log(one.high / one.gust) / norm.ppf(0.9)
    middle = one.gust * np.exp(norm.ppf(1 - SURE / 2) * spread)
    assert now.gust == pytest.approx(middle, rel=1e-6)


@pytest.mark.parametrize(
    ("moved", "kind"), [(TURNED, Kind.TURNS), (TILTED, Kind.TILTS), (LEANED, Kind.LEANS)]
)
def test_what_gave_is_the_first_of_its_kind_and_the_others_of_it_stay(moved, kind):
    first, later = going("a", kind, 22.0, 15.0, 30.0), going("b", kind, 24.0, 18.0, 33.0)
    strong = going("c", Kind.BREAKS, 23.0, 17.0, 31.0)
    other, gave, stood = told_of(later, first, strong, moved=moved)
    assert gave.high < first.high
    assert gave.gust < min(first.gust, STOOD)
    assert other == later
    assert stood.low > strong.low
    assert stood.gust > strong.gust


def test_without_its_panels_a_rack_teaches_nothing():
    one = going()
    assert told_of(one, panels_on=False) == [one]


def test_what_goes_in_still_air_is_left_as_it_is():
    one = going(gust=0.0, low=0.0, high=0.0)
    assert told_of(one) == [one]


def test_a_rack_that_tells_of_no_storm_teaches_nothing():
    assert learn(case("fifteen_lines"), [going()]) == {}


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_a_cut_leaves_its_shares(share):
    """Of a standard normal cut at its quartiles."""
    score = CutOff(bottom=0.25, top=0.75).score(share)
    assert (norm.cdf(score) - 0.25) / 0.5 == pytest.approx(share)


def test_what_is_replaced_has_stood_nothing_and_what_stays_has() -> None:
    rack = case("hay_barn")
    other = replace(rack, posts=replace(rack.posts, height=1.01 * rack.posts.height))
    shimmed = replace(rack, sleeve=replace(rack.sleeve, clearance=0.5e-3))
    cut = CutOff(bottom=0.4)
    walls = [
        Part(PartKind.WALL, on=PartKind.POST, at=Part(PartKind.SLEEVE)),
        Part(PartKind.WALL, on=PartKind.BEAM),
    ]
    parts = (Part(PartKind.POST), Part(PartKind.BEAM), U_BOLT, SET_BOLT, *walls)
    learned = {(part, LimitState.INTERACTION): cut for part in parts}
    assert still_counts(learned, rack, rack) == learned
    assert still_counts(learned, rack, shimmed) == learned, "a shim makes no part new"
    left = still_counts(learned, rack, other)
    assert {part for part, _ in left} == {Part(PartKind.BEAM), U_BOLT, SET_BOLT, walls[1]}


def test_of_every_kind_of_part_it_is_known_what_makes_it_new() -> None:
    assert set(OF_ITSELF) == set(PartKind)
