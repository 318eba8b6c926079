"""The ground around a post as springs along its embedded length."""

import math
from dataclasses import dataclass

import numpy as np

from frame.fem.model import Six
from frame.idealize.state import MIDDLE, between
from frame.rack.post import Posts
from frame.tables.soils import Soil

POISSON = 0.35
"""Poisson's ratio of soil, middle of the usual range (judgement)."""
CONCRETE_MODULUS = 17.6e9
"""Of weak concrete, f'c 2000 psi, 57 000 sqrt(f'c) psi, ACI 318 19.2.2.1 (from memory) [Pa]."""


@dataclass(frozen=True, slots=True)
class Layer:
    """Springs of one node of the embedded post, and its depth [m]."""

    depth: float
    k: Six


def lateral_stiffness(soil: Soil, depth: float, where: str) -> float:
    """Force per length of post and per movement [N/m2] at a `depth` below grade [m].

    Constant in clay (Davisson 1970), growing with depth in sand (Terzaghi 1955); independent of
    the width of the post. `where`: "soft", "middle" or "stiff".
    """
    rate = between(soil.stiffness_soft, soil.stiffness_stiff, where)
    if where == MIDDLE and soil.stiffness_middle:
        rate = soil.stiffness_middle
    return rate * depth if soil.law == "linear" else rate


def shear_modulus(lateral: float) -> float:
    """Shear modulus of the soil [Pa] behind a lateral stiffness [N/m2].

    Young's modulus taken equal to the lateral stiffness per length (between Vesic's 0.65 and 1.2
    times it; judgement), G = E / (2 (1 + nu)).
    """
    return lateral / (2 * (1 + POISSON))


def spring_width(posts: Posts) -> float:
    """Width of what bears on the ground [m]: the filled hole if concrete, else the pipe."""
    footing = posts.footing
    return footing.hole if footing.cast else posts.pipe.od


def embedded_depths(posts: Posts, pieces: int = 8) -> np.ndarray:
    """Depths [m] of the nodes of the embedded post, from the foot up to just below grade."""
    return np.linspace(posts.footing.depth, 0.0, pieces + 1)[:-1]


def layers(posts: Posts, soil: Soil, where: str, *, turns: bool = False) -> tuple[Layer, ...]:
    """Springs at each embedded node, from the foot up.

    Lateral: the soil's stiffness over the node's share of the depth, none above the ignored top.
    Turning about the post's axis: 4 pi G r^2 per length (Randolph 1981, piles in torsion, from
    memory), none where the post `turns` freely. Foot: rigid disc on an elastic half-space,
    4 G r / (1 - nu); it is modelled both ways, and a lifted foot is for the checks to find.
    """
    depths = embedded_depths(posts)
    share = posts.footing.depth / len(depths)
    radius = spring_width(posts) / 2
    found = []
    for i, depth in enumerate(depths):
        low = depth if i == 0 else depth + share / 2
        high = depth - share / 2
        length = max(0.0, low - max(high, posts.footing.ignored))
        lateral = lateral_stiffness(soil, depth, where) if length else 0.0
        shear = shear_modulus(lateral)
        side = lateral * length
        turning = 0.0 if turns else 4 * math.pi * shear * radius**2 * length
        foot = 4 * shear * radius / (1 - POISSON) if i == 0 else 0.0
        found.append(Layer(float(depth), (side, side, foot, 0.0, 0.0, turning)))
    return tuple(found)


def encased_second_moment(posts: Posts, where: str, modulus: float) -> float:
    """Second moment of the embedded post [m4] in terms of steel of `modulus` [Pa].

    The bare pipe; with a concrete-filled hole in stiff ground half the gross concrete stiffness is
    added (cracked; judgement), which draws moment to the post as the stiff end of the band should.
    """
    pipe = posts.pipe.design.second_moment
    if not posts.footing.cast or where != "stiff":
        return pipe
    gross = math.pi / 64 * (posts.footing.hole**4 - posts.pipe.od**4)
    return pipe + 0.5 * gross * CONCRETE_MODULUS / modulus
