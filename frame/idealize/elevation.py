"""Front and side elevations: one reduction of the space frame, solved twice and compared.

The plane solver is given the reduced frame as members, springs and guys; the space solver's own
stiffness is reduced to T' K T and solved here. Agreement shows that both solve right what they are
given; it says nothing of the idealization, nor of swing, which no elevation holds.
"""

from dataclasses import dataclass

import numpy as np

from frame.fem.assembly import load_matrix, present_members, pull_matrix
from frame.fem.cables import solve_taut
from frame.fem.element import element_arrays
from frame.fem.model import AFTER, BEFORE, Model
from frame.fem.plane.model import RIGID, TRUSS, Array, Mask, PlaneAnswer, PlaneFrame
from frame.fem.plane.polish import moves_apart
from frame.idealize.condensed import movement_under
from frame.idealize.plane_frame import Drawn, draw_plane_frame
from frame.idealize.reduction import Reduction, reduce


@dataclass(frozen=True, kw_only=True)
class Elevation:
    """One elevation, ready for both solvers. m plane unknowns, L unit loads, G guys, N nodes.

    `on_before`, `on_after` (6 N, L) nodal movement of the unit loads, each on the frame it acts
    on; `pulls` (6 N, G) of unit pulls; `flexibility` (G, G) and `stretch` (G, L) of the guy lines
    by them; `give` (G,) the guys' own.
    """

    reduction: Reduction
    drawn: Drawn
    on_before: Array
    on_after: Array
    pulls: Array
    flexibility: Array
    stretch: Array
    give: Array

    @property
    def frame(self) -> PlaneFrame:
        """The frame for the plane solver."""
        return self.drawn.frame


@dataclass(frozen=True, kw_only=True)
class ReducedAnswer:
    """What T' K T gives for n load cases, told of the plane frame.

    `tensions`, `slack` (n, G) in space [N, m]; `displacements` (n, P, 3) of the plane's nodes in
    its senses; `ends` (n, M, 2, 3) N, V, M at the ends of the plane's members: rigid ones zero,
    trusses their mean N alone.
    """

    tensions: Array
    slack: Array
    displacements: Array
    ends: Array


@dataclass(frozen=True, kw_only=True)
class SolvedTwice:
    """The two answers to one case, and the largest difference between them [1]."""

    worst: float
    plane: PlaneAnswer
    space: ReducedAnswer


def elevation(model: Model, view: str) -> Elevation:
    """Reduce a model to its "front" or "side" elevation.

    Raises
    ------
    MechanismError
        Where the elevation is loose without its guys.
    """
    reduction = reduce(model, view)
    B, lengths = pull_matrix(model)
    before = movement_under(reduction, BEFORE, load_matrix(model, BEFORE))
    after = movement_under(reduction, AFTER, np.hstack([load_matrix(model, AFTER), B]))
    count = len(model.unit_loads)
    flexibility = B.T @ after[:, count:]
    return Elevation(
        reduction=reduction,
        drawn=draw_plane_frame(reduction),
        on_before=before,
        on_after=after[:, :count],
        pulls=after[:, count:],
        flexibility=(flexibility + flexibility.T) / 2,
        stretch=-B.T @ after[:, :count],
        give=lengths / np.array([g.EA for g in model.guys]).reshape(-1),
    )


def solve_reduced(
    elev: Elevation, factors: Array, pretension: Array | None = None, fitted: Mask | None = None
) -> ReducedAnswer:
    """Solve n cases by T' K T and complementarity of the guys.

    `factors` (n, L) or (L,) over the unit loads; `pretension` (G,) pull in still air [N], the
    model's own if left out; `fitted` (G,) which guys are there, all if left out.
    """
    model = elev.reduction.model
    rows = np.atleast_2d(np.asarray(factors, dtype=float))
    t0, there = _guys(model, pretension, fitted)
    A = elev.flexibility + np.diag(elev.give)
    r = rows @ elev.stretch.T + A @ t0
    t, s = np.zeros(r.shape), np.zeros(r.shape)
    t[:, there], s[:, there] = solve_taut(A[np.ix_(there, there)], r[:, there])
    early = rows @ elev.on_before.T
    late = rows @ elev.on_after.T + t @ elev.pulls.T
    return ReducedAnswer(
        tensions=t,
        slack=s,
        displacements=_told(elev, early + late),
        ends=_end_forces(elev, rows, early, late),
    )


def _guys(model: Model, pretension: Array | None, fitted: Mask | None) -> tuple[Array, Mask]:
    given = [g.pretension for g in model.guys] if pretension is None else pretension
    there = np.ones(len(model.guys), dtype=bool) if fitted is None else fitted
    return np.where(there, np.array(given, dtype=float).reshape(-1), 0.0), there


