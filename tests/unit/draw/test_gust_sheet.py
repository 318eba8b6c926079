"""The sheet of bars: nothing off the sheet, no label on another, no NaN for racks that topple."""

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from matplotlib.patches import Rectangle

from frame.checks.check import Check, Kind
from frame.draw.bars import WIDE
from frame.draw.gusts import gust_sheet
from frame.draw.ladders import ladder_sheet
from frame.draw.reaches import Reaches
from frame.draw.sheet import DPI
from frame.named.limit_state import LimitState
from frame.named.part import BEAM, RAILS, SET_BOLT, Part, PartKind, Side, Spot, knee, post, wall
from frame.records.going import Going
from frame.records.what_if import KneeChoice
from frame.search.weakest import Limit
from frame.units import DEG, MPH
from frame.whatif.tilts import AtTilt, TiltCurve
from tests.builders import case

HAND = Check(name="", demand=1.0, allowable=1.0, nominal=1.0, unit="1", source="")


def going(mph: float, low: float, high: float, kind: Kind, part: Part, check: LimitState) -> Going:
    return Going(
        part=part, check=check, kind=kind, gust=mph * MPH, low=low * MPH, high=high * MPH,
        case="", words="", tilt=0.5, shifts=(), hand=HAND,
    )  # fmt: skip


FOOT = wall(PartKind.POST, Spot.SLEEVE_FOOT)
BREAKS = going(70, 52, 91, Kind.BREAKS, FOOT, LimitState.SLEEVE_BEARING)
TURNS = going(22, 13, 37, Kind.TURNS, SET_BOLT, LimitState.SWING_GRIP)
STILL = going(0, 0, 0, Kind.BREAKS, BEAM, LimitState.INTERACTION)
FAR = going(170, 120, 900, Kind.BREAKS, RAILS, LimitState.RAIL_BENDING)


def curve(title: str, *found: Sequence[Going], margin: float = 40.0) -> TiltCurve:
    return TiltCurve(
        bracing=(),
        title=title,
        points=tuple(
            AtTilt(
                tilt=(15 + 15 * i) * DEG,
                limit=Limit(margin * MPH),
                going=tuple(some),
                covered=True,
                own=True,
            )
            for i, some in enumerate(found)
        ),
    )


CURVES = (
    curve("bare", (TURNS, BREAKS), (BREAKS,), (STILL,)),
    curve("knees + ties + post-top guys + beam-end guys", (TURNS, FAR), (), margin=math.inf),
    curve("topples", (STILL, TURNS), margin=0.0),
)


def sheet(curves=CURVES, reaches=None, system="us"):
    figure = gust_sheet(case("boat_shed"), curves, reaches, system)
    figure.canvas.draw()
    return figure


def knees(forces: Sequence[float]) -> Reaches:
    some = KneeChoice(
        part=0.3, reach=0.5, drop=0.5, sag=0.002, left=0.5, force=1.0, words="", tilt=0.5,
        pushed=True, cut=0.7, angle=0.8, described=False,
    )  # fmt: skip
    choices = [replace(some, reach=0.3 + 0.1 * i, force=f) for i, f in enumerate(forces)]
    return Reaches(bare_sag=0.005, limit=0.0052, choices=choices)


@pytest.mark.parametrize("system", ["us", "metric"])
def test_no_label_on_another_and_all_of_them_on_the_sheet(system: str) -> None:
    figure = sheet(system=system, reaches=knees([4e4, 2e4, 1e4]))
    whole = figure.bbox
    boxes = [t.get_window_extent() for ax in figure.axes for t in ax.texts]
    boxes += [t.get_window_extent() for t in [*figure.texts, *figure.legends[0].get_texts()]]
    for box in boxes:
        assert whole.x0 <= box.x0 < box.x1 <= whole.x1
        assert whole.y0 <= box.y0 < box.y1 <= whole.y1
    for one, other in combinations(boxes, 2):
        assert not one.shrunk(0.97, 0.8).overlaps(other.shrunk(0.97, 0.8))
    assert figure.get_figwidth() * DPI == pytest.approx(1100)
    assert pytest.approx(1100 / 150) == WIDE


def test_bars_run_from_act_by_over_the_middle_to_the_high_end() -> None:
    figure = sheet()
    ends = sorted(
        (round(box.get_x(), 2), round(box.get_x() + box.get_width(), 2))
        for box in figure.axes[0].patches
        if isinstance(box, Rectangle)
    )
    assert (52.0, 70.0) in ends
    assert (70.0, 91.0) in ends
    low, high = figure.axes[0].get_xlim()
    assert all(low <= left < right <= high for left, right in ends)


def test_a_rack_that_goes_in_still_air_is_said_so_and_nothing_is_nan() -> None:
    figure = sheet(reaches=knees([math.inf, math.inf]))
    said = " ".join(t.get_text() for ax in figure.axes for t in ax.texts)
    assert "DO NOT LOAD: the beam goes in still air" in said
    assert "nothing is expected to tilt or break" in said
    assert "topples" in said
    assert not figure.axes[2].get_yticks().size
    assert all(np.isfinite([*ax.get_xlim(), *ax.get_ylim()]).all() for ax in figure.axes)


def ladder(*found: Going) -> list[str]:
    """Words over the bars of a ladder of one rack, the first first."""
    figure = ladder_sheet(case("wash_house"), [("bare", found)], "us")
    return [text.get_text() for text in figure.axes[0].texts][1:]


def test_posts_and_sides_that_go_alike_are_one_rung_and_the_others_say_which() -> None:
    """Two posts in a wind that strikes them alike, and two that stand in unlike winds."""
    leans = LimitState.POST_LEANING, LimitState.POST_SIDEWAYS
    made = [going(93 + 0.5 * n, 60, 130, Kind.LEANS, post(n), leans[0]) for n in (1, 2)]
    made += [going(110 + 9 * n, 60, 190, Kind.BREAKS, post(n), leans[1]) for n in (1, 2)]
    made += [
        going(150, 90, 190, Kind.BREAKS, knee(n, side), LimitState.BUCKLING)
        for n in (1, 2)
        for side in Side
    ]
    assert ladder(*reversed(made)) == [
        "a post leans in the ground at about 93 (60 to 130)",
        "the ground lets the 1st post from the left go at about 119 (60 to 190)",
        "the ground lets the 2nd post from the left go at about 128 (60 to 190)",
        "a knee buckles at about 150 (90 to 190)",
    ]


def test_bars_are_told_apart_without_colour() -> None:
    hatches = {box.get_hatch() for box in sheet().axes[0].patches}
    assert len(hatches) == 2
