"""How fast a rack shakes, what that says about its wind loads, and how far it is from buckling."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from frame.bracing.movement import SERVICE, sleeves
from frame.bracing.slow import gust_effect
from frame.fem.assembly import load_matrix, spring_stretch
from frame.fem.element import skew
from frame.fem.model import BEFORE, Model
from frame.fem.stage import Stage
from frame.idealize.actions import PANEL_WEIGHT, STEEL_WEIGHT
from frame.idealize.deck import Slope
from frame.idealize.state import SOFT, STIFF
from frame.loads.gust import RIGID_FROM
from frame.records.motion import Shaking, Stability
from frame.solved.blocks import Block
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.units import G0

COUNT = 3
"""How many frequencies are told."""
ROUNDS = 3
"""How often shapes are taken through inverse iteration.

Against the full problem of four racks, braced in every way: the lowest frequency within 0.002 %,
the third within 0.3 %, always on the high side.
"""
SPANNED = 1e-10
"""Share of the strongest energy below which a shape is a sum of others."""
LEAST_MOMENT = 1e-3
"""Moment on a sleeve [N m] taken where the gust leaves none, so that rocking has an end."""
TILTS = (3, 4)
"""Freedoms in which a sleeve may rock: about the beam, and about the level line across it."""


@dataclass(frozen=True, slots=True)
class Body:
    """A frame without guys in m shapes that are orthonormal in its stiffness.

    `mass` (m, m) [s2]; `lines` (m, w) work of unit springs that may come or go on each shape;
    `shapes` (6 N, m) the freedoms of the nodes in each, of unit energy.
    """

    mass: FloatArray
    lines: FloatArray
    shapes: FloatArray

    @classmethod
    def of(cls, at: Stage, mass: FloatArray, lines: FloatArray) -> "Body":
        """Look for shapes that a mass (N, 6, 6) takes; `lines` (6 N, w) as unit loads.

        Answers to the mass flung every way and to the lines, taken through inverse iteration:
        Bathe, Finite Element Procedures, sec. 11.2.1 and 11.6. `at` has no guys in.
        """
        xyz = np.array([n.xyz for n in at.model.nodes])
        flung = np.hstack([_rigid(xyz - xyz.mean(axis=0)), _uneven(6 * len(xyz))])
        load = np.hstack([lines, _times(mass, flung)])
        found = []
        for _ in range(ROUNDS):
            moved = at.displacements(load)
            moved /= np.sqrt(np.maximum((moved * load).sum(axis=0), np.finfo(float).tiny))
            found.append(moved)
            load = _times(mass, moved)
        X = np.hstack(found)
        size = (X * (at.K @ X)).sum(axis=0)
        X = X[:, size > 0.0] / np.sqrt(size[size > 0.0])
        energy, q = np.linalg.eigh(X.T @ (at.K @ X))
        some = energy > SPANNED * energy[-1]
        V = X @ (q[:, some] / np.sqrt(energy[some]))
        return cls(mass=V.T @ _times(mass, V), lines=V.T @ lines, shapes=V)

    def frequencies(self, lines: Sequence[int], stiffness: FloatArray, count: int) -> FloatArray:
        """Lowest frequencies [Hz] with springs [N/m, N m/rad] added, or taken away if negative.

        (2 pi f)^-2 are the eigenvalues of the mass in the stiffness.
        """
        from scipy.linalg import eigh

        mu = eigh(self.mass, self._stiffness(lines, stiffness), eigvals_only=True)[::-1][:count]
        found: FloatArray = 1.0 / (2.0 * math.pi * np.sqrt(mu[mu > 1e-12 * mu[0]]))
        return found

    def swaying(
        self, lines: Sequence[int], stiffness: FloatArray
    ) -> tuple[FloatArray, FloatArray]:
        """Frequencies (k,) [Hz], lowest first, and shapes (6 N, k) of unit energy.

        With springs along `lines` as for `frequencies`.
        """
        from scipy.linalg import eigh

        mu, q = eigh(self.mass, self._stiffness(lines, stiffness))
        heavy = np.flatnonzero(mu > 1e-9 * mu[-1])[::-1]
        return 1.0 / (2.0 * math.pi * np.sqrt(mu[heavy])), self.shapes @ q[:, heavy]

    def give(
        self, lines: Sequence[int], added: Sequence[int], stiffness: FloatArray
    ) -> FloatArray:
        """Give (k,) [m/N, rad/(N m)] along `lines` with springs of `stiffness` along `added`."""
        push = self.lines[:, lines]
        moved = np.linalg.solve(self._stiffness(added, stiffness), push)
        return np.asarray((push * moved).sum(axis=0))

    def _stiffness(self, lines: Sequence[int], stiffness: FloatArray) -> FloatArray:
        b = self.lines[:, lines]
        return np.eye(len(b)) + (b * stiffness) @ b.T


def shaking(blocks: Iterable[Block]) -> Shaking:
    """Lowest natural frequencies of one bracing, each at the tilt where it is lowest.

    Undamped and first order (weight on the post lowers f by 1 / (2 lambda)); masses lumped at
    nodes, panels with the inertia of their pieces; the set bolts hold the swing. Soft ground,
    fitted guys taut at the soft end of their band; then all of them slack; then taut with play in
    the sleeve, see `play_give`. Clough and Penzien, Dynamics of Structures, 2nd ed., sec. 11-2.
    """
    soft = [b for b in blocks if b.state.soil == SOFT and b.state.guys != STIFF]
    found = [_shaking(b) for b in soft]
    return Shaking(
        at_rest=min(s.at_rest for s in found),
        slack=min(s.slack for s in found),
        play=min((s.play for s in found if s.play is not None), default=None),
        gust_effect=max((s.gust_effect for s in found if s.gust_effect is not None), default=None),
    )


def _shaking(block: Block) -> Shaking:
    at, springs = block.frame.response.at, sleeves(block)
    guys = block.frame.response.pulls
    rocks, k = _rocking(at.model, springs)
    lines = np.hstack([guys[:, block.fitted], rocks, _moments(at.model, springs)])
    body = Body.of(at, node_mass(block), lines)
    taut = list(range(int(block.fitted.sum())))
    pull = 1.0 / block.response.slackness[block.fitted]
    rocking = [len(taut) + i for i in range(len(k))]
    states = [(taut, pull), ([], np.zeros(0))]
    play = []
    if block.frame.rack.sleeve.clearance > 0.0:
        turned = body.give([i + len(k) for i in rocking], taut, pull)
        give = play_give(block.frame.rack.sleeve.slop, _service_moments(block, springs), turned)
        lost = -k * (k * give) / (1.0 + k * give)
        states.append(([*taut, *rocking], np.concatenate([pull, lost])))
        play = body.frequencies(*states[-1], 1).tolist()
    at_rest = body.frequencies(*states[0], COUNT).tolist()
    loose = body.frequencies(*states[1], COUNT).tolist() if taut else []
    slow = min(*at_rest, *loose, *play) < RIGID_FROM
    return Shaking(
        at_rest=tuple(at_rest),
        slack=tuple(loose),
        play=play[0] if play else None,
        gust_effect=max(gust_effect(block, *body.swaying(*s)) for s in states) if slow else None,
    )


def play_give(slop: float, moment: FloatArray, turned: FloatArray) -> FloatArray:
    """Give [rad/(N m)] that stands for the play of a sleeve that rocks from stop to stop.

    A mass on a spring that turns `turned` c [rad/(N m)], free over `slop` s [rad] each way from
    the middle, driven as far as to strain it by `moment` M [N m]: crossing the play at
    v = omega M c makes the period 2 pi / omega (1 + a / c) with a = 2 s / (pi M), the period of a
    spring that gives c (1 + a / c)^2 = c + 2 a + a^2 / c. Exact for that mass; for a whole rack a
    judgement. In smaller gusts it rocks more slowly still; pressed to one stop, as at rest.
    """
    a = 2.0 * slop / (math.pi * np.maximum(moment, LEAST_MOMENT))
    return 2.0 * a + a**2 / turned


def node_mass(block: Block) -> FloatArray:
    """Mass (N, 6, 6) [kg, kg m2] of steel and panels lumped at the nodes.

    Each piece of panel on a clamp turns as a rectangle half a panel long, as wide as its mass has
    it; steel is lumped from member to nodes, which makes it turn more slowly (safe side).
    """
    model, panels = block.frame.ideal.model, block.frame.rack.panels
    P = load_matrix(model, BEFORE, block.frame.response.at.elements)[2::6] / -G0
    steel, deck = (
        np.maximum(P[:, model.load_index[name]], 0.0) for name in (STEEL_WEIGHT, PANEL_WEIGHT)
    )
    up = Slope(block.frame.ideal.tilt).up
    long = panels.height / 2
    wide = deck * G0 * panels.width * panels.height / (panels.weight * long)
    x = np.array([1.0, 0.0, 0.0])
    square = [long**2 * (np.eye(3) - np.outer(up, up)), np.eye(3) - np.outer(x, x)]
    mass = np.zeros((len(deck), 6, 6))
    mass[:, :3, :3] = (steel + deck)[:, None, None] * np.eye(3)
    turns = square[0] + wide[:, None, None] ** 2 * square[1]
    mass[:, 3:, 3:] = deck[:, None, None] / 12.0 * turns
    return mass


def stability(nows: Iterable[Situation]) -> Stability:
    """Lowest buckling factor of one bracing over the cases solved, with its case in words."""
    worst: tuple[float, Situation, int] | None = None
    for now in nows:
        case = int(now.lowest.argmin())
        if worst is None or now.lowest[case] < worst[0]:
            worst = float(now.lowest[case]), now, case
    if worst is None:
        raise ValueError("no cases to look for buckling in")
    factor, now, case = worst
    return Stability(
        factor=factor,
        gust=float(now.gust[case]),
        words=now.table.words[case],
        tilt=now.block.frame.ideal.tilt,
    )


def _times(mass: FloatArray, shapes: FloatArray) -> FloatArray:
    """Mass (N, 6, 6) times shapes (6 N, k)."""
    product: FloatArray = (mass @ shapes.reshape(len(mass), 6, -1)).reshape(shapes.shape)
    return product


def _rigid(xyz: FloatArray) -> FloatArray:
    """Move and turn everything as one body (6 N, 6)."""
    found = np.tile(np.eye(6), (len(xyz), 1, 1))
    found[:, :3, 3:] = -skew(xyz)
    moved: FloatArray = found.reshape(-1, 6)
    return moved


def _uneven(size: int) -> FloatArray:
    """Shapes (size, 3) that no symmetry hides, the same every time."""
    uneven: FloatArray = np.cos(np.arange(size)[:, None] * np.array([1.0, 2.3, 3.7]))
    return uneven


def _rocking(model: Model, springs: Sequence[int]) -> tuple[FloatArray, FloatArray]:
    """Lines (6 N, k) of the springs in which sleeves rock, and their stiffness (k,) [N m/rad]."""
    lines = np.zeros((6 * len(model.nodes), len(springs) * len(TILTS)))
    k = []
    for i, c in enumerate(springs):
        joint = model.connections[c]
        stretch = spring_stretch(model, joint)
        dofs = (6 * np.array(joint.ends)[:, None] + np.arange(6)).ravel()
        for j, tilt in enumerate(TILTS):
            lines[dofs, len(TILTS) * i + j] = stretch[tilt]
            k.append(joint.k[tilt])
    return lines, np.array(k, dtype=float)


def _moments(model: Model, springs: Sequence[int]) -> FloatArray:
    """Put unit moments (6 N, k) on the beam at each sleeve."""
    nodes = [model.connections[c].ends[1] for c in springs]
    rows = [6 * node + tilt for node in nodes for tilt in TILTS]
    P = np.zeros((6 * len(model.nodes), len(rows)))
    P[rows, np.arange(len(rows))] = 1.0
    return P


def _service_moments(block: Block, springs: Sequence[int]) -> FloatArray:
    """Largest moment (k,) [N m] on each sleeve in the service gust, either way."""
    table, site = block.frame.cases(SERVICE), block.frame.rack.site
    answer = block.answer(table.at(block.frame.pressure(site.service_gust)))
    moments = np.abs(answer.connection_forces[:, springs][:, :, list(TILTS)]).max(axis=0)
    return np.asarray(moments).ravel()