def _told(elev: Elevation, u: Array) -> Array:
    """Movements (n, P, 3) of the plane's nodes from nodal movements (n, 6 N)."""
    reduction = elev.reduction
    leads = np.array(reduction.lead)[:, None] * 6 + np.array(reduction.view.freedoms)
    return np.asarray((u[:, leads.ravel()] @ elev.drawn.hang.T).reshape(len(u), -1, 3))


def _end_forces(elev: Elevation, rows: Array, early: Array, late: Array) -> Array:
    """N, V, M (n, M, 2, 3) at the plane members' ends, from the space members' own forces."""
    reduction = elev.reduction
    model, view = reduction.model, reduction.view
    elements = element_arrays(reduction.strained)
    standing = present_members(model, BEFORE)
    w = np.zeros((len(model.unit_loads), len(model.members), 3))
    for i, load in enumerate(model.unit_loads):
        for m, value in load.members:
            w[i, m] += value
    kinds = np.array([m.kind for m in elev.frame.members])
    found = np.zeros((len(rows), len(kinds), 2, 3))
    for i, members in enumerate(elev.drawn.stands_for):
        if kinds[i] == RIGID:
            continue
        along, _ = elev.frame.line(i)
        normal = np.array([-along[1], along[0]])
        for m in members:
            u = late + early if standing[m] else late
            local = (
                moves_apart(u[:, elements.dofs[m]], 3)
                @ (elements.stiffness[m] @ elements.to_local[m]).T
            )
            local -= (rows @ w[:, m]) @ elements.loads[m].T
            for end, sign in ((0, -1.0), (1, 1.0)):
                force = local[:, 6 * end : 6 * end + 3] @ elements.axes[m]
                moment = local[:, 6 * end + 3 : 6 * end + 6] @ elements.axes[m]
                flat = view.flat(force)
                found[:, i, end, 0] += sign * flat @ along
                found[:, i, end, 1] -= sign * flat @ normal
                found[:, i, end, 2] += sign * view.turn * moment[:, view.rotation - 3]
    trusses = np.flatnonzero(kinds == TRUSS)
    found[:, trusses, :, 0] = found[:, trusses, :, 0].mean(axis=2, keepdims=True)
    found[:, trusses, :, 1:] = 0.0
    return found


def solve_twice(
    model: Model | Elevation,
    view: str,
    factors: Array,
    pretension: Array | None = None,
    fitted: Mask | None = None,
) -> SolvedTwice:
    """Solve one case (L,) both ways and compare.

    Differences of movements, of rotations, of forces (tensions, N, V) and of moments are each
    divided by the largest of their kind; slack lengths by the largest movement.
    """
    from frame.fem.plane.planar import solve_plane

    elev = model if isinstance(model, Elevation) else elevation(model, view)
    t0, there = _guys(elev.reduction.model, pretension, fitted)
    space = solve_reduced(elev, factors, t0, there)
    plane = solve_plane(elev.frame, np.asarray(factors), t0, space.tensions[0] > 0, there)
    return SolvedTwice(worst=_difference(elev.frame, plane, space), plane=plane, space=space)


def _difference(frame: PlaneFrame, plane: PlaneAnswer, space: ReducedAnswer) -> float:
    shown = [i for i, m in enumerate(frame.members) if m.kind != RIGID]
    there = ~np.isnan(plane.slack)
    ours = np.array([[[d.N[e], d.V[e], d.M[e]] for e in (0, -1)] for d in plane.diagrams])
    theirs = space.ends[0, shown]
    span = float(np.ptp([n.at for n in frame.nodes], axis=0).max())
    moves, turns = space.displacements[0, :, :2], space.displacements[0, :, 2]
    move = _largest(moves)
    force = max(_largest(theirs[..., :2]), _largest(space.tensions))
    # A kind that is next to nothing in this case has only rounding to compare: hence the floors.
    moment = max(_largest(theirs[..., 2]), 1e-3 * force * span)
    turn = max(_largest(turns), 1e-3 * move / span)
    pairs = [
        (plane.displacements[:, :2] - moves, move),
        (plane.displacements[:, 2] - turns, turn),
        (ours[..., :2] - theirs[..., :2], force),
        (ours[..., 2] - theirs[..., 2], moment),
        (plane.tensions - space.tensions[0], force),
        ((plane.slack - space.slack[0])[there], move),
    ]
    return max(_largest(gap) / scale if scale else _largest(gap) for gap, scale in pairs)


def _largest(values: Array) -> float:
    return float(np.abs(values).max(initial=0.0))
