"""Second-order stiffness of a stressed beam element, lever, hinge or spring, exact in rotation.

Derived here from the strains of a beam whose sections turn by the rotation vector psi (Reissner's
measures: stretch R' r' - e, curvature psi' - psi x psi' / 2 to the second order). With internal
forces n = (N, Vy, Vz) and moments m = (T, My, Mz) in equilibrium, and no strain but stretch u',
bending and twist, the work of the second order is the integral of

    N (psi_y^2 + psi_z^2) / 2 - psi_x (Vy psi_y + Vz psi_z) / 2 - m . (psi x psi') / 2
    - u' (Vy psi_z - Vz psi_y) + N (Iy + Iz) / A psi_x'^2 / 2

(the last term is Wagner's, for doubly symmetric sections). Nodal rotations are rotation vectors,
so a moment at a node counts as semitangential (Argyris; Yang and Kuo, Theory and Analysis of
Nonlinear Framed Structures, 1994), internal moments turn with what they act on, and a stressed
frame that turns as a body turns its forces and strains nothing: of forces f and moments m on it,
Kg (theta x x, theta) = (theta x f, theta x m / 2). The axial part is that of McGuire, Gallagher
and Ziemian, Matrix Structural Analysis, 2nd ed., Eq. 9.13.
"""

import numpy as np

from frame.fem.element import Array, Elements, skew

STRESSES = 6
"""What the stress of a member comes to: N, Vy, Vz, T, My, Mz, see `member_stress`."""
_POINTS = (0.5 - np.sqrt(0.15), 0.5, 0.5 + np.sqrt(0.15))
_WEIGHTS = (5 / 18, 8 / 18, 5 / 18)


def along_lever(lever: Array) -> Array:
    """Part (..., 3, 3) of a force that runs along a lever (..., 3), none if that has no length."""
    size = np.maximum((lever**2).sum(axis=-1), 1e-300)
    part: Array = lever[..., :, None] * lever[..., None, :] / size[..., None, None]
    return part


def lean(lever: Array, force: Array) -> Array:
    """Second-order stiffness (..., 3, 3) on the rotation of a rigid lever that pushes a force.

    The lever's tip moves by half of theta x (theta x lever) on top of theta x lever; `force` is
    what the lever exerts there.
    """
    both = lever[..., :, None] * force[..., None, :]
    along = (lever * force).sum(axis=-1)[..., None, None]
    turned: Array = (both + np.swapaxes(both, -1, -2)) / 2 - along * np.eye(3)
    return turned


def hinge(before: Array, after: Array, moment: Array) -> Array:
    """Second-order stiffness (..., d, d) of a hinge that passes a moment on.

    Of two rotations (..., 3, d), the hinge's between them: moment . (before x after) / 2 is the
    work of the `moment` (..., 3) exerted on what turns by `after`.
    """
    half = np.swapaxes(before, -1, -2) @ skew(moment) @ after
    whole: Array = -(half + np.swapaxes(half, -1, -2)) / 2
    return whole


def member_stress(forces: Array) -> Array:
    """Mean N, Vy, Vz [N], T, My, Mz [N m] (..., M, 6) on the section facing +x, local axes.

    From the forces (..., M, 12) on the members' ends. A uniform load counts as if it acted at the
    ends, half at each: its bow of the moments between them is left out.
    """
    mean: Array = (forces[..., 6:] - forces[..., :6]) / 2
    return mean


def member_blocks(e: Elements) -> Array:
    """Geometric stiffness (M, 6, 12, 12) under one of each of `member_stress`, global axes.

    On the freedoms of the two nodes, with the hinges of the members' ends; what their setbacks do
    as levers is apart.
    """
    path = e.released @ e.to_local
    local = np.zeros((len(e.length), STRESSES, 12, 12))
    for share, weight in zip(_POINTS, _WEIGHTS, strict=True):
        moments = _moments(e.length * (share - 0.5))
        size = (weight * e.length)[:, None, None, None]
        local += size * _density(*_rotations(e.length, share), moments, e.polar)
    found: Array = np.swapaxes(path, 1, 2)[:, None] @ local @ path[:, None]
    for end, sign in ((0, -1.0), (1, 1.0)):
        turn = slice(6 * end + 3, 6 * end + 6)
        hinged = (e.released[:, turn, turn] != np.eye(3)).any(axis=(1, 2))
        moment = sign * _moments(sign * e.length[hinged] / 2)
        before, after = (each[hinged][:, None, turn] for each in (e.to_local, path))
        found[hinged] += hinge(before, after, moment)
    return found


