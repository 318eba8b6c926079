"""What an axial force does to the moments at the ends of a member that bends between them."""

import numpy as np

from frame.fem.element import Array
from frame.fem.model import Model

TELLING = 4e-7
"""L^2 / (E I) [1/N] up to which this is left out: at 50 kN by less than a part in 1000."""
_PLANES = ((4, 2, -1.0), (5, 1, 1.0))


def slenderness(model: Model, length: Array) -> Array:
    """L^2 / (E I) (M, 2) [1/N] bending about local y and z; zero where it is left out.

    `length` (M,) flexible lengths [m]. Left out where it is small, and for a member with a hinge:
    between two there are no moments at its ends; what one leaves of this is neglected.
    """
    free = np.array([any(m.free) for m in model.members], dtype=bool)
    stiff = np.array([(m.E * m.Iy, m.E * m.Iz) for m in model.members], dtype=float).reshape(-1, 2)
    slender = length[:, None] ** 2 / stiff
    found: Array = np.where(free[:, None] | (slender < TELLING), 0.0, slender)
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
    for about, (moment, shear, sign) in enumerate(_PLANES):
        some = np.flatnonzero(slender[:, about])
        c = tension[some] * slender[some, about, None]
        first, second = forces[some, moment], forces[some, moment + 6]
        more = c * (first / 20 - second / 30), c * (second / 20 - first / 30)
        across = sign * (more[0] + more[1]) / length[some, None]
        for part, value in zip(
            (moment, moment + 6, shear, shear + 6), (*more, across, -across), strict=True
        ):
            forces[some, part] += value
