"""One column of the bracing sheet from a rack's frame and its answers to one case."""

import numpy as np

from frame.draw.elevation import elevation_picture
from frame.draw.picture import Array
from frame.draw.sheet import SheetColumn
from frame.draw.space import space_picture
from frame.idealize.build import Idealized
from frame.idealize.deck import Slope
from frame.pictured.beside import Shown
from frame.pictured.diagrams import Diagrammed


def panel_corners(ideal: Idealized) -> Array:
    """Corners of the panel plane (4, 3) [m]: lower left, lower right, upper right, upper left."""
    rack, slope = ideal.rack, Slope(ideal.tilt)
    lift = rack.stand_off + rack.rails.channel.depth / 2
    centre = np.array([0.0, 0.0, rack.posts.height]) + lift * slope.out
    x, s = rack.panels.spread / 2, rack.panels.chord / 2
    return np.array(
        [centre + (a, 0, 0) + b * slope.up for a, b in ((-x, -s), (x, -s), (x, s), (-x, s))]
    )


def panel_nodes(ideal: Idealized) -> list[int]:
    """Nodes that the corners of the panel plane move with, in the order of the corners."""
    last = len(ideal.rack.rails.positions)
    ends = ((1, "lower"), (last, "lower"), (last, "upper"), (1, "upper"))
    return [ideal.marks[f"rail {rail} {end} end"] for rail, end in ends]


def diagram_view(one: Diagrammed, words: str, what: str, system: str) -> SheetColumn:
    """View of a rack with its moments, shears or axial forces, front and side."""
    panels = panel_corners(one.block.frame.ideal)
    front, side = (elevation_picture(plane, system, panels, what) for plane in one.planes)
    return SheetColumn(title=one.title, words=words, front=front, side=side)


def space_view(one: Shown, words: str, system: str) -> SheetColumn:
    """View of a whole rack moved by the gust from still air; at rest where it is gone."""
    ideal, fitted = one.wind.block.frame.ideal, one.wind.block.fitted
    pulls = np.where(fitted, one.wind.pulls, np.nan)
    moved = np.zeros_like(one.wind.moved) if one.gone else one.wind.moved
    picture = space_picture(ideal.model, moved, pulls, system, panel_corners(ideal))
    return SheetColumn(title=one.title, words=words, space=picture)
