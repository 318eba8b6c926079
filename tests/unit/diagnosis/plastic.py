"""A beam arm bent past yield in a gust in the face, by fibres of its section.

Not a line of it is the program's: pressure of the gust on a tilted plate, moments of a cantilever,
a tube in fibres that yield and harden a little, the curvature left when the load goes.
"""

import numpy as np

from frame.rack.rack import Rack

LB, INCH, MPH = 4.4482216152605, 0.0254, 0.44704  # NIST SP 811, appendix B
E, YIELD = 199.948e9, 45e3 * LB / INCH**2
PRESS = 2.2
"""Force square to a plate at 30 deg over q and its area, of the order of ASCE/SEI 7-22 Fig. 27.3-4
(monoslope, open; from memory), gust effect 0.85 in."""
HARDENS = 0.02
"""Slope of stress past yield over E: mild steel, of the usual order (judgement)."""
UNEVEN = 1.48
"""What the half struck harder gets over the mean (judgement)."""
POINTS, FIBRES = 400, 360


def hang_after(rack: Rack, gust: float) -> float:
    """How far a beam end hangs for good [m] after a `gust` [m/s] on panels at 30 deg."""
    q = 0.5 * 1.225 * gust**2 * 0.85
    panels, rails = rack.panels, rack.rails
    weight = panels.total_weight + len(rails.positions) * rails.length * rails.channel.weight
    square = PRESS * 0.85 * q * panels.area * UNEVEN / 2
    down = square * np.cos(np.radians(30)) + weight / 2
    load = np.hypot(down, square * np.sin(np.radians(30)))
    arm = rack.beam.length / 2
    x = (np.arange(POINTS) + 0.5) / POINTS * arm
    left = _curvature_left(rack, load / arm * (arm - x) ** 2 / 2)
    hang = float((left * (arm - x)).sum() * arm / POINTS)
    return hang * float(down / load)


def bending_gust(rack: Rack, hang: float) -> float:
    """Gust [m/s] that leaves a beam end hanging by that [m], by halving."""
    low, high = 10.0, 100.0
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if hang_after(rack, middle) < hang else (low, middle)
    return low


def _curvature_left(rack: Rack, moment: np.ndarray) -> np.ndarray:
    """Curvature left (n,) [1/m] after a moment (n,) [N m] came and went."""
    od, wall = rack.beam.pipe.od, rack.beam.pipe.wall
    angle = (np.arange(FIBRES) + 0.5) / FIBRES * 2 * np.pi
    radius = (od - wall) / 2
    y, area = radius * np.sin(angle), 2 * np.pi * radius * wall / FIBRES
    inertia = float((y**2).sum() * area)
    curvature = np.linspace(0.0, 400 * YIELD / E / radius, 8000)
    elastic = E * curvature[:, None] * y
    yielded = np.clip(elastic, -YIELD, YIELD)
    carried = ((yielded + HARDENS * (elastic - yielded)) * y).sum(axis=1) * area
    reached = np.interp(moment, carried, curvature)
    return reached - moment / (E * inertia)
