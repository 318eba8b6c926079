"""A frame rebuilt from the JSON document alone, by a route of its own.

Members as simply supported beams: six deformations and their flexibility (end rotations L / 3EI
and L / 6EI, of uniform load w L^3 / 24EI), released moments left out of it, then turned round.
What is rigid is held by Lagrange multipliers, which are the joint forces and reactions. Guys:
every set of taut ones is tried. Nothing of the package is used.
"""

from dataclasses import dataclass
from itertools import product
from typing import Any

import numpy as np
from scipy.linalg import lu_factor, lu_solve

Array = np.ndarray
Data = dict[str, Any]


def cross_matrix(v: Array) -> Array:
    x, y, z = v
    return np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]], dtype=float)


def carry(arm: Array) -> Array:
    """Movement of a point on a rigid arm from that of the node it starts at."""
    matrix = np.eye(6)
    matrix[:3, 3:] = -cross_matrix(arm)
    return matrix


@dataclass(frozen=True)
class Bar:
    """`strain` (6, 12) deformations from node freedoms, `stiff` (6, 6), `turn` local axes."""

    freedoms: Array
    to_ends: Array
    strain: Array
    stiff: Array
    length: float
    turn: Array
    bends: tuple[float, float]

    def held(self, w: Array) -> Array:
        """Forces on the local ends (12,) under a uniform load (global) with the nodes held."""
        x, y, z = self.turn @ w
        ends = np.zeros(12)
        ends[[0, 6]], ends[[1, 7]], ends[[2, 8]] = (-f * self.length / 2 for f in (x, y, z))
        EIz, EIy = self.bends
        slope_z = y * self.length**3 / 24 / EIz
        slope_y = -z * self.length**3 / 24 / EIy
        free = np.array([0, 0, slope_z, -slope_z, slope_y, -slope_y])
        return ends - self.strain.T @ self.stiff @ free


def bar(member: Data, nodes: Array) -> Bar:
    i, j = member["ends"]
    arms = np.array(member["setback"], dtype=float)
    line = nodes[j] + arms[1] - nodes[i] - arms[0]
    L = float(np.linalg.norm(line))
    x = line / L
    y = np.array(member["y_axis"], dtype=float)
    y = y - (y @ x) * x
    y /= np.linalg.norm(y)
    turn = np.array([x, y, np.cross(x, y)])
    EIz, EIy = member["E"] * member["Iz"], member["E"] * member["Iy"]
    give = np.zeros((6, 6))
    give[0, 0], give[1, 1] = L / member["E"] / member["A"], L / member["G"] / member["J"]
    for at, EI in ((2, EIz), (4, EIy)):
        give[at : at + 2, at : at + 2] = L / EI * np.array([[1 / 3, -1 / 6], [-1 / 6, 1 / 3]])
    let_go = {2 * "zy".index(f[1]) + 2 + end for end in (0, 1) for f in member["free"][end]}
    kept = [n for n in range(6) if n not in let_go]
    stiff = np.zeros((6, 6))
    stiff[np.ix_(kept, kept)] = np.linalg.inv(give[np.ix_(kept, kept)])
    strain = np.zeros((6, 12))
    strain[0, [0, 6]] = strain[1, [3, 9]] = -1, 1
    for end in (0, 1):
        strain[2 + end, [1, 7, 5 + 6 * end]] = 1 / L, -1 / L, 1
        strain[4 + end, [2, 8, 4 + 6 * end]] = -1 / L, 1 / L, 1
    six = np.kron(np.eye(2), turn)
    to_ends = np.zeros((12, 12))
    for end in (0, 1):
        at = slice(6 * end, 6 * end + 6)
        to_ends[at, at] = six @ carry(arms[end])
    freedoms = np.concatenate([6 * n + np.arange(6) for n in (i, j)])
    return Bar(freedoms, to_ends, strain, stiff, L, turn, (EIz, EIy))


