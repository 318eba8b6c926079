"""A beam arm of the hay barn bent past yield in a gust, by fibres of its section.

Not a line of it is the program's: pressure of the gust on a tilted plate, moments of a cantilever,
a tube in fibres that yield and harden a little, the curvature left when the load goes.
"""

import numpy as np

INCH, LB, MPH = 0.0254, 4.4482216152605, 0.44704  # NIST SP 811, appendix B
E, YIELD = 199.948e9, 45e3 * LB / INCH**2
OD, WALL = 4.0 * INCH, 0.226 * INCH
ARM = 165 * INCH / 2
AREA, WEIGHT = 4 * 2 * 40 * 62 * INCH**2, (8 * 47 + 165) * LB
PRESS = 2.2
"""Force square to a plate at 30 deg over q and its area, of the order of ASCE/SEI 7-22 Fig. 27.3-4
(monoslope, open; from memory), gust effect 0.85 in."""
HARDENS = 0.02
"""Slope of stress past yield over E: mild steel, of the usual order (judgement)."""
UNEVEN = 1.48
"""What the half struck harder gets over the mean (judgement)."""


def hang_after(gust: float) -> float:
    """How far a beam end hangs for good [m] after a `gust` [mph] in the face."""
    q = 0.5 * 1.225 * (gust * MPH) ** 2 * 0.85
    square = PRESS * 0.85 * q * AREA * UNEVEN / 2
    down = square * np.cos(np.radians(30)) + WEIGHT / 2
    level = square * np.sin(np.radians(30))
    load = np.hypot(down, level)
    x = (np.arange(400) + 0.5) / 400 * ARM
    moment = load / ARM * (ARM - x) ** 2 / 2
    left = _curvature_left(moment)
    hang = float((left * (ARM - x)).sum() * ARM / 400)
    return hang * float(down / load)


def _curvature_left(moment: np.ndarray) -> np.ndarray:
    """Curvature left (n,) [1/m] after a moment (n,) [N m] came and went."""
    angle = (np.arange(720) + 0.5) / 720 * 2 * np.pi
    radius = (OD - WALL) / 2
    y, area = radius * np.sin(angle), 2 * np.pi * radius * WALL / 720
    inertia = float((y**2).sum() * area)
    curvature = np.linspace(0.0, 40 * YIELD / E / radius, 4000)
    elastic = E * curvature[:, None] * y
    yielded = np.clip(elastic, -YIELD, YIELD)
    stress = yielded + HARDENS * (elastic - yielded)
    carried = (stress * y).sum(axis=1) * area
    assert moment.max() < carried[-1], "it folds"
    reached = np.interp(moment, carried, curvature)
    return reached - moment / (E * inertia)
