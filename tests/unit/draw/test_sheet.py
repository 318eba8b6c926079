from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
from matplotlib.text import Annotation, Text

from frame.draw.labels import LabelBox
from frame.draw.picture import shared_corners, shared_exaggeration, shared_force_scale
from frame.draw.sheet import CAUTION, bracing_sheet, save
from tests.unit.draw.example import views

CASE = "Wind in the face, gust on the left half; 35 degrees of tilt; map gust 90 mph"


@pytest.fixture(scope="module")
def columns():
    return views()


@pytest.fixture(scope="module")
def sheet(columns):
    return bracing_sheet("Example rack", CASE, columns)


def labels(figure) -> list[Text]:
    found = [t for ax in figure.axes for t in ax.texts if isinstance(t, Annotation)]
    return [t for t in (*found, *figure.texts) if t.get_text()]


def test_no_text_covers_another_or_leaves_the_sheet(sheet) -> None:
    renderer = sheet.canvas.get_renderer()
    boxes = []
    for text in labels(sheet):
        b = text.get_window_extent(renderer)
        boxes.append((text.get_text(), LabelBox(b.x0, b.y0, b.x1, b.y1)))
    page = LabelBox(0, 0, *(sheet.get_size_inches() * sheet.dpi))
    assert all(box.is_within(page) for _, box in boxes)
    clashes = [(a, b) for (a, one), (b, two) in combinations(boxes, 2) if one.overlaps(two)]
    assert len(boxes) > 20
    assert not clashes


def test_both_columns_of_a_row_share_their_limits(sheet) -> None:
    for left, right in zip(sheet.axes[::2], sheet.axes[1::2], strict=True):
        assert left.get_xlim() == right.get_xlim()
        assert left.get_ylim() == right.get_ylim()
        assert left.get_position().width == pytest.approx(right.get_position().width)


def test_every_line_and_mark_lies_within_its_axes_to_one_scale_both_ways(sheet) -> None:
    for ax in sheet.axes:
        (left, right), (bottom, top) = ax.get_xlim(), ax.get_ylim()
        extent = ax.get_window_extent()
        assert (right - left) / extent.width == pytest.approx((top - bottom) / extent.height)
        for line in ax.lines:
            if line.get_linestyle() != "--" or len(line.get_xdata()) > 2:
                x, y = np.asarray(line.get_xdata()), np.asarray(line.get_ydata())
                assert ((x >= left) & (x <= right) & (y >= bottom) & (y <= top)).all()


def test_exaggeration_and_caution_are_written(sheet, columns) -> None:
    written = " ".join(t.get_text() for t in sheet.texts)
    assert CAUTION in written
    times = shared_exaggeration(tuple(v.space for v in columns))
    assert f"drawn {times:g} times larger" in written
    assert CASE in written
    assert "knees + guys" in written


def test_scales_are_shared_and_fit(columns) -> None:
    fronts = tuple(v.front for v in columns)
    left, right, bottom, top = shared_corners(fronts)
    times, most = shared_exaggeration(fronts), max(p.largest_movement for p in fronts)
    room = 0.09 * min(right - left, top - bottom)
    assert room / 2.5 <= times * most <= room
    scale = shared_force_scale(fronts)
    assert scale * max(p.largest_force for p in fronts) == pytest.approx(0.13 * (top - bottom))


def test_slack_guys_are_dashed_and_written_as_slack(sheet, columns) -> None:
    assert [line.slack for line in columns[1].front.lines] == [False, True]
    texts = [t.get_text() for t in sheet.axes[1].texts]
    names = [line.name for line in columns[1].front.lines]
    told = [name.replace(", ", " ") for name in names]
    assert f"{told[1]}\nslack" in texts
    assert sum(text.startswith(f"{told[0]}\n") for text in texts) == 1
    dashed = [line for line in sheet.axes[1].lines if line.get_linestyle() == "--"]
    assert len(dashed) == 2  # the ground and the slack guy


@pytest.mark.parametrize("kind", ["png", "svg", "pdf"])
def test_the_same_sheet_gives_the_same_bytes(columns, kind: str, tmp_path: Path) -> None:
    made = []
    for name in ("one", "two"):
        path = tmp_path / f"{name}.{kind}"
        save(bracing_sheet("Example rack", CASE, columns), path)
        made.append(path.read_bytes())
    assert made[0] == made[1]
    assert len(made[0]) > 10_000


def test_moments_are_drawn_on_the_stretched_side(columns) -> None:
    """Drooping ends stretch the top of the beam; a post pushed to the right, its left side."""
    bare = columns[0]
    for bar in bare.front.bars:
        if bar.part == "beam":
            i = int(np.argmax(np.abs(bar.force)))
            assert (bar.stretched * bar.force[i])[1] > 0
    post = max(
        (b for b in bare.side.bars if b.part == "post"), key=lambda b: np.abs(b.force).max()
    )
    assert post.shape[-1, 0] > 0
    assert (post.stretched * post.force[0])[0] < 0
