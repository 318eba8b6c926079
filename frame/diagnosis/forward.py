"""How a rack with given stiffnesses moves under its weight and under the pulls of a test.

The space frame of `frame.idealize` with the stiffness of its parts changed, solved under weight
and test forces alone: one factorisation with what the weight does to the stiffness (second order,
`frame.fem.second_order.geometric`). Limits: guys that have any pull stay taut under the test.
"""

import itertools
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt
from scipy import sparse

from frame.diagnosis.stiffness import Stiffness, with_stiffness
from frame.fem.assembly import load_matrix, pull_matrix
from frame.fem.factor import factorise
from frame.fem.model import AFTER, BEFORE, Model, UnitLoad
from frame.fem.response import is_staged, respond
from frame.fem.second_order.buckling import geometric_stiffness
from frame.fem.stage import Stage, stage
from frame.idealize.actions import PANEL_WEIGHT, STEEL_WEIGHT
from frame.idealize.build import build
from frame.idealize.posts import beam_mark, post_name
from frame.idealize.state import State
from frame.rack.measured import ACROSS, TURNING, Measured
from frame.rack.rack import Rack
from frame.solved.blocks import Block
from frame.solved.frames import Frame

FloatArray = npt.NDArray[np.float64]
PULL, PUSH, PRESS = "test pull", "test push", "test press"
RY = 4
ROUNDS = 2
"""Rounds of inverse iteration for how fast it shakes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """Elastic movements, SI; per 1 N where a force stands with it.

    `droop`, `unloaded`: left and right end below the beam at its post, with and without panels;
    `rolled`: slope of the beam at its post, left end down; `pulled`: post top along a pull of
    1 N; `pushed`: right end along a push of 1 N; `pressed`: how much more it slopes under 1 N down
    at the left end; `leaned`: post top out of plumb by the weight, to the left and towards the low
    edge; `shakes` [Hz] the way asked for; `guys` their mean pull [N].
    """

    droop: tuple[float, float]
    unloaded: tuple[float, float]
    rolled: float
    pulled: float
    pushed: float
    pressed: float
    leaned: tuple[float, float]
    shakes: float
    guys: float


@dataclass(frozen=True)
class Forward:
    """A rack as it stood when it was read, ready to be solved with other stiffnesses."""

    rack: Rack
    measured: Measured
    known: dict[Stiffness, Moved] = field(default_factory=dict, repr=False)

    @cached_property
    def base(self) -> Block:
        """The rack as its file has it, at the middle of every band, with its test forces."""
        ideal = build(self.rack, self.measured.tilt, self.measured.fitted, State())
        loads = [u for u in ideal.model.unit_loads if u.name in (STEEL_WEIGHT, PANEL_WEIGHT)]
        tests = _tests(self.rack, self.measured, ideal.marks, ideal.model)
        model = replace(ideal.model, unit_loads=(*loads, *tests))
        ideal = replace(ideal, model=model)
        frame = Frame(ideal=ideal, response=respond(model))
        return Block(frame=frame, bracing=self.measured.fitted, state=State(), median=True)

    @cached_property
    def mass(self) -> sparse.csr_matrix:
        """Mass (6 N, 6 N) [kg, kg m2] of steel and panels."""
        return sparse.block_diag(self.base.frame.free_sway.node_mass, format="csr")

    @cached_property
    def stiffness_of_stress(self) -> sparse.csr_matrix:
        """What the weight, with the guys' pull, does to the stiffness (6 N, 6 N) [N/m ...]."""
        block, index = self.base, self.base.frame.response.model.load_index
        factors = np.zeros((1, len(index)))
        factors[0, [index[STEEL_WEIGHT], index[PANEL_WEIGHT]]] = 1.0
        answer = block.answer(factors)
        return geometric_stiffness(
            block.frame.response.at,
            answer.member_forces[0],
            answer.connection_forces[0],
            answer.tensions[0],
        )

    def moved(self, stiffness: Stiffness) -> Moved:
        """Solve with these stiffnesses, or remember."""
        if stiffness not in self.known:
            self.known[stiffness] = self._solved(stiffness)
        return self.known[stiffness]

    def _solved(self, stiffness: Stiffness) -> Moved:
        model = with_stiffness(self.base.frame.ideal.model, self.rack, stiffness)
        free = stage(model, AFTER)
        tangent = self._tangent(model, free)
        names = [load.name for load in model.unit_loads]
        P = load_matrix(model, AFTER, free.elements) + load_matrix(model, BEFORE, free.elements)
        first = stage(model, BEFORE) if is_staged(model) else tangent
        dead = _nodal(first, P[:, [names.index(STEEL_WEIGHT), names.index(PANEL_WEIGHT)]])
        B, _ = pull_matrix(model)
        tension = np.array([guy.pretension for guy in model.guys])
        guyed = _nodal(free, (B @ tension)[:, None])[0] if tension.any() else 0.0
        tests = _nodal(tangent, P[:, [names.index(n) for n in (PULL, PUSH, PRESS)]])
        rest = dead[0], dead[0] + dead[1] + guyed
        return self._told(rest, tests, tension, self._shakes(tangent))

    def _told(
        self,
        rest: tuple[FloatArray, FloatArray],
        tests: FloatArray,
        tension: FloatArray,
        shakes: float,
    ) -> Moved:
        rack, marks, measured = self.rack, self.base.frame.ideal.marks, self.measured
        roots = [marks[beam_mark(rack, i)] for i in (0, len(rack.posts.positions) - 1)]
        ends = [marks["beam end, left"], marks["beam end, right"]]
        unloaded, loaded = rest
        pull, push, press = tests
        top, way = marks[f"{post_name(rack, 0)} top"], 1 if measured.pull_way == ACROSS else 0
        drops = [
            tuple(float(u[r, 2] - u[e, 2]) for e, r in zip(ends, roots, strict=True))
            for u in (loaded, unloaded)
        ]
        return Moved(
            droop=(drops[0][0], drops[0][1]),
            unloaded=(drops[1][0], drops[1][1]),
            rolled=float(-loaded[roots[0], RY]),
            pulled=float(pull[top, way]),
            pushed=float(push[ends[1], 1]),
            pressed=float(-press[roots[0], RY]),
            leaned=(float(-loaded[top, 0]), float(-loaded[top, 1])),
            shakes=shakes,
            guys=float(tension.mean()) if len(tension) else 0.0,
        )

    def _tangent(self, model: Model, free: Stage) -> Stage:
        """Return the stage with taut guys, as the weight leaves it."""
        taut = np.ones(len(model.guys), dtype=bool)
        held = stage(model, AFTER, taut=taut) if taut.any() else free
        K = (held.T.T @ (held.K + self.stiffness_of_stress) @ held.T).tocsr()
        return replace(held, factor=factorise(model, AFTER, held.T, K))

    def _shakes(self, at: Stage) -> float:
        """Frequency [Hz] it shakes with the way asked for, undamped.

        Rayleigh's quotient of the shape that the mass flung that way takes, improved by inverse
        iteration: Clough and Penzien, Dynamics of Structures, 2nd ed., secs. 8-6 and 14-2. Unlike
        a mode picked from several it changes smoothly with the stiffness.
        """
        xyz = np.array([n.xyz for n in at.model.nodes])
        flung = np.zeros((len(xyz), 6))
        if self.measured.shakes_way == TURNING:
            flung[:, 0], flung[:, 1], flung[:, 5] = -xyz[:, 1], xyz[:, 0], 1.0
        else:
            flung[:, 1 if self.measured.shakes_way == ACROSS else 0] = 1.0
        shape = flung.ravel()[:, None]
        load = shape
        for _ in range(ROUNDS):
            load = self.mass @ shape
            shape = at.displacements(load)
        square = (shape * load).sum() / (shape * (self.mass @ shape)).sum()
        return float(math.sqrt(square) / (2.0 * math.pi))


