"""What it takes to work out how a rack moves in any wind without the program: unit answers.

A case is a sum of columns: the dead load, every wind's unit loads, and the pulls of the guys,
which are one-way lines over a small matrix of give. What grows at second order is a sum of shapes,
by a small matrix for every column. All of it is read off a solved `Block`: nothing is new.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from frame.bracing.movement import SERVICE
from frame.fem.cases import Answer
from frame.fem.element import Array
from frame.fem.model import Member
from frame.fem.second_order.ritz import NEAR
from frame.idealize.posts import post_name
from frame.loads.cases import DEAD, WindCase
from frame.named.part import PartKind
from frame.pictured.flexing import fibres
from frame.solved.alpha import MEDIAN_ALPHA
from frame.solved.blocks import Block
from frame.solved.frames import Frame

FIELD_LOST = 1e-3
"""Share of a case's largest movement that may be lost where what grows is drawn in few shapes."""
SHARES = (0.25, 0.5, 0.75, 1.0)
"""Shares of the map gust at which it is looked how a rack grows."""
TORQUE = 5
"""Place of the torque about the post among the forces of a sleeve."""


@dataclass(frozen=True, kw_only=True)
class Columns:
    """Answers to c unit amounts: `moved` (c, N, 6) [m, rad], `forces` (c, M, 2, 3), `told` (c, r).

    Forces are N [N], My and Mz [N m] of the sections at both ends of every member. Told are the
    level movements of every post top, ux and uy in turn [m], then with one post the torque on its
    sleeve [N m].
    """

    moved: Array
    forces: Array
    told: Array

    def only(self, rows: list[int]) -> "Columns":
        """Return some of them, by position."""
        return Columns(moved=self.moved[rows], forces=self.forces[rows], told=self.told[rows])

    def sums(self, amounts: Array) -> "Columns":
        """Return sums of them by amounts (n, c)."""
        return Columns(
            moved=np.tensordot(amounts, self.moved, 1),
            forces=np.tensordot(amounts, self.forces, 1),
            told=amounts @ self.told,
        )


@dataclass(frozen=True, kw_only=True)
class Bare:
    """A frame without its guys: one stiff bracing at one tilt.

    `columns` of the dead load, of every unit load that a wind has, of every guy's pull of 1 N.
    `loads` (c, L + G) what they are made of. `winds` with their factors `per_pressure` (winds, w)
    on the columns of the wind, per Pa; `pressure` [Pa] of a gust of 1 m/s.
    """

    frame: Frame
    columns: Columns
    loads: Array
    winds: tuple[WindCase, ...]
    per_pressure: Array
    pressure: float

    @classmethod
    def of(cls, frame: Frame) -> "Bare":
        """Read it off a factorised frame."""
        response, table = frame.response, frame.cases(SERVICE)
        index, count = response.model.load_index, len(response.slackness)
        used = np.flatnonzero(np.abs(table.per_pressure).any(axis=0))
        rows = 1 + len(used)
        loads = np.zeros((rows + count, len(index) + count))
        loads[0, [index[name] for name in DEAD]] = 1.0
        loads[np.arange(1, rows), used] = 1.0
        loads[rows:, len(index) :] = np.eye(count)
        both = [
            np.concatenate([getattr(response, name), getattr(response, f"pull_{name}")])
            for name in ("displacements", "member_forces", "connection_forces")
        ]
        return cls(
            frame=frame,
            columns=_columns(frame, *both).sums(loads),
            loads=loads,
            winds=tuple(w for w in table.winds if w),
            per_pressure=table.per_pressure[:, used],
            pressure=frame.pressure(1.0),
        )


