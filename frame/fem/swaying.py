"""How fast a frame sways by itself: natural frequencies and shapes, in a few shapes."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from frame.fem.element import Array, skew
from frame.fem.model import AFTER
from frame.fem.response import Response
from frame.fem.stage import Stage

ROUNDS = 3
"""How often shapes are taken through inverse iteration.

Against the full problem of four racks, braced in every way: the lowest frequency within 0.002 %,
the third within 0.3 %, always on the high side.
"""
SPANNED = 1e-10
"""Share of the strongest energy below which a shape is a sum of others."""


@dataclass(frozen=True, slots=True)
class Body:
    """A frame without guys in m shapes that are orthonormal in its stiffness.

    `mass` (m, m) [s2]; `lines` (m, w) work of unit springs that may come or go on each shape;
    `shapes` (6 N, m) the freedoms of the nodes in each, of unit energy.
    """

    mass: Array
    lines: Array
    shapes: Array

    @classmethod
    def of(cls, at: Stage, mass: Array, lines: Array) -> "Body":
        """Look for shapes that a mass (N, 6, 6) takes; `lines` (6 N, w) as unit loads.

        Answers to the mass flung every way and to the lines, taken through inverse iteration:
        Bathe, Finite Element Procedures, sec. 11.2.1 and 11.6. `at` has no guys in.
        """
        xyz = np.array([n.xyz for n in at.model.nodes])
        flung = np.hstack([_rigid(xyz - xyz.mean(axis=0)), _uneven(6 * len(xyz))])
        load = np.hstack([lines, times(mass, flung)])
        found = []
        for _ in range(ROUNDS):
            moved = at.displacements(load)
            moved /= np.sqrt(np.maximum((moved * load).sum(axis=0), np.finfo(float).tiny))
            found.append(moved)
            load = times(mass, moved)
        X = np.hstack(found)
        V = _orthonormal(X, at.K @ X)
        return cls(mass=V.T @ times(mass, V), lines=V.T @ lines, shapes=V)

    def frequencies(self, lines: Sequence[int], stiffness: Array, count: int) -> Array:
        """Lowest frequencies [Hz] with springs [N/m, N m/rad] added, or taken away if negative.

        (2 pi f)^-2 are the eigenvalues of the mass in the stiffness.
        """
        from scipy.linalg import eigh

        mu = eigh(self.mass, self._stiffness(lines, stiffness), eigvals_only=True)[::-1][:count]
        found: Array = 1.0 / (2.0 * math.pi * np.sqrt(mu[mu > 1e-12 * mu[0]]))
        return found

    def swaying(self, lines: Sequence[int], stiffness: Array) -> tuple[Array, Array]:
        """Frequencies (k,) [Hz], lowest first, and shapes (6 N, k) of unit energy.

        With springs along `lines` as for `frequencies`.
        """
        from scipy.linalg import eigh

        mu, q = eigh(self.mass, self._stiffness(lines, stiffness))
        heavy = np.flatnonzero(mu > 1e-9 * mu[-1])[::-1]
        return 1.0 / (2.0 * math.pi * np.sqrt(mu[heavy])), self.shapes @ q[:, heavy]

    def give(self, lines: Sequence[int], added: Sequence[int], stiffness: Array) -> Array:
        """Give (k,) [m/N, rad/(N m)] along `lines` with springs of `stiffness` along `added`."""
        push = self.lines[:, lines]
        moved = np.linalg.solve(self._stiffness(added, stiffness), push)
        return np.asarray((push * moved).sum(axis=0))

    def _stiffness(self, lines: Sequence[int], stiffness: Array) -> Array:
        b = self.lines[:, lines]
        return np.eye(len(b)) + (b * stiffness) @ b.T


def at_most(response: Response, mass: Array) -> float:
    """Frequency [Hz] that the lowest one of a frame without guys does not exceed.

    Rayleigh and Ritz in the answers to its unit loads, which are solved already: Bathe, Finite
    Element Procedures, sec. 10.3.2. Sums of shapes only stiffen a frame, so it comes out high,
    on the case files by 4 % at most. `mass` (N, 6, 6).
    """
    late = [i for i, load in enumerate(response.model.unit_loads) if load.acts == AFTER]
    V = _orthonormal(
        response.displacements[late].reshape(len(late), -1).T, response.loads[:, late]
    )
    return float(1.0 / (2.0 * math.pi * np.sqrt(np.linalg.eigvalsh(V.T @ times(mass, V))[-1])))


def times(mass: Array, shapes: Array) -> Array:
    """Mass (N, 6, 6) times shapes (6 N, k)."""
    product: Array = (mass @ shapes.reshape(len(mass), 6, -1)).reshape(shapes.shape)
    return product


def _orthonormal(X: Array, P: Array) -> Array:
    """Shapes (6 N, m) of unit energy, apart in the stiffness, that answers X to loads P span."""
    size = (X * P).sum(axis=0)
    X, P = (each[:, size > 0.0] / np.sqrt(size[size > 0.0]) for each in (X, P))
    products = X.T @ P
    energy, q = np.linalg.eigh((products + products.T) / 2)
    some = energy > SPANNED * energy[-1]
    found: Array = X @ (q[:, some] / np.sqrt(energy[some]))
    return found


def _rigid(xyz: Array) -> Array:
    """Move and turn everything as one body (6 N, 6)."""
    found = np.tile(np.eye(6), (len(xyz), 1, 1))
    found[:, :3, 3:] = -skew(xyz)
    moved: Array = found.reshape(-1, 6)
    return moved


def _uneven(size: int) -> Array:
    """Shapes (size, 3) that no symmetry hides, the same every time."""
    uneven: Array = np.cos(np.arange(size)[:, None] * np.array([1.0, 2.3, 3.7]))
    return uneven
