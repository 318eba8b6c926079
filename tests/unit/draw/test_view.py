from pathlib import Path

import numpy as np
import pytest
from numpy.testing import assert_allclose

from frame.casefile.read import read_rack
from frame.draw.view import panel_corners, rack_view
from frame.fem.cases import solve
from frame.fem.response import respond
from frame.idealize.build import build
from frame.idealize.elevation import agreement
from frame.idealize.state import State

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


def test_a_rack_is_seen_with_only_the_guys_that_are_fitted(ideal) -> None:
    model = ideal.model
    factors = np.array([1.0 if "weight" in load.name else 0.0 for load in model.unit_loads])
    fitted = np.array([i % 2 == 0 for i in range(len(model.guys))])
    answer = solve(respond(model), factors[None], fitted=fitted)
    planes = [agreement(model, v, factors, fitted=fitted).plane for v in ("front", "side")]
    view = rack_view(
        ideal,
        ("guys", "weight only"),
        (planes[0], planes[1]),
        (answer.displacements[0], answer.tensions[0], fitted),
        "metric",
    )
    assert view.space is not None
    assert len(view.space.lines) == fitted.sum()
    names = {g.name for g, there in zip(model.guys, fitted, strict=True) if there}
    assert {line.name for line in view.front.lines} <= names
    assert len(view.front.movements) >= 2
    assert all(" mm " in mark.text for mark in view.front.movements)