def _nodal(at: Stage, P: FloatArray) -> FloatArray:
    """Movements (k, N, 6) under nodal loads (6 N, k)."""
    return at.displacements(P).T.reshape(P.shape[1], -1, 6)


def _tests(
    rack: Rack, measured: Measured, marks: Mapping[str, int], model: Model
) -> Iterator[UnitLoad]:
    """Yield 1 N of each test force: pull at the post, push and press at the beam's ends."""
    along = np.eye(3)[1 if measured.pull_way == ACROSS else 0]
    yield UnitLoad(name=PULL, acts=AFTER, nodes=tuple(_pull(rack, measured, marks, model, along)))
    across = (0.0, 1.0, 0.0, 0.0, 0.0, 0.0)
    yield UnitLoad(name=PUSH, acts=AFTER, nodes=((marks["beam end, right"], across),))
    down = (0.0, 0.0, -1.0, 0.0, 0.0, 0.0)
    yield UnitLoad(name=PRESS, acts=AFTER, nodes=((marks["beam end, left"], down),))


def _pull(
    rack: Rack, measured: Measured, marks: Mapping[str, int], model: Model, way: FloatArray
) -> Iterator[tuple[int, tuple[float, float, float, float, float, float]]]:
    """Yield the nodal loads of 1 N at the height of the pull, on the first post.

    Those of cubic shape functions, for which the nodes move exactly as under the force where it
    is (any text on finite elements).
    """
    name = post_name(rack, 0)
    places = sorted(
        {
            marks[f"{name} {w}"]
            for w in ("at grade", "lug", "top", "at knees")
            if f"{name} {w}" in marks
        },
        key=lambda n: model.nodes[n].xyz[2],
    )
    z = min(max(measured.pull_height, 0.0), rack.posts.height)
    for low, high in itertools.pairwise(places):
        bottom, length = (
            model.nodes[low].xyz[2],
            model.nodes[high].xyz[2] - model.nodes[low].xyz[2],
        )
        s = (z - bottom) / length
        if not -1e-9 <= s <= 1 + 1e-9:
            continue
        shares = (1 - 3 * s**2 + 2 * s**3, 3 * s**2 - 2 * s**3)
        turns = (length * s * (1 - s) ** 2, -length * s**2 * (1 - s))
        axis = np.cross((0.0, 0.0, 1.0), way)
        for node, share, turn in zip((low, high), shares, turns, strict=True):
            six = (*(share * way), *(turn * axis))
            yield node, (six[0], six[1], six[2], six[3], six[4], six[5])
        return
