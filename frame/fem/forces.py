"""Section forces along members from their end forces and uniform load."""

from dataclasses import dataclass

import numpy as np

from frame.fem.element import Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Sections:
    """Forces on the section facing +x, local axes, arrays (..., stations).

    N [N] tension positive; Vy, Vz [N]; T, My, Mz [N m]. At the second end they equal the forces on
    that end, at the first end they are the opposite of the forces on it.
    """

    N: Array
    Vy: Array
    Vz: Array
    T: Array
    My: Array
    Mz: Array


def sections(ends: Array, w: Array, length: Array, stations: Array) -> Sections:
    """Equilibrium of the piece from the first end to each station.

    Parameters
    ----------
    ends
        (..., M, 12) forces on the ends, local axes [N, N m].
    w
        (..., M, 3) uniform load, local axes [N/m].
    length
        (M,) or (..., M) [m].
    stations
        (k,) shares of the length, 0 at the first end.

    Returns
    -------
    Arrays (..., M, k).
    """
    x = length[..., None] * stations
    Fx, Fy, Fz, Mx, My, Mz = (ends[..., i, None] for i in range(6))
    wx, wy, wz = (w[..., i, None] for i in range(3))
    flat = np.zeros_like(x)
    return Sections(
        N=-Fx - wx * x,
        Vy=-Fy - wy * x,
        Vz=-Fz - wz * x,
        T=-Mx + flat,
        My=-My - Fz * x - wz * x**2 / 2,
        Mz=-Mz + Fy * x + wy * x**2 / 2,
    )