class Stage:
    """What stands "before", or all of it, with multipliers for what is rigid."""

    def __init__(self, document: Data, *, everything: bool) -> None:
        self.here = lambda part: everything or part["fitted"] == "before"
        self.document = document
        self.nodes = np.array([n["xyz"] for n in document["nodes"]], dtype=float)
        self.bars = [bar(m, self.nodes) for m in document["members"]]
        size = 6 * len(self.nodes)
        K = np.zeros((size, size))
        touched: set[int] = set()
        for member, b in zip(document["members"], self.bars, strict=True):
            if self.here(member):
                B = b.strain @ b.to_ends
                K[np.ix_(b.freedoms, b.freedoms)] += B.T @ b.stiff @ B
                touched |= set(member["ends"])
        self.owner: list[tuple[str, int, int]] = []
        rigid = self.add_springs(K, touched)
        self.free = np.array([6 * n + f for n in sorted(touched) for f in range(6)])
        C = np.array(rigid).reshape(-1, size)[:, self.free]
        K = K[np.ix_(self.free, self.free)]
        self.even = 1 / np.sqrt(np.maximum(K.diagonal(), 1.0))
        C *= self.even
        self.matrix = np.block(
            [[K * self.even * self.even[:, None], C.T], [C, np.zeros((len(C), len(C)))]]
        )
        self.factor = lu_factor(self.matrix)

    def add_springs(self, K: Array, touched: set[int]) -> list[Array]:
        """Add springs of joints and ground to K; return a row for each thing held rigidly."""
        rigid: list[Array] = []
        for kind in ("connection", "support"):
            for i, part in enumerate(self.document[f"{kind}s"]):
                if not self.here(part):
                    continue
                joint = kind == "connection"
                touched |= set(part["ends"] if joint else [part["node"]])
                for n, row in enumerate(self.gap(part) if joint else self.at(part["node"])):
                    if part["k"][n] is None if joint else part["fixed"][n]:
                        rigid.append(row)
                        self.owner.append((kind, i, n))
                    else:
                        K += part["k"][n] * np.outer(row, row)
        return rigid

    def at(self, node: int) -> Array:
        """Rows (6, all) that pick a node's freedoms."""
        return np.eye(6 * len(self.nodes))[6 * node : 6 * node + 6]

    def gap(self, joint: Data) -> Array:
        """Rows (6, all): movement of the second node past the first one's arm, in the axes."""
        first, second = joint["ends"]
        six = np.kron(np.eye(2), np.array(joint["axes"], dtype=float))
        rows = np.zeros((6, 6 * len(self.nodes)))
        arm = self.nodes[second] - self.nodes[first]
        rows[:, 6 * first : 6 * first + 6] = -six @ carry(arm)
        rows[:, 6 * second : 6 * second + 6] += six
        return rows

    def solve(self, P: Array) -> tuple[Array, Array]:
        """Movements (all, k) and multipliers (rigid, k) under nodal loads (all, k)."""
        right = np.zeros((len(self.matrix), P.shape[1]))
        right[: len(self.free)] = P[self.free] * self.even[:, None]
        found = lu_solve(self.factor, right)
        found += lu_solve(self.factor, right - self.matrix @ found)
        u = np.zeros_like(P)
        u[self.free] = found[: len(self.free)] * self.even[:, None]
        return u, found[len(self.free) :]

    def forces(self, u: Array, multipliers: Array, w: dict[int, Array]) -> dict[str, Array]:
        """Member, joint and ground forces of one set of movements (all,)."""
        members = np.zeros((len(self.bars), 12))
        for m, (member, b) in enumerate(zip(self.document["members"], self.bars, strict=True)):
            if self.here(member):
                strained = b.strain @ b.to_ends @ u[b.freedoms]
                members[m] = b.strain.T @ b.stiff @ strained + b.held(w.get(m, np.zeros(3)))
        joints = np.zeros((len(self.document["connections"]), 6))
        for c, joint in enumerate(self.document["connections"]):
            if self.here(joint):
                k = np.array([0.0 if k is None else k for k in joint["k"]])
                joints[c] = -k * (self.gap(joint) @ u)
        ground = np.zeros((len(self.document["supports"]), 6))
        for s, support in enumerate(self.document["supports"]):
            if self.here(support):
                at = slice(6 * support["node"], 6 * support["node"] + 6)
                ground[s] = -np.where(support["fixed"], 0.0, support["k"]) * u[at]
        for (kind, i, part), value in zip(self.owner, multipliers, strict=True):
            (joints if kind == "connection" else ground)[i, part] = -value
        return {
            "displacements": u.reshape(-1, 6),
            "member_forces": members,
            "connection_forces": joints,
            "reactions": ground,
        }

    def loads(self, factors: dict[str, float], acts: str) -> tuple[Array, dict[int, Array]]:
        """Nodal loads (all,) of a case, uniform ones in them, and the uniform ones by member."""
        P = np.zeros(6 * len(self.nodes))
        w: dict[int, Array] = {}
        for load in self.document["unit_loads"]:
            factor = factors.get(load["name"], 0.0)
            if factor and load["acts"] == acts:
                for node, six in load["nodes"]:
                    P[6 * node : 6 * node + 6] += factor * np.array(six)
                for member, line in load["members"]:
                    w[member] = w.get(member, np.zeros(3)) + factor * np.array(line)
        for member, line in w.items():
            b = self.bars[member]
            P[b.freedoms] -= b.to_ends.T @ b.held(line)
        return P, w


