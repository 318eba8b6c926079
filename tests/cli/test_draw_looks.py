"""No label on another or on steel, all on the sheet: case files, at length a random rack."""

import re
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from frame.cli.draw import WHATS
from frame.draw.pulls import pull_sheet
from frame.draw.rack_sheet import force_sheet, space_sheet
from frame.draw.two_panes import two_panes
from frame.draw.whats import FIGURES, MOVING, DrawingAsked
from frame.pictured.beside import of_bracing
from frame.pictured.pulls import pulls
from frame.rack.guy import RAIL_CORNERS
from tests.builders import case
from tests.decided import DECIDED, beside, file_of, panes
from tests.drawn import clashes, named, off_the_sheet, on_steel, said
from tests.often import LONG

RANDOM = ("random 1",) if LONG else ()
RACKS = (*DECIDED, *RANDOM)


@cache
def orchard_wall() -> DrawingAsked:
    text, name = file_of("orchard_wall")
    return DrawingAsked(text=text, name=name)


def looked_at(figure) -> None:
    figure.canvas.draw()
    assert not clashes(figure)
    assert not off_the_sheet(figure)
    assert not on_steel(figure)
    for ax in figure.axes:
        assert np.isfinite([*ax.get_xlim(), *ax.get_ylim()]).all()
        for patch in ax.patches:
            assert np.isfinite(patch.get_path().vertices).all()


@pytest.mark.parametrize("name", RACKS)
def test_the_two_panes(name: str) -> None:
    figure = panes(name)
    looked_at(figure)
    # For a telephone: 1,100 dots across, and no taller than twice that.
    width, height = figure.get_size_inches() * figure.dpi
    assert width < 1110
    assert height < 2 * width
    assert "flexes here" in said(figure).lower()


@pytest.mark.parametrize("name", ["boat_shed", "wash_house", *RANDOM])
@pytest.mark.parametrize("what", ["moments", "shear", "axial"])
@pytest.mark.usefixtures("decided_once")
def test_the_diagrams(name: str, what: str) -> None:
    looked_at(force_sheet(beside(name), what, "us"))


@pytest.mark.parametrize("name", ["boat_shed", "wash_house", *RANDOM])
def test_the_space_view(name: str) -> None:
    figure = space_sheet(beside(name), "us")
    looked_at(figure)
    for one in beside(name).racks:
        assert "post top moves" in said(figure) or one.gone


@pytest.mark.xdist_group("orchard_wall")
@pytest.mark.usefixtures("decided_once")
@pytest.mark.parametrize("what", ["guys", "knees", "ladder", "plan", "gusts"])
def test_the_charts(what: str) -> None:
    make, _ = FIGURES[what]
    looked_at(make(orchard_wall()))


def test_every_picture_that_can_be_asked_for_can_be_drawn() -> None:
    assert set(WHATS) == {*FIGURES, MOVING}


def test_the_guys_where_there_are_many_with_long_names() -> None:
    shown = of_bracing(case("salvage_yard"), case("salvage_yard").bracing_names)
    found = pulls(shown)
    assert found is not None
    assert len(found.names) == 12
    looked_at(pull_sheet(found, "us"))


@pytest.mark.parametrize("words", ["panelrack", "the long shed by the sea wall "])
def test_a_name_as_long_as_may_be(words: str) -> None:
    rack = replace(case("wash_house"), name=(80 * words)[:80].strip())
    shown = of_bracing(rack, ("knees",))
    for figure in (two_panes(shown, "us"), space_sheet(shown, "us")):
        looked_at(figure)


def test_a_rack_beyond_its_first_break() -> None:
    shown = of_bracing(case("fifteen_lines"), (), 60.0)
    figure = two_panes(shown, "us")
    looked_at(figure)
    assert not [key for key in named(figure) if key.startswith("sway")]


def test_every_pull_of_guys_from_the_rail_corners_is_named_by_its_corner() -> None:
    """And its panels stay over the ground where movements are drawn larger."""
    rack = case("salvage_yard")
    (corners,) = (g.name for g in rack.guys if g.attach == RAIL_CORNERS)
    shown = of_bracing(rack, (corners,), 20.0)
    figure = space_sheet(shown, "us")
    looked_at(figure)
    for edge in ("front", "back"):
        for side in ("left", "right"):
            assert re.search(rf"corner guy {edge} {side} ([\d.,]+ lb|slack)", said(figure))
    panes = two_panes(shown, "us")
    looked_at(panes)
    found = pulls(shown)
    assert found is not None
    chart = pull_sheet(found, "us")
    looked_at(chart)
    (below,) = (ax for ax in chart.axes if ax.get_title(loc="left") == "hangs slack")
    samples = [line for line in below.lines if not line.get_clip_on()]
    assert len({line.get_linestyle() for line in samples} - {"-"}) >= 1
    assert len(samples) == len(found.names) == 4


def test_guys_that_find_no_room_are_told_under_the_drawings() -> None:
    rack = case("salvage_yard")
    figure = space_sheet(of_bracing(rack, rack.bracing_names), "us")
    looked_at(figure)
    assert len(re.findall(r"guy (?:front|back) (?:left|right)", said(figure))) == 12
