"""How a frame sways by itself, and the gust effect factor of one that does so slowly.

ASCE/SEI 7-22 26.2: a structure whose lowest natural frequency is under 1 Hz is flexible, and takes
Gf of 26.11.5 in place of G = 0.85. The lowest is taken of all shapes, whichever way: a swing about
the post is not driven by even wind, but by a gust on one half, and what that adds is in no factor
of the standard (C26.11, from memory: none for dynamic torsion). Gf is then that of the shapes that
even wind drives.
"""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from frame.fem.assembly import dofs_of, spring_stretch
from frame.fem.model import Connection, Model
from frame.fem.response import Response
from frame.fem.swaying import Body, at_most
from frame.idealize.actions import PANEL_WEIGHT, STEEL_WEIGHT, wind_height
from frame.idealize.build import Idealized
from frame.idealize.deck import Slope
from frame.loads.cases import ACROSS, QUARTER_LOADS
from frame.loads.gust import (
    DAMPING,
    RIGID_FROM,
    Outline,
    air_damping,
    flexible_gust_effect,
    mean_wind,
)
from frame.loads.terrain import terrain
from frame.loads.wind import GUST_EFFECT, monoslope_coefficients
from frame.named.part import PartKind
from frame.units import G0

FloatArray = npt.NDArray[np.float64]
SURELY = 1.2
"""Frequency [Hz] found by `at_most` from which on the lowest is surely not under 1 Hz."""
TILTS = (3, 4)
"""Freedoms in which a sleeve may rock: about the beam, and about the level line across it."""
WINDS = (("front", "A"), ("front", "B"), ("back", "A"), ("back", "B"))
"""Directions and cases of the pressure table; with air passing freely.

Blocked air brings less drag and less damping, but the load falls with the drag.
"""


