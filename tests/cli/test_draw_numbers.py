"""Every number in the picture is the first screen's, read back from the figure's artists.

The numbers of the JSON are those of `rack compare FILE --json`.
"""

import re
from functools import cache

import pytest

from frame.bracing.movement import worst_sway, worst_swing
from frame.draw.two_panes import two_panes
from frame.pictured.beside import of_plan
from frame.plan.phrases import gust
from frame.report.data.plan_data import plan_data
from frame.report.screen.first import first_screen
from frame.solved.blocks import solved_blocks
from frame.units import DEG, show
from tests.decided import DECIDED, beside, decided, panes
from tests.drawn import named, said


@cache
def told(name: str) -> dict:
    """What the JSON tells of the rack at the start and at the end of the plan."""
    data = plan_data(decided(name))
    titles = [one.title for one in beside(name).racks]
    ends = [data["start"], *data["plan"]][:: max(len(data["plan"]), 1)]
    return dict(zip(titles, ends, strict=True)) | {"ground": data["ground_share"]}


def number_in(text: str) -> str:
    found = re.search(r"\d[\d.,]* ?(?:in|mm|ft-lb|in-lb|kN m|N m|%)", text)
    assert found, text
    return found.group()


def label(name: str, key: str) -> str:
    """A label in the drawing, or where it found no room there, in the words under it."""
    return named(panes(name))[key]


@pytest.mark.parametrize("name", DECIDED)
def test_the_droop_is_that_of_the_json_and_of_the_screen(name: str) -> None:
    units, lines = decided(name).rack.units, " ".join(first_screen(decided(name), "FILE"))
    for one in beside(name).racks:
        droop = show(told(name)[one.title]["droop"], "movement", units)
        assert number_in(label(name, f"sag {one.title}")) == droop
        assert droop.split()[0] in lines
        limit = show(one.sag.limit, "movement", units)
        assert f"its limit, {limit}" in said(panes(name))


@pytest.mark.parametrize("name", DECIDED)
def test_the_sway_is_that_of_the_json_in_the_gust_told(name: str) -> None:
    found, units = decided(name), decided(name).rack.units
    assert gust(beside(name).gust, units) in said(panes(name))
    for one, at in zip(beside(name).racks, (found.plan.start, found.plan.end), strict=False):
        assert not one.gone
        moved = number_in(label(name, f"sway {one.title}"))
        if beside(name).gust == found.rack.site.service_gust:
            assert moved == show(told(name)[one.title]["sway"], "movement", units)
            assert told(name)[one.title]["sway_gone"] is None
        # In another gust: worked out anew, from the file of that step, frames and all.
        again = worst_sway(solved_blocks(at.rack, at.bracing), beside(name).gust)
        assert moved == show(again.top, "movement", units)
        tilt = show(one.wind.block.frame.ideal.tilt, "angle", units)
        assert again.words in said(panes(name)).replace(f"Tilt {tilt}, ", "")


@pytest.mark.parametrize("name", DECIDED)
def test_swing_and_ground_are_those_of_the_json(name: str) -> None:
    found, units = decided(name), decided(name).rack.units
    shown = beside(name)
    for one, at, result in zip(
        shown.racks, (found.plan.start, found.plan.end), (found.start, found.end), strict=False
    ):
        if result.swing is None:
            assert f"swing {one.title}" not in named(panes(name))
            continue
        torque = number_in(label(name, f"swing {one.title}"))
        if shown.gust == found.rack.site.service_gust:
            assert torque == show(result.swing.torque, "torque", units)
        again = worst_swing(solved_blocks(at.rack, at.bracing), gust=shown.gust)
        assert torque == show(again.torque, "torque", units)
    first = shown.racks[0]
    if first.ground is not None and first.ground > 0.5:
        share = label(name, f"ground {first.title}")
        assert f"{100 * told(name)['ground']:.0f} % of the sway" in share


@pytest.mark.parametrize("name", DECIDED)
def test_nothing_is_drawn_beyond_the_first_break(name: str) -> None:
    found = beside(name)
    for one in found.racks:
        assert one.first_break is None or found.gust <= 0.9 * one.first_break.gust
        if one.first_slip and one.first_slip.gust <= found.gust:
            about = gust(one.first_slip.gust, found.rack.units)
            assert f"From about {about}" in said(panes(name))
    assert found.gust <= found.rack.site.service_gust


@pytest.mark.xdist_group("fifteen_lines")
def test_beyond_the_first_break_no_movement_is_told_but_why() -> None:
    found = decided("fifteen_lines")
    first = found.plan.start.first_break
    shown = of_plan(found, 1.01 * first.gust)
    figure = two_panes(shown, "us")
    assert "sway bare" not in named(figure)
    assert "something has broken already" in said(figure)
    assert shown.racks[0].gone == "broken"


@pytest.mark.xdist_group("orchard_wall")
def test_without_wind_nothing_moves() -> None:
    shown = of_plan(decided("orchard_wall"), 0.0)
    figure = two_panes(shown, "us")
    words = named(figure)
    assert "In still air" in said(figure)
    assert all(number_in(words[f"sway {one.title}"]) == "0 in" for one in shown.racks)


@pytest.mark.xdist_group("boat_shed")
def test_at_another_tilt_every_number_is_of_that_tilt() -> None:
    found = decided("boat_shed")
    shown = of_plan(found, tilts=(15 * DEG,))
    for one in shown.racks:
        assert one.wind.block.frame.ideal.tilt == 15 * DEG
        assert (
            one.sway.top
            == worst_sway(solved_blocks(one.rack, one.bracing, [15 * DEG]), shown.gust).top
        )
