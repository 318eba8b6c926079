"""Second order: how much the axial forces enlarge the sway of the rack and its moments."""

from dataclasses import dataclass

import numpy as np

from frame.fem.response import Response
from frame.idealize.actions import PUSHES
from frame.idealize.build import Idealized
from frame.idealize.posts import beam_mark, post_name
from frame.study.frames import Block, FloatArray

STOREY = 0.82
"""Part of the story's push-over stiffness that holds up axial load [1].

AISC 360-22 Eq. A-8-7 has 0.85 for moment frames; 0.82 = pi^2 / 12 meets the bare cantilever post,
whose exact load is pi^2 EI / (4 h^2), and stays on the safe side of a post that turns at its foot.
"""
ALPHA = 1.6
"""From ASD to strength level, AISC 360-22 C2.1."""
STIFFNESS_LEFT = 0.8
"""Part of the stiffness counted on, AISC 360-22 C2.3."""
BUCKLED = 1e6
"""Factor where the rack buckles: large enough to fail every check, yet finite."""


@dataclass(frozen=True, slots=True)
class Storey:
    """What the sway of one block needs: beam over posts, in the order of `PUSHES`."""

    flexibility: FloatArray
    guy_pull: FloatArray
    guy_matrix: FloatArray
    height: float


def second_order(block: Block, tensions: FloatArray, post_push: FloatArray) -> FloatArray:
    """Factor on moments, sway and brace forces, (n,); `BUCKLED` where the rack buckles.

    B = 1 / (1 - 1.6 / (0.8 lambda)) with lambda the buckling factor of the rack swaying on its
    posts, guys taut in the case in: lambda = 0.82 h / (f P), f the level movement of the beam per
    push in its softest direction, P the push in all posts at grade (AISC 360-22 Appendix 8.1.2).
    `tensions` (n, guys) [N], `post_push` (n,) [N].
    """
    factor = buckling_factor(block, tensions, post_push)
    with np.errstate(divide="ignore", invalid="ignore"):
        grown = 1 / (1 - ALPHA / (STIFFNESS_LEFT * factor))
    return np.where(STIFFNESS_LEFT * factor > ALPHA, grown, BUCKLED)


def buckling_factor(block: Block, tensions: FloatArray, post_push: FloatArray) -> FloatArray:
    """Lowest factor on a case's axial forces at which the rack sways over, (n,)."""
    taut = tensions > 0.0
    storey = _storey(block.response, block.frame.ideal)
    patterns, which = np.unique(taut, axis=0, return_inverse=True)
    softest = np.array([_softest(storey, pattern) for pattern in patterns])[which.reshape(-1)]
    with np.errstate(divide="ignore"):
        return np.where(post_push > 0, STOREY * storey.height / (softest * post_push), np.inf)


def _storey(response: Response, ideal: Idealized) -> Storey:
    loads = [response.model.load_index[name] for name in PUSHES]
    tops = [ideal.marks[beam_mark(ideal.rack, i)] for i in range(len(ideal.rack.posts.positions))]
    return Storey(
        flexibility=response.displacements[loads][:, tops, :2].mean(axis=1),
        guy_pull=-response.stretch[loads].T,
        guy_matrix=response.flexibility + np.diag(response.slackness),
        height=ideal.rack.posts.height,
    )


def _softest(storey: Storey, taut: np.ndarray) -> float:
    """Largest level movement per push [m/N] with these guys taut, any direction."""
    f = storey.flexibility
    if taut.any():
        pull = storey.guy_pull[taut]
        f = f - pull.T @ np.linalg.solve(storey.guy_matrix[np.ix_(taut, taut)], pull)
    return float(np.linalg.eigvalsh((f + f.T) / 2)[-1])


def post_push(block: Block, member_forces: FloatArray) -> FloatArray:
    """Push in all posts at grade [N], (n,), from member forces (n, members, 12)."""
    ideal = block.frame.ideal
    total = np.zeros(len(member_forces))
    for i in range(len(ideal.rack.posts.positions)):
        grade = ideal.marks[f"{post_name(ideal.rack, i)} at grade"]
        members = ideal.model.members
        above = next(
            m
            for m in ideal.model.members_of(post_name(ideal.rack, i))
            if members[m].ends[0] == grade
        )
        total += np.maximum(member_forces[:, above, 0], 0.0)
    return total