def connection_blocks(lever: Array, axes: Array, *, axial_only: bool = False) -> Array:
    """Geometric stiffness (6, 12, 12) of a connection under one of each of its forces and moments.

    Forces and moments on the second node along the connection's `axes` (3, 3), which turn with the
    first node; `lever` (3,) from the first node to the second [m]. `axial_only` leaves out all but
    what forces along the lever do.
    """
    levers = np.broadcast_to(lever, (3, 3))
    if axial_only:
        blocks = np.zeros((6, 12, 12))
        blocks[:3, 3:6, 3:6] = lean(levers, axes @ along_lever(lever))
        return blocks
    first = np.zeros((3, 12))
    first[:, 3:6] = np.eye(3)
    second = np.zeros((3, 12))
    second[:, 9:] = np.eye(3)
    gap = np.zeros((3, 12))
    gap[:, :3], gap[:, 3:6], gap[:, 6:9] = -np.eye(3), skew(lever), np.eye(3)
    blocks = np.concatenate([2 * hinge(first, gap, axes), hinge(first, second, axes)])
    blocks[:3, 3:6, 3:6] += lean(levers, axes)
    return blocks


def _moments(off: Array) -> Array:
    """Moments (M, 6, 3) at `off` (M,) [m] past the middle under one of each of `member_stress`."""
    m = np.zeros((len(off), STRESSES, 3))
    m[:, 3:] = np.eye(3)
    m[:, 1, 2], m[:, 2, 1] = -off, off
    return m


def _rotations(length: Array, share: float) -> tuple[Array, Array]:
    """Rotation psi (M, 3, 12) and its rate along the member at a share of the length."""
    x, one = share, np.ones_like(length)
    slope = np.stack([one * 6 * (x * x - x), (1 - x) * (1 - 3 * x) * length], axis=1)
    slope = np.hstack([slope, -slope[:, :1], (x * (3 * x - 2) * length)[:, None]])
    rate = np.stack([one * (12 * x - 6), (6 * x - 4) * length], axis=1)
    rate = np.hstack([rate, -rate[:, :1], ((6 * x - 2) * length)[:, None]])
    turn, bend = (np.zeros((len(length), 3, 12)) for _ in "tb")
    turn[:, 0, 3], turn[:, 0, 9] = 1 - x, x
    bend[:, 0, 3], bend[:, 0, 9] = -1 / length, 1 / length
    for found, times, size in ((turn, slope, length), (bend, rate, length**2)):
        values = times / size[:, None]
        found[:, 2, [1, 5, 7, 11]] = values
        found[:, 1, [2, 4, 8, 10]] = values * np.array([-1.0, 1.0, -1.0, 1.0])
    return turn, bend


def _density(turn: Array, bend: Array, moments: Array, polar: Array) -> Array:
    """Geometric stiffness (M, 6, 12, 12) per metre, local axes; `moments` (M, 6, 3)."""

    def square(a: Array, b: Array) -> Array:
        both = a[:, :, None] * b[:, None, :]
        whole: Array = both + np.swapaxes(both, 1, 2)
        return whole

    x, y, z = (turn[:, i] for i in range(3))
    twist, stretch = bend[:, 0], np.zeros_like(x)
    stretch[:, [0, 6]] = twist[:, [3, 9]]
    found = np.zeros((len(polar), STRESSES, 12, 12))
    wagner = polar[:, None, None] * square(twist, twist)
    found[:, 0] = (square(y, y) + square(z, z) + wagner) / 2
    found[:, 1] = -square(x, y) / 2 - square(stretch, z)
    found[:, 2] = -square(x, z) / 2 + square(stretch, y)
    for i, (j, k) in enumerate(((1, 2), (2, 0), (0, 1))):
        crossed = square(turn[:, j], bend[:, k]) - square(turn[:, k], bend[:, j])
        found -= moments[:, :, i, None, None] * crossed[:, None] / 2
    return found
