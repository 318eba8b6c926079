from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from frame.draw.labels import Label, LabelBox, place_labels


def axes(size: float = 4.0):
    figure = Figure(figsize=(size, size), dpi=100)
    FigureCanvasAgg(figure)
    ax = figure.add_axes((0, 0, 1, 1))
    ax.set_xlim(0, 1)
    ax.set_ylim(0, 1)
    return ax


def label(text: str, point, toward) -> Label:
    return Label(text=text, point=np.array(point), toward=np.array(toward, dtype=float))


def boxes(ax) -> list[LabelBox]:
    renderer = ax.figure.canvas.get_renderer()
    extents = [t.get_window_extent(renderer) for t in ax.texts if t.get_text()]
    return [LabelBox(e.x0, e.y0, e.x1, e.y1) for e in extents]


POINT = st.tuples(st.floats(0.05, 0.95), st.floats(0.05, 0.95))


@settings(max_examples=25, deadline=None)
@given(points=st.lists(POINT, min_size=1, max_size=12))
def test_labels_never_overlap_wherever_the_points_are(points) -> None:
    ax = axes()
    labels = [label(f"{i},{i}00 ft-lb", p, (0.0, 1.0)) for i, p in enumerate(points)]
    unplaced = place_labels(ax, labels, [np.array([[0.0, 0.5], [1.0, 0.5]])])
    found = boxes(ax)
    assert len(found) + len(unplaced) == len(points)
    assert not any(a.overlaps(b) for a, b in combinations(found, 2))


def test_what_finds_no_room_is_returned_not_drawn_over() -> None:
    ax = axes(0.8)
    labels = [label(f"number {i}", (0.5, 0.5), (1.0, 0.0)) for i in range(9)]
    unplaced = place_labels(ax, labels, [])
    assert unplaced
    assert not any(a.overlaps(b) for a, b in combinations(boxes(ax), 2))


@pytest.mark.parametrize(("toward", "axis", "sign"), [((0, 1), 1, 1), ((-1, 0), 0, -1)])
def test_text_goes_toward_the_side_asked_for(toward, axis: int, sign: int) -> None:
    ax = axes()
    place_labels(ax, [label("1 in", (0.5, 0.5), toward)], [])
    assert sign * ax.texts[0].get_position()[axis] > 5


def test_labels_keep_off_lines_where_there_is_room() -> None:
    ax = axes()
    line = np.array([[0.5, 0.5], [0.5, 1.0]])
    place_labels(ax, [label("980 ft-lb", (0.5, 0.6), (0.0, 1.0))], [line])
    (box,) = boxes(ax)
    assert box.left > 200 or box.right < 200  # the line stands at 200 px


def test_no_label_lies_on_steel_even_where_it_then_finds_no_room() -> None:
    ax = axes(1.2)
    steel = [np.array([[0.0, y], [1.0, y]]) for y in np.linspace(0.0, 1.0, 9)]
    (left,) = place_labels(ax, [label("980 ft-lb", (0.5, 0.5), (1.0, 0.0))], [], steel)
    assert left.text == "980 ft-lb"
