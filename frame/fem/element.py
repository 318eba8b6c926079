"""Beam elements, all members of a model at once: stiffness, releases, setbacks, uniform loads.

Euler-Bernoulli beam in space, 12 end freedoms (ux, uy, uz, rx, ry, rz at each end). Stiffness and
equivalent loads: McGuire, Gallagher and Ziemian, Matrix Structural Analysis, 2nd ed., Eq. 4.34 and
ch. 5; static condensation of releases, sec. 13.1; rigid end offsets, sec. 13.2.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.fem.model import Model

Array = npt.NDArray[np.float64]
Indices = npt.NDArray[np.int64]

_BENDING = np.array([[12.0, 6, -12, 6], [6, 4, -6, 2], [-12, -6, 12, -6], [6, 2, -6, 4]])
_IN_XY = (1, 5, 7, 11)
_IN_XZ = (2, 4, 8, 10)
_FREEDOM = {"ry": 4, "rz": 5}


@dataclass(frozen=True, slots=True, kw_only=True)
class Elements:
    """The members of a model as arrays (M members).

    Attributes
    ----------
    length
        (M,) flexible lengths [m], between the set-back ends.
    axes
        (M, 3, 3), rows are local x, y, z in global axes.
    to_local
        (M, 12, 12) from the two nodes' freedoms (global) to the end freedoms (local), over the
        rigid setbacks.
    stiffness
        (M, 12, 12) local end stiffness [N/m, N, N m], releases condensed out.
    released
        (M, 12, 12) end freedoms of the flexible part from those that hold it.
    loads
        (M, 12, 3) local equivalent end loads of a unit uniform load along each global axis.
    dofs
        (M, 12) positions of the nodes' freedoms in the global vector.
    setback
        (M, 2, 3) rigid arms from the nodes to the ends, global axes [m].
    polar
        (M,) square of the polar radius of gyration, (Iy + Iz) / A [m2].
    """

    length: Array
    axes: Array
    to_local: Array
    stiffness: Array
    released: Array
    loads: Array
    dofs: Indices
    setback: Array
    polar: Array


def element_arrays(model: Model) -> Elements:
    """All members of a model as arrays; ValueError names a member with no length or no y axis."""
    members = model.members
    ends = np.array([m.ends for m in members], dtype=np.int64).reshape(-1, 2)
    setback = np.array([m.setback for m in members], dtype=float).reshape(-1, 2, 3)
    xyz = np.array([n.xyz for n in model.nodes], dtype=float).reshape(-1, 3)
    tips = xyz[ends] + setback
    length, axes = _local_axes(model, tips[:, 1] - tips[:, 0])
    section = np.array([(m.A, m.Iy, m.Iz, m.J, m.E, m.G) for m in members]).reshape(-1, 6)
    stiffness = local_stiffness(section, length)
    loads = equivalent_loads(length)
    released = _release(model, stiffness, loads)
    freedoms = 6 * ends[:, :, None] + np.arange(6)
    return Elements(
        length=length,
        axes=axes,
        to_local=_to_local(axes, setback),
        stiffness=stiffness,
        released=released,
        loads=loads @ axes,
        dofs=freedoms.reshape(-1, 12),
        setback=setback,
        polar=(section[:, 1] + section[:, 2]) / section[:, 0],
    )


def local_stiffness(section: Array, length: Array) -> Array:
    """Local 12 x 12 stiffness of straight prismatic members.

    Parameters
    ----------
    section
        (M, 6): A [m2], Iy, Iz, J [m4], E, G [Pa].
    length
        (M,) [m].

    Returns
    -------
    (M, 12, 12), McGuire et al. Eq. 4.34.
    """
    A, Iy, Iz, J, E, G = section.T
    k = np.zeros((len(length), 12, 12))
    for first, value in ((0, E * A / length), (3, G * J / length)):
        second = first + 6
        k[:, first, first] = k[:, second, second] = value
        k[:, first, second] = k[:, second, first] = -value
    one = np.ones_like(length)
    for rows, inertia, lever in ((_IN_XY, Iz, length), (_IN_XZ, Iy, -length)):
        scale = np.stack([one, lever, one, lever], axis=1)
        block = _BENDING * scale[:, :, None] * scale[:, None, :]
        k[:, np.array(rows)[:, None], np.array(rows)] = (
            block * (E * inertia / length**3)[:, None, None]
        )
    return k


def equivalent_loads(length: Array) -> Array:
    """Local end loads (M, 12, 3) equal in effect to 1 N/m along each local axis, ends built in."""
    half, twelfth = length / 2, length**2 / 12
    f = np.zeros((len(length), 12, 3))
    for axis in range(3):
        f[:, axis, axis] = f[:, axis + 6, axis] = half
    f[:, 5, 1], f[:, 11, 1] = twelfth, -twelfth
    f[:, 4, 2], f[:, 10, 2] = -twelfth, twelfth
    return f


def skew(v: Array) -> Array:
    """Matrices S (..., 3, 3) with S @ a = v x a."""
    S = np.zeros((*v.shape, 3))
    S[..., 0, 1], S[..., 0, 2], S[..., 1, 2] = -v[..., 2], v[..., 1], -v[..., 0]
    return S - np.swapaxes(S, -1, -2)


def _local_axes(model: Model, chord: Array) -> tuple[Array, Array]:
    length = np.sqrt((chord**2).sum(axis=1))
    for i in np.flatnonzero(length <= 0.0):
        raise ValueError(f"member {model.members[i].name!r} has no length between its setbacks")
    x = chord / length[:, None]
    y = np.array([m.y_axis for m in model.members], dtype=float).reshape(-1, 3)
    size = np.sqrt((y**2).sum(axis=1))
    y = y - (y * x).sum(axis=1)[:, None] * x
    square = np.sqrt((y**2).sum(axis=1))
    for i in np.flatnonzero(square <= 1e-6 * size):
        raise ValueError(f"member {model.members[i].name!r}: its y_axis lies along it")
    y = y / square[:, None]
    return length, np.stack([x, y, np.cross(x, y)], axis=1)


def _to_local(axes: Array, setback: Array) -> Array:
    lever = -axes[:, None] @ skew(setback)
    to_local = np.zeros((len(axes), 12, 12))
    for end in (0, 1):
        at = 6 * end
        to_local[:, at : at + 3, at : at + 3] = axes
        to_local[:, at + 3 : at + 6, at + 3 : at + 6] = axes
        to_local[:, at : at + 3, at + 3 : at + 6] = lever[:, end]
    return to_local


def _release(model: Model, k: Array, f: Array) -> Array:
    """Condense the released bending freedoms out of fresh k and f, in place.

    Returns R (M, 12, 12): the end freedoms of the flexible part from those that hold it.
    """
    R = np.tile(np.eye(12), (len(k), 1, 1))
    for end in (0, 1):
        for name, freedom in _FREEDOM.items():
            c = freedom + 6 * end
            let_go = [i for i, m in enumerate(model.members) if name in m.free[end]]
            if not let_go:
                continue
            step = np.tile(np.eye(12), (len(let_go), 1, 1))
            step[:, c] = -k[let_go, c] / k[let_go, c, c][:, None]
            step[:, c, c] = 0.0
            back = np.swapaxes(step, 1, 2)
            R[let_go] = R[let_go] @ step
            k[let_go] = back @ k[let_go] @ step
            f[let_go] = back @ f[let_go]
            k[let_go, c] = k[let_go, :, c] = 0.0
    return R
