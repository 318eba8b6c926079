"""The shape a member takes between its ends."""

import numpy as np

from frame.draw.picture import Array


def deflected(
    ends: Array, moved: Array, turned: Array, freed: tuple[bool, bool], stations: int
) -> Array:
    """Movement along a member without load between its ends, by Hermite's cubic.

    Parameters
    ----------
    ends : array (2, 3)
        Member ends [m].
    moved, turned : array (2, 3)
        Displacements [m] and rotations [rad] of the ends, global axes.
    freed : pair of bool
        Whether bending is let go at each end: there the slope follows the member, not the node.
    stations : int
        Number of stations, ends included.

    Returns
    -------
    array (stations, 3)
        Movement [m]; linear along the member, cubic across it. Small rotations.
    """
    way = ends[1] - ends[0]
    length = float(np.linalg.norm(way))
    along = way / length
    across = moved - np.outer(moved @ along, along)
    chord = (across[1] - across[0]) / length
    slope = [np.cross(rotation, along) for rotation in turned]
    if all(freed):
        slope = [chord, chord]
    elif freed[0]:
        slope[0] = 1.5 * chord - slope[1] / 2
    elif freed[1]:
        slope[1] = 1.5 * chord - slope[0] / 2
    s = np.linspace(0.0, 1.0, stations)[:, None]
    stretch = (moved @ along)[0] * (1 - s) + (moved @ along)[1] * s
    return np.asarray(
        stretch * along
        + (1 - 3 * s**2 + 2 * s**3) * across[0]
        + (3 * s**2 - 2 * s**3) * across[1]
        + length * (s - 2 * s**2 + s**3) * slope[0]
        + length * (s**3 - s**2) * slope[1]
    )
