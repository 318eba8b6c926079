"""Sparse factor of a reduced stiffness, and the naming of mechanisms."""

from dataclasses import dataclass

import numpy as np
from scipy import sparse
from scipy.sparse.linalg import SuperLU, splu

from frame.errors import MechanismError
from frame.fem.assembly import Sparse, present_members, present_nodes, pull_matrix, stands
from frame.fem.element import Array
from frame.fem.model import BEFORE, Model

# A freedom that keeps less than this share of its own stiffness once all others are let go is
# taken as loose: 16 digits carry no answer for it, and no real rack is that soft (judgement).
NEARLY_LOOSE = 1e-12

# A rack's frame is nearly a tree: least degree first fills in next to nothing.
_ORDER, _SYMMETRIC = "MMD_AT_PLUS_A", {"SymmetricMode": True}
_AXES = "xyz"


@dataclass(frozen=True, slots=True, kw_only=True)
class Factor:
    """Sparse factor L D L' of S K S: S makes the diagonal 1.

    Attributes
    ----------
    lower_upper
        SuperLU's factors, pivots on the diagonal; None without unknowns.
    scale
        (m,) diagonal of S.
    """

    lower_upper: SuperLU | None
    scale: Array

    def solve(self, P: Array) -> Array:
        """K^-1 P (m, k)."""
        if self.lower_upper is None or not P.size:
            return np.zeros_like(P)
        x: Array = self.scale[:, None] * self.lower_upper.solve(self.scale[:, None] * P)
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
        return Factor(lower_upper=None, scale=np.zeros(0))
    diagonal = K.diagonal()
    if diagonal.min() <= 0.0:
        loose = np.zeros(m)
        loose[np.argmin(diagonal)] = 1.0
        raise _mechanism(model, stage, T @ loose)
    size = 1.0 / np.sqrt(diagonal)
    scaled = (sparse.diags_array(size) @ K @ sparse.diags_array(size)).tocsc()
    try:
        factors = splu(scaled, permc_spec=_ORDER, diag_pivot_thresh=0.0, options=_SYMMETRIC)
        least = factors.U.diagonal().min()
    except RuntimeError:
        least = 0.0
    if least < NEARLY_LOOSE:
        from scipy.linalg import eigh

        _, mode = eigh(scaled.toarray(), subset_by_index=[0, 0])
        raise _mechanism(model, stage, T @ (size * mode[:, 0]))
    return Factor(lower_upper=factors, scale=size)


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
    parts: list[str] = [
        m.part for m, on in zip(model.members, here, strict=True) if on and node in m.ends
    ]
    parts += [c.name for c in model.connections if stands(c.fitted, stage) and node in c.ends]
    if not parts or not present_nodes(model, stage)[node]:
        return "nothing but a node"
    return " and ".join(dict.fromkeys(parts))