def pulls(document: Data) -> tuple[Array, Array]:
    """Columns (all, guys) of 1 N toward each anchor, and EA / L."""
    B = np.zeros((6 * len(document["nodes"]), len(document["guys"])))
    k = np.zeros(len(document["guys"]))
    for g, guy in enumerate(document["guys"]):
        arm = np.array(guy["setback"])
        way = np.array(guy["anchor"]) - document["nodes"][guy["node"]]["xyz"] - arm
        length = np.linalg.norm(way)
        at = 6 * guy["node"]
        B[at : at + 3, g] = way / length
        B[at + 3 : at + 6, g] = np.cross(arm, way / length)
        k[g] = guy["EA"] / length
    return B, k


def taut_by_trial(F: Array, k: Array, t0: Array, stretch: Array) -> Array:
    """Pull of the guys (cases, guys): every set of taut guys tried, the one that fits taken.

    From rest at pretension t0 a guy that gets longer by d pulls t0 + k d, or nothing where that
    would be a push; d = stretch - F (t - t0).
    """
    sets = np.array(list(product([False, True], repeat=len(k))), dtype=bool)
    both = sets[:, :, None] & sets[:, None, :]
    matrix = np.where(both, F + np.diag(1 / k), np.eye(len(k)))
    whole = t0 / k + F @ t0 + stretch
    right = np.where(sets[:, None], whole, 0.0)
    t = right @ np.linalg.inv(matrix)
    would = t0 + k * (stretch - (t - t0) @ F)
    misfit = np.where(sets[:, None], np.maximum(-t, 0), np.maximum(would, 0)).max(axis=2)
    best = misfit.argmin(axis=0)
    assert misfit[best, np.arange(len(best))].max() < 1e-6 * np.abs(whole * k).max()
    return t[best, np.arange(len(best))]


def rebuild(document: Data) -> list[dict[str, Array]]:
    """Answer every case of the document."""
    before, after = (Stage(document, everything=e) for e in (False, True))
    cases = document["cases"]
    first = [before.loads(c["factors"], "before") for c in cases]
    later = [after.loads(c["factors"], "after") for c in cases]
    B, k = pulls(document)
    early, early_rigid = before.solve(np.column_stack([P for P, _ in first]))
    P = np.column_stack([P for P, _ in later])
    tensions = np.zeros((len(cases), len(k)))
    if len(k):
        F = B.T @ after.solve(B)[0]
        t0 = np.array([g["pretension"] for g in document["guys"]])
        stretch = -(B.T @ after.solve(P)[0]).T
        tensions = taut_by_trial((F + F.T) / 2, k, t0, stretch)
    late, late_rigid = after.solve(P + B @ tensions.T)
    found = []
    for i in range(len(cases)):
        one = before.forces(early[:, i], early_rigid[:, i], first[i][1])
        two = after.forces(late[:, i], late_rigid[:, i], later[i][1])
        found.append({key: one[key] + two[key] for key in one} | {"guy_tensions": tensions[i]})
    return found
