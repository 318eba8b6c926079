"""The saddle cut of a pipe that meets another pipe: shape and what it takes off the length."""

import math

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]
POINTS = 721


def saddle(
    header_radius: float,
    branch_radius: float,
    angle: float,
    around: FloatArray,
    offset: float = 0.0,
) -> FloatArray:
    """Distance along the branch from the header's centre line to its surface [m].

    `header_radius` outside, `branch_radius` of the edge that is to fit [m]; `angle` between the
    axes [rad]; `around` the branch [rad], 0 on the side of the acute angle's far wall; `offset` of
    the centre lines [m]. Intersection of two cylinders, exact; valid while
    |branch_radius sin(around) + offset| <= header_radius.
    """
    across = branch_radius * np.sin(around) + offset
    if np.any(np.abs(across) > header_radius * (1 + 1e-12)):
        raise ValueError("the branch is wider than the header where they meet")
    depth = np.sqrt(np.maximum(header_radius**2 - across**2, 0.0))
    return (depth - branch_radius * np.cos(around) * math.cos(angle)) / math.sin(angle)


def cheeked(
    header_radius: float, branch_radius: float, around: FloatArray, offset: float = 0.0
) -> FloatArray:
    """Distance [m] as `saddle`, of a branch that may be wider than the header, square to it.

    Beside the header the branch reaches up to its centre line, in two cheeks that hold it.
    """
    across = branch_radius * np.sin(around) + offset
    depth: FloatArray = np.sqrt(np.maximum(header_radius**2 - across**2, 0.0))
    return depth


def long_point(header_radius: float, branch_radius: float, angle: float) -> float:
    """Distance [m] from the header's centre line to the longest point of the coped branch.

    A branch wider than the header reaches past its centre line on the sides: the length to the
    header's own half-width is used there, so the piece is cut long rather than short.
    """
    edge = min(branch_radius, header_radius)
    around = np.linspace(0.0, 2 * math.pi, POINTS)
    return float(saddle(header_radius, edge, angle, around).min())
