"""One column of the bracing sheet from a rack's frame and its answers to one case."""

import numpy as np

from frame.draw.elevation import elevation_picture
from frame.draw.picture import Array
from frame.draw.sheet import View
from frame.draw.space import space_picture
from frame.fem.plane import Mask, PlaneAnswer
from frame.idealize.build import Idealized
from frame.idealize.deck import Slope


def panel_corners(ideal: Idealized) -> Array:
    """Corners of the panel plane (4, 3) [m]: lower left, lower right, upper right, upper left."""
    rack, slope = ideal.rack, Slope(ideal.tilt)
    lift = rack.stand_off + rack.rails.channel.depth / 2
    centre = np.array([0.0, 0.0, rack.posts.height]) + lift * slope.out
    x, s = rack.panels.spread / 2, rack.panels.chord / 2
    return np.array(
        [centre + (a, 0, 0) + b * slope.up for a, b in ((-x, -s), (x, -s), (x, s), (-x, s))]
    )


def rack_view(
    ideal: Idealized,
    named: tuple[str, str],
    planes: tuple[PlaneAnswer, PlaneAnswer],
    solved: tuple[Array, Array, Mask],
    system: str,
) -> View:
    """View of a rack in one case.

    Parameters
    ----------
    ideal : Idealized
        The rack's frame, in it every guy that the answers know of.
    named : (title, words)
        Name of the bracing, and how it fares in a line or two.
    planes : (front, side)
        The plane solver's answers to the case.
    solved : (displacements (n_nodes, 6), tensions (n_guys,), fitted (n_guys,))
        The space frame's answer to the case [m, rad, N], and which guys are there.
    system : str
        "us" or "metric".
    """
    displacements, tensions, fitted = solved
    panels = panel_corners(ideal)
    front, side = (elevation_picture(plane, system, panels) for plane in planes)
    pulls = np.where(fitted, tensions, np.nan)
    return View(
        title=named[0],
        words=named[1],
        front=front,
        side=side,
        space=space_picture(ideal.model, displacements, pulls, system, panels),
    )
