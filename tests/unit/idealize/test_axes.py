"""Axes of members and connections: at right angles, right-handed and of length one (geometry)."""

import numpy as np
import pytest

from frame.idealize.build import build
from frame.idealize.state import State
from tests.builders import CASES, case


@pytest.mark.parametrize("name", CASES)
def test_axes_measure_nothing_but_directions(name: str) -> None:
    rack = case(name)
    model = build(rack, rack.tilts[-1], max(rack.bracings(), key=len), State()).model
    for connection in model.connections:
        axes = np.array(connection.axes)
        assert axes @ axes.T == pytest.approx(np.eye(3), abs=1e-12), connection.name
        assert np.linalg.det(axes) == pytest.approx(1.0)
    for member in model.members:
        assert np.linalg.norm(member.y_axis) == pytest.approx(1.0), member.name
        ends = np.array([model.nodes[n].xyz for n in member.ends])
        along = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
        assert np.linalg.norm(np.cross(along, member.y_axis)) > 0.2, member.name
