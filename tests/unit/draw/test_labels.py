from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from frame.draw.labels import Box, place_labels


def axes(size: float = 4.0):
    figure = Figure(figsize=(size, size), dpi=100)
    FigureCanvasAgg(figure)
    ax = figure.add_axes((0, 0, 1, 1))
    ax.set_xlim(0, 1)
    ax.set_ylim(0, 1)
    return ax


def boxes(ax) -> list[Box]:
    renderer = ax.figure.canvas.get_renderer()
    extents = [t.get_window_extent(renderer) for t in ax.texts if t.get_text()]
    return [Box(e.x0, e.y0, e.x1, e.y1) for e in extents]


POINT = st.tuples(st.floats(0.05, 0.95), st.floats(0.05, 0.95))


@settings(max_examples=25, deadline=None)
@given(points=st.lists(POINT, min_size=1, max_size=12))
def test_labels_never_overlap_wherever_the_points_are(points) -> None:
    ax = axes()
    labels = [
        (f"{i},{i}00 ft-lb", np.array(p), np.array([0.0, 1.0])) for i, p in enumerate(points)
    ]
    unplaced = place_labels(ax, labels, [np.array([[0.0, 0.5], [1.0, 0.5]])])
    found = boxes(ax)
    assert len(found) + len(unplaced) == len(points)
    assert not any(a.meets(b) for a, b in combinations(found, 2))


def test_what_finds_no_room_is_returned_not_drawn_over() -> None:
    ax = axes(0.8)
    labels = [(f"number {i}", np.array([0.5, 0.5]), np.array([1.0, 0.0])) for i in range(9)]
    unplaced = place_labels(ax, labels, [])
    assert unplaced
    assert not any(a.meets(b) for a, b in combinations(boxes(ax), 2))


@pytest.mark.parametrize(("toward", "axis", "sign"), [((0, 1), 1, 1), ((-1, 0), 0, -1)])
def test_text_goes_toward_the_side_asked_for(toward, axis: int, sign: int) -> None:
    ax = axes()
    place_labels(ax, [("1 in", np.array([0.5, 0.5]), np.array(toward, dtype=float))], [])
    assert sign * ax.texts[0].get_position()[axis] > 5


def test_labels_keep_off_lines_where_there_is_room() -> None:
    ax = axes()
    line = np.array([[0.5, 0.5], [0.5, 1.0]])
    place_labels(ax, [("980 ft-lb", np.array([0.5, 0.6]), np.array([0.0, 1.0]))], [line])
    (box,) = boxes(ax)
    assert box.left > 200 or box.right < 200  # the line stands at 200 px
