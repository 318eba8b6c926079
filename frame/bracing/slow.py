"""Gust effect factor of a rack that answers the gusts slowly, with the damping of the air."""

import math

import numpy as np

from frame.fem.assembly import load_matrix
from frame.fem.model import AFTER
from frame.idealize.actions import wind_height
from frame.idealize.deck import Slope
from frame.loads.gust import DAMPING, Outline, air_damping, flexible_gust_effect, mean_wind
from frame.loads.terrain import terrain
from frame.loads.wind import GUST_EFFECT, monoslope_coefficients
from frame.solved.blocks import Block
from frame.solved.frames import FloatArray

QUARTERS = tuple(
    f"panels, {half} {side}" for half in ("lower", "upper") for side in ("left", "right")
)
"""Unit loads of 1 Pa on the panels."""
WINDS = (("front", "A"), ("front", "B"), ("back", "A"), ("back", "B"))
"""Directions and cases of the pressure table; with air passing freely.

Blocked air brings less drag and less damping, but the load falls with the drag.
"""


def outlines(block: Block) -> tuple[Outline, Outline]:
    """Outline of the panels in wind across the beam, and in wind along it."""
    rack, slope = block.frame.rack, Slope(block.frame.ideal.tilt)
    wide, deep = rack.panels.spread, rack.panels.chord * float(slope.up[1])
    height = wind_height(rack, slope)
    return (
        Outline(height=height, width=wide, depth=deep),
        Outline(height=height, width=deep, depth=wide),
    )


def gust_effect(block: Block, frequency: FloatArray, shapes: FloatArray) -> float:
    """Gust effect factor [1] at the map gust of a rack under 1 Hz, ASCE/SEI 7-22 26.11.5.

    `frequency` (k,) [Hz] and `shapes` (6 N, k) it sways in, of unit energy. Each shape answers
    with its share of how far wind pushes the rack along (`wind_on`), for wind does not drive a
    swing or a sway along the beam; it is damped by the steel and by the air. The larger of the
    wind across and along the beam, no less than 0.85 (safe side). Wind along the beam damps what
    it shakes at least as much: a plate that moves square to a wind that grazes it gains a
    coefficient of 2 or more per radian (judgement).
    """
    site = block.frame.rack.site
    ground = terrain(site.exposure)
    share, facing = wind_on(block, shapes)
    tilt = block.frame.ideal.tilt
    least = min(abs(sum(monoslope_coefficients(tilt, *w, "clear"))) / 2 for w in WINDS)
    mass = 1.0 / (2 * math.pi * frequency) ** 2
    factors = []
    for outline in outlines(block):
        wind = mean_wind(site.map_gust, outline, ground)
        damping = DAMPING + air_damping(least, facing, mass, wind, frequency)
        factors.append(
            flexible_gust_effect(frequency, site.map_gust, outline, ground, damping, share)
        )
    return max(GUST_EFFECT, *factors)


def wind_on(block: Block, shapes: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Share [1] of how far drag moves the panels in each shape, and area facing the wind, (k,).

    `shapes` (6 N, k). A piece of panel A that moves by u in a shape is damped by A (e u)(n u), n
    square to the panels and e along the wind: for a shape that moves all of it level by 1 m that
    is A sin(tilt), the area seen along the wind. Drag is A (e u); its share of give is its square.
    """
    model = block.frame.ideal.model
    P = load_matrix(model, AFTER, block.frame.response.at.elements)
    load = P[:, [model.load_index[name] for name in QUARTERS]].sum(axis=1)
    push = load.reshape(-1, 6)[:, :3]
    area = np.linalg.norm(push, axis=1)
    moved = shapes.reshape(len(push), 6, -1)[:, :3]
    driven = (area @ moved[:, 1]) ** 2
    facing = ((push[:, :, None] * moved).sum(axis=1) * moved[:, 1]).sum(axis=0)
    return driven / driven.sum(), np.maximum(facing, 0.0)
