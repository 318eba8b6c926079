"""What an axial force does to the moments at the ends of a member that bends between them."""

import numpy as np

from frame.fem.element import Array
from frame.fem.model import Model

TELLING = 5e-3
"""N L^2 / (E I) below which this is left out: it changes no moment by more than 1 / 2400."""
_PLANES = ((4, 2, -1.0), (5, 1, 1.0))


def slenderness(model: Model, length: Array) -> Array:
    """L^2 / (E I) (M, 2) [1/N] bending about local y and z; zero for a member with a hinge.

    `length` (M,) flexible lengths [m]. A member between hinges has no moments at its ends; what
    one hinge leaves of this is left out.
    """
    free = np.array([any(m.free) for m in model.members], dtype=bool)
    stiff = np.array([(m.E * m.Iy, m.E * m.Iz) for m in model.members], dtype=float).reshape(-1, 2)
    found: Array = np.where(free[:, None], 0.0, length[:, None] ** 2 / stiff)
    return found


def bow(forces: Array, tension: Array, slender: Array, length: Array) -> None:
    """Add to end forces of second order, in place, what N does along the members' own bow.

    From the geometric stiffness of a member that bends by the moments at its ends (McGuire,
    Gallagher and Ziemian, Matrix Structural Analysis, 2nd ed., Eqs. 4.34 and 9.13): with
    c = N L^2 / (E I), M1 grows by c (M1 / 20 - M2 / 30), M2 likewise, the shears to match.

    Parameters
    ----------
    forces
        (M, 12, n) on the ends, local axes [N, N m].
    tension
        (M, n) N as it acts in second order [N].
    slender, length
        (M, 2) and (M,), see `slenderness`.
    """
    most = np.abs(tension).max(axis=1, initial=0.0)[:, None] * slender
    for i, about in zip(*np.nonzero(most > TELLING), strict=True):
        moment, shear, sign = _PLANES[about]
        ends, c = forces[i], tension[i] * slender[i, about]
        first, second = ends[moment], ends[moment + 6]
        more = c * (first / 20 - second / 30), c * (second / 20 - first / 30)
        across = sign * (more[0] + more[1]) / length[i]
        first += more[0]
        second += more[1]
        ends[shear] += across
        ends[shear + 6] -= across
