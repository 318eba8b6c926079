from pathlib import Path

import numpy as np
import pytest
from numpy.testing import assert_allclose

from frame.casefile.read import read_rack
from frame.draw.view import panel_corners, space_view
from frame.idealize.build import build
from frame.idealize.state import State
from frame.pictured.beside import of_bracing
from tests.builders import case

CASES = Path(__file__).parents[3] / "cases"


@pytest.fixture(scope="module")
def ideal():
    rack = read_rack(CASES / "salvage_yard.toml")
    return build(rack, rack.tilts[0], rack.bracing_names, State())


def test_panel_plane_has_the_size_and_tilt_of_the_panels(ideal) -> None:
    lower_left, lower_right, upper_right, upper_left = panel_corners(ideal)
    assert_allclose(np.linalg.norm(lower_right - lower_left), ideal.rack.panels.spread)
    up = upper_left - lower_left
    assert_allclose(np.linalg.norm(up), ideal.rack.panels.chord)
    assert np.arctan2(up[2], up[1]) == pytest.approx(ideal.tilt)
    assert lower_left[1] < 0 < upper_right[1]  # the panels face -y, their low edge in front


def test_a_rack_is_seen_with_only_the_guys_that_are_fitted() -> None:
    shown = of_bracing(case("salvage_yard"), ("corner guys",)).racks[-1]
    view = space_view(shown, "", "metric")
    fitted = shown.wind.block.fitted
    assert not fitted.all()
    assert view.space is not None
    assert len(view.space.lines) == fitted.sum()
    assert all(" mm" in mark.text for mark in view.space.movements[:1])
