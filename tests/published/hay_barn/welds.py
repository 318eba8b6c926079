"""The weld between the hay barn's sleeve and beam, by hand."""

import numpy as np

from tests.published.hay_barn.given import ON_TOP, Inputs, Pipe, Wind

SLEEVE, BEAM = 2.27, 2.0  # outside radii, in
LEG = 3 / 16


def saddle() -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """x, y and length of pieces of one quarter of the weld, and its throat over its leg.

    The sleeve is coped over the beam; both walls stand square where it crosses the crown, and
    open to pi/2 + asin(y^2 / R r) beside it, the angle between the pipes' normals. Throat of equal
    legs in such a corner: the leg times the cosine of half its angle, 0.71 down to 0.24.
    """
    y = np.linspace(0, BEAM, 4001)
    x, z = np.sqrt(SLEEVE**2 - y**2), np.sqrt(BEAM**2 - y**2)
    corner = np.pi / 2 + np.arcsin(y**2 / SLEEVE / BEAM)
    pieces = np.sqrt(np.diff(x) ** 2 + np.diff(y) ** 2 + np.diff(z) ** 2)
    return x[1:], y[1:], pieces, np.cos(corner[1:] / 2)


X, Y, PIECES, THROATS = saddle()


def pulls(w: Wind, widths: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Stress across and along the weld, as a line of some width (Blodgett 7.4): four quarters."""
    areas = 4 * PIECES * widths
    area, along_x, along_y = areas.sum(), (areas * X**2).sum(), (areas * Y**2).sum()
    across, along = w.bending(2)
    pull = abs(ON_TOP + w.press) / area + abs(across) * Y / along_y + abs(along) * X / along_x
    return pull, w.swing * np.hypot(X, Y) / (along_x + along_y) + 2 * abs(w.side) / area


def weld(w: Wind, g: Inputs) -> float:
    """AISC 360-22 J2.4: 0.6 FEXX on the throat, half as much again across the weld.

    The throat is the mean along the line: a fillet that yields where it is thin hands on its load.
    """
    throat = LEG * (PIECES * THROATS).sum() / PIECES.sum()
    across, along = pulls(w, np.full_like(X, throat))
    return float(np.hypot(across / 1.5, along).max()) / (0.6 * 70 * g["weld"])


def weld_metal(w: Wind, g: Inputs) -> float:
    """The wall beside it at yield where it is a fillet, up to 135 deg (AWS D1.1, from memory).

    Fy t in pull, 0.6 Fy t in shear, AISC 360-22 J4.1, J4.2.
    """
    kept = np.sqrt(0.5) * SLEEVE * BEAM >= Y**2
    across, along = pulls(w, np.where(kept, Pipe(g["wall"]).t, 0.0))
    return float(np.hypot(across, along / 0.6)[kept].max()) / g["yield"]