@dataclass(frozen=True, kw_only=True)
class Held:
    """A bare frame with some guys fitted, and what its movements grow by at second order.

    `blocks`: the same at several ends of the guys' band. Over the columns that it takes, `taken`,
    and k shapes: `geometric` (c, k, k) with minus the geometric stiffness of each in the shapes,
    `pushes` (c, c, k) the work of that on the answers to the others, the same both ways round;
    `lines` (k, g) the work of the fitted guys. `told` (k, r) as of `Columns`. Drawn is what grows
    in fewer shapes, sums by `mixed` (m, k) of the others, as `drawn`.
    """

    bare: Bare
    blocks: tuple[Block, ...]
    taken: tuple[int, ...]
    geometric: Array
    pushes: Array
    lines: Array
    told: Array
    mixed: Array
    drawn: Columns

    @classmethod
    def of(cls, bare: Bare, blocks: tuple[Block, ...]) -> "Held":
        """Read it off blocks of one frame and bracing."""
        block, loads = blocks[0], bare.loads
        fitted = np.flatnonzero(block.fitted)
        first = len(loads) - len(block.fitted)
        taken = [*range(first), *(first + fitted)]
        ritz, some = block.shapes, loads[taken]
        pushes = np.einsum("ai,ijk,bj->abk", some, ritz.pushes, some)
        grown = _columns(
            bare.frame,
            ritz.shapes.displacements,
            ritz.shapes.member_forces,
            ritz.shapes.connection_forces,
        )
        mixed = _few(blocks, grown.moved)
        return cls(
            bare=bare,
            blocks=blocks,
            taken=tuple(int(i) for i in taken),
            geometric=-np.tensordot(some, ritz.geometric, 1),
            pushes=(pushes + pushes.swapaxes(0, 1)) / 2,
            lines=ritz.pulls[:, fitted],
            told=grown.told,
            mixed=mixed,
            drawn=grown.sums(mixed),
        )

    @cached_property
    def guy_places(self) -> tuple[int, ...]:
        """Positions of its guys among those of the model."""
        return tuple(int(i) for i in np.flatnonzero(self.blocks[0].fitted))

    @property
    def topples_at(self) -> float:
        """Factor on the forces from which down the rack is said to topple [1]."""
        return MEDIAN_ALPHA * (1.0 + NEAR)

    def give(self, block: Block) -> tuple[Array, Array, Array]:
        """Give (g, g) [m/N], slackness (g,) [m/N] and pretension (g,) [N] of its guys."""
        some = list(self.guy_places)
        response, pull = block.response, block.band[1]
        lines = response.slackness[some]
        return response.flexibility[np.ix_(some, some)] + np.diag(lines), lines, pull[some]

    @property
    def stretch(self) -> Array:
        """How much each column of the wind lengthens the guy lines (w, g) [m]."""
        response, loads = self.bare.frame.response, self.bare.loads
        count = loads.shape[1] - len(response.slackness)
        winds = loads[1 : 1 + self.bare.per_pressure.shape[1], :count]
        stretched: Array = winds @ response.stretch[:, list(self.guy_places)]
        return stretched


def worked(frame: Frame, members: Sequence[Member]) -> Array:
    """How hard N, My and Mz work each member: stress over the listed yield per unit, (M, 3)."""
    found = []
    for member in members:
        across, upright, fy = fibres(frame.rack, member)
        found.append([1 / member.A / fy, upright / member.Iy / fy, across / member.Iz / fy])
    return np.array(found)


def _columns(frame: Frame, moved: Array, members: Array, connections: Array) -> Columns:
    """Put answers (c, N, 6), (c, M, 12) and (c, C, 6) of a frame's model together."""
    rack, marks = frame.rack, frame.ideal.marks
    ends = members.reshape(len(members), -1, 2, 6)[..., [0, 4, 5]]
    posts = range(len(rack.posts.positions))
    tops = [marks[f"{post_name(rack, i)} top"] for i in posts]
    told = moved[:, tops, :2].reshape(len(moved), -1)
    if len(tops) == 1:
        spring = frame.ideal.model.connections_of(PartKind.SLEEVE)[0]
        told = np.hstack([told, connections[:, [spring], TORQUE]])
    return Columns(moved=moved, forces=ends * np.array([[-1.0], [1.0]]), told=told)


def _amplitudes(answer: Answer) -> Array:
    """Return by how much each shape grows (n, k) in cases of second order."""
    assert answer.amplitudes is not None
    return answer.amplitudes


def _few(blocks: tuple[Block, ...], moved: Array) -> Array:
    """Choose few sums (m, k) of shapes that hold what grows in every case seen, see `SHARES`."""
    grown, most = [], []
    for block in blocks:
        table, site = block.frame.cases(SERVICE), block.frame.rack.site
        for share in SHARES:
            pressure = block.frame.pressure(share * site.map_gust)
            answer = block.grown(block.answer(table.at(pressure)), MEDIAN_ALPHA)
            grown.append(_amplitudes(answer)[~answer.sways_over])
            most.append(np.abs(answer.displacements[~answer.sways_over, :, :3]).max(axis=(1, 2)))
    size = np.concatenate(most)
    parts = np.vstack(grown) / size[:, None]
    rows = np.linalg.svd(parts, full_matrices=False)[2]
    for count in range(1, len(rows) + 1):
        W = rows[:count]
        lost = np.tensordot(parts - parts @ W.T @ W, moved[:, :, :3], 1)
        if np.abs(lost).max(initial=0.0) <= FIELD_LOST:
            return W
    return rows
