"""Cholesky factor of a reduced stiffness, and the naming of mechanisms."""

from dataclasses import dataclass

import numpy as np
import scipy.linalg
from scipy.linalg import lapack
from scipy.sparse import csgraph

from frame.errors import MechanismError
from frame.fem.assembly import Sparse, present_members, present_nodes, pull_matrix, stands
from frame.fem.element import Array, Indices
from frame.fem.model import BEFORE, Model

# A freedom that keeps less than this share of its own stiffness once all others are let go is
# taken as loose: 16 digits carry no answer for it, and no real rack is that soft (judgement).
NEARLY_LOOSE = 1e-11

_AXES = "xyz"


@dataclass(frozen=True, slots=True, kw_only=True)
class Factor:
    """Banded Cholesky factor of S P K P' S: P brings the band together, S makes the diagonal 1.

    Attributes
    ----------
    band
        (width + 1, m) lower factor in LAPACK band storage.
    order
        (m,) unknown that stands at each place.
    scale
        (m,) diagonal of S, in that order.
    """

    band: Array
    order: Indices
    scale: Array

    def solve(self, P: Array) -> Array:
        """K^-1 P (m, k)."""
        x = np.zeros_like(P)
        if P.size:
            y, _ = lapack.dpbtrs(self.band, self.scale[:, None] * P[self.order], lower=1)
            x[self.order] = self.scale[:, None] * y
        return x


def factorise(model: Model, stage: str, T: Sparse, K: Sparse) -> Factor:
    """Factorise K = T' K_raw T (m, m) of a stage.

    Raises
    ------
    MechanismError
        Where it is singular or nearly so: names the loosest node, its part and its motion.
    """
    m = K.shape[0]
    if not m:
        return Factor(band=np.zeros((1, 0)), order=np.zeros(0, dtype=np.int64), scale=np.zeros(0))
    diagonal = K.diagonal()
    if diagonal.min() <= 0.0:
        loose = np.zeros(m)
        loose[np.argmin(diagonal)] = 1.0
        raise _mechanism(model, stage, T @ loose)
    order = csgraph.reverse_cuthill_mckee(K, symmetric_mode=True).astype(np.int64)
    scale = 1.0 / np.sqrt(diagonal[order])
    place = np.empty(m, dtype=np.int64)
    place[order] = np.arange(m)
    entries = K.tocoo()
    rows, columns = place[entries.row], place[entries.col]
    low = rows >= columns
    rows, columns = rows[low], columns[low]
    band = np.zeros((int((rows - columns).max()) + 1, m), order="F")
    band[rows - columns, columns] = entries.data[low] * scale[rows] * scale[columns]
    lower, failed = lapack.dpbtrf(band, lower=1)
    if failed or lower[0].min() ** 2 < NEARLY_LOOSE:
        size = 1.0 / np.sqrt(diagonal)
        scaled = K.toarray() * size * size[:, None]
        _, mode = scipy.linalg.eigh(scaled, subset_by_index=[0, 0])
        raise _mechanism(model, stage, T @ (size * mode[:, 0]))
    return Factor(band=lower, order=order, scale=scale)


def _mechanism(model: Model, stage: str, mode: Array) -> MechanismError:
    motion = mode.reshape(-1, 6)
    xyz = np.array([n.xyz for n in model.nodes])
    size = max(float(np.ptp(xyz, axis=0).max()), 1e-9)
    shift, turn = np.abs(motion[:, :3]), np.abs(motion[:, 3:]) * size
    if shift.max() >= 1e-3 * turn.max():
        node, axis = np.unravel_index(np.argmax(shift), shift.shape)
        how = f"can move along {_AXES[axis]}"
    else:
        node, axis = np.unravel_index(np.argmax(turn), turn.shape)
        how = f"can turn about {_AXES[axis]}"
    when = " before the later parts are fitted" if stage == BEFORE else ""
    parts = _parts_at(model, stage, int(node))
    where = model.nodes[node].name
    text = f"the frame is loose{when}: at {where!r} the {parts} {how} with nothing to hold it"
    if model.guys and np.abs(mode @ pull_matrix(model)[0]).max() > 1e-6 * np.abs(mode).max():
        text += "; it stands only by its guys: hold it without them"
    return MechanismError(text)


def _parts_at(model: Model, stage: str, node: int) -> str:
    here = present_members(model, stage)
    parts = [m.part for m, on in zip(model.members, here, strict=True) if on and node in m.ends]
    parts += [c.name for c in model.connections if stands(c.fitted, stage) and node in c.ends]
    if not parts or not present_nodes(model, stage)[node]:
        return "nothing but a node"
    return " and ".join(dict.fromkeys(parts))
