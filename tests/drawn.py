"""What is read back from a figure: its words, where they stand, and where the steel is."""

from itertools import combinations, pairwise

import numpy as np
from matplotlib.text import Text

from frame.draw.labels import LabelBox


def words(figure) -> list[Text]:
    """Every text of a figure that is seen, in its drawings and beside them."""
    inside = [
        t for ax in figure.axes for t in (*ax.texts, ax.title, ax._left_title, ax.xaxis.label)
    ]
    legends = [t for legend in figure.legends for t in legend.get_texts()]
    return [t for t in (*inside, *figure.texts, *legends) if t.get_text() and t.get_visible()]


def named(figure) -> dict[str, str]:
    """Words of the artists that have a name, in one line each."""
    found: dict[str, str] = {}
    for text in words(figure):
        if name := text.get_gid():
            found[name] = " ".join([*found.get(name, "").split(), *text.get_text().split()])
    return found


def said(figure) -> str:
    """All words of a figure."""
    return " ".join(" ".join(t.get_text().split()) for t in words(figure))


def boxes(figure) -> list[tuple[str, LabelBox]]:
    renderer = figure.canvas.get_renderer()
    extents = [(t.get_text(), t.get_window_extent(renderer)) for t in words(figure)]
    return [(text, LabelBox(e.x0, e.y0, e.x1, e.y1)) for text, e in extents]


def clashes(figure) -> list[tuple[str, str]]:
    """Texts that cover each other by more than the white round their letters, which is a pixel."""
    found = []
    for (one, a), (other, b) in combinations(boxes(figure), 2):
        inner = LabelBox(a.left + 1, a.bottom + 1, a.right - 1, a.top - 1)
        if inner.overlaps(b):
            found.append((one, other))
    return found


def off_the_sheet(figure) -> list[str]:
    page = LabelBox(0, 0, *(figure.get_size_inches() * figure.dpi))
    return [text for text, box in boxes(figure) if not box.is_within(page)]


def on_steel(figure) -> list[str]:
    """Labels, those with a name, that lie on a pipe, a rail or a guy."""
    renderer = figure.canvas.get_renderer()
    found = []
    for ax in figure.axes:
        steel = [
            _dense(ax.transData.transform(patch.get_path().vertices))
            for patch in ax.patches
            if patch.get_gid() == "steel"
        ]
        steel += [
            _dense(ax.transData.transform(line.get_xydata()))
            for line in ax.lines
            if line.get_gid() == "steel"
        ]
        points = np.vstack([np.zeros((0, 2)), *steel])
        for text in ax.texts:
            name = text.get_gid()
            if name and not name.startswith(SIZES):
                e = text.get_window_extent(renderer)
                if LabelBox(e.x0, e.y0, e.x1, e.y1).count_within(points):
                    found.append(text.get_text())
    return found


SIZES = ("height", "depth", "beam", "out")
"""Dimensions stand beside the rack by themselves; the depth of a post may cross its neighbour."""


def _dense(points: np.ndarray) -> np.ndarray:
    pieces = [a + np.linspace(0, 1, 40)[:, None] * (b - a) for a, b in pairwise(points)]
    return np.vstack(pieces) if pieces else points