@dataclass(frozen=True, kw_only=True)
class Swaying:
    """A frame with the mass of what stands: steel and panels, no snow and no ice."""

    ideal: Idealized
    response: Response

    @cached_property
    def node_mass(self) -> FloatArray:
        """Mass (N, 6, 6) [kg, kg m2] of steel and panels lumped at the nodes, read-only.

        Each piece of panel on a clamp turns as a rectangle half a panel long, as wide as its mass
        has it; steel is lumped from member to nodes, which makes it turn more slowly (safe side).
        """
        index, panels = self.response.model.load_index, self.ideal.rack.panels
        down = self.response.loads[2::6] / -G0
        steel, deck = (
            np.maximum(down[:, index[name]], 0.0) for name in (STEEL_WEIGHT, PANEL_WEIGHT)
        )
        up = Slope(self.ideal.tilt).up
        long = panels.height / 2
        wide = deck * G0 * panels.width * panels.height / (panels.weight * long)
        x = np.array([1.0, 0.0, 0.0])
        square = [long**2 * (np.eye(3) - np.outer(up, up)), np.eye(3) - np.outer(x, x)]
        mass = np.zeros((len(deck), 6, 6))
        mass[:, :3, :3] = (steel + deck)[:, None, None] * np.eye(3)
        turns = square[0] + wide[:, None, None] ** 2 * square[1]
        mass[:, 3:, 3:] = deck[:, None, None] / 12.0 * turns
        mass.flags.writeable = False
        return mass

    @property
    def guys(self) -> range:
        """Positions of the guys among the `body`'s lines."""
        return range(len(self.response.slackness))

    @cached_property
    def rocking(self) -> FloatArray:
        """Stiffness (k,) [N m/rad] of the springs in which sleeves rock.

        They come after the guys among the `body`'s lines; after them unit moments on the beam
        along each.
        """
        springs = _sleeves(self.response.model)
        return np.array([s.k[tilt] for s in springs for tilt in TILTS], dtype=float)

    @cached_property
    def body(self) -> Body:
        """Everything in the few shapes that it sways in."""
        model = self.response.model
        lines = np.hstack([self.response.pulls, _rocks(model), _moments(model)])
        return Body.of(self.response.at, self.node_mass, lines)

    @cached_property
    def quick(self) -> bool:
        """Whether it sways no slower than 1 Hz even with every guy slack."""
        if at_most(self.response, self.node_mass) > SURELY:
            return True
        return bool(self.body.frequencies([], np.zeros(0), 1)[0] >= RIGID_FROM)

    @property
    def least(self) -> float:
        """Least mean coefficient CN [1] of the panels among `WINDS`."""
        pairs = (monoslope_coefficients(self.ideal.tilt, *w, "clear") for w in WINDS)
        return min(abs(sum(pair)) / 2 for pair in pairs)

    def outlines(self) -> tuple[Outline, Outline]:
        """Outline of the panels in wind across the beam, and in wind along it."""
        rack, slope = self.ideal.rack, Slope(self.ideal.tilt)
        wide, deep = rack.panels.spread, rack.panels.chord * float(slope.up[1])
        height = wind_height(rack, slope)
        return (
            Outline(height=height, width=wide, depth=deep),
            Outline(height=height, width=deep, depth=wide),
        )

    def gust_effect(self, held: FloatArray) -> float:
        """Gust effect factor G [1] with guys held by springs (G,) [N/m], nil where slack.

        From 1 Hz up the 0.85 of ASCE/SEI 7-22 26.11.1. Under it Gf of 26.11.5 at the map gust, as
        the standard has it, whatever gust is asked about: at other gusts the factor of a rack at
        0.6 Hz changes by some 3 % from 40 to 105 mph. First order: weight on a post lowers f by
        1 / (2 lambda). The sleeve is at one stop, where such a gust presses it; snow and ice,
        which slow a rack further but come with less wind, are left out (judgement).
        """
        frequency, shapes = self.body.swaying(self.guys, held)
        if frequency[0] >= RIGID_FROM:
            return GUST_EFFECT
        return max(GUST_EFFECT, self.flexible(frequency, shapes))

    def flexible(self, frequency: FloatArray, shapes: FloatArray) -> float:
        """Gf [1] at the map gust, ASCE/SEI 7-22 26.11.5, whatever the lowest frequency.

        `frequency` (k,) [Hz] and `shapes` (6 N, k) it sways in, of unit energy. Each shape answers
        with its share of how far even wind pushes the rack along (`wind_on`), nil of a swing or a
        sway along the beam; it is damped by the steel and by the air. The larger of the wind
        across and along the beam (safe side). Wind along the beam damps what it shakes at least as
        much: a plate that moves square to a wind that grazes it gains a coefficient of 2 or more
        per radian (judgement).
        """
        site = self.ideal.rack.site
        ground = terrain(site.exposure)
        share, facing = self.wind_on(shapes)
        mass = 1.0 / (2 * math.pi * frequency) ** 2
        factors = []
        for outline in self.outlines():
            wind = mean_wind(site.map_gust, outline, ground)
            damping = DAMPING + air_damping(self.least, facing, mass, wind, frequency)
            factors.append(
                flexible_gust_effect(frequency, site.map_gust, outline, ground, damping, share)
            )
        return max(factors)

    def wind_on(self, shapes: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Share [1] of how far wind pushes the panels along, and area facing it, in shapes, (k,).

        `shapes` (6 N, k). The work that pressure on the panels and drag do on a shape, times how
        far it moves the panels along; what shapes do against each other counts as if with each
        other (safe side). A piece of panel A that moves by u, n square to it and e along the wind,
        is damped by A (e u)(n u): for a shape that moves all of it level by 1 m that is
        A sin(tilt), the area seen along the wind.
        """
        index, loads = self.response.model.load_index, self.response.loads
        panels = loads[:, [index[name] for name in QUARTER_LOADS]].sum(axis=1)
        work = (self.least * panels + loads[:, index[ACROSS]]) @ shapes
        push = panels.reshape(-1, 6)[:, :3]
        moved = shapes.reshape(len(push), 6, -1)[:, :3]
        along = moved[:, 1]
        driven = np.abs(work * (np.linalg.norm(push, axis=1) @ along))
        facing = ((push[:, :, None] * moved).sum(axis=1) * along).sum(axis=0)
        return driven / driven.sum(), np.maximum(facing, 0.0)


def _sleeves(model: Model) -> list[Connection]:
    return [model.connections[c] for c in model.connections_of(PartKind.SLEEVE)]


def _rocks(model: Model) -> FloatArray:
    """Lines (6 N, k) of the springs in which sleeves rock."""
    springs = _sleeves(model)
    lines = np.zeros((6 * len(model.nodes), len(springs) * len(TILTS)))
    for i, joint in enumerate(springs):
        stretch, dofs = spring_stretch(model, joint), dofs_of(joint.ends)
        for j, tilt in enumerate(TILTS):
            lines[dofs, len(TILTS) * i + j] = stretch[tilt]
    return lines


def _moments(model: Model) -> FloatArray:
    """Put unit moments (6 N, k) on the beam at each sleeve."""
    rows = [6 * s.ends[1] + tilt for s in _sleeves(model) for tilt in TILTS]
    P = np.zeros((6 * len(model.nodes), len(rows)))
    P[rows, np.arange(len(rows))] = 1.0
    return P
