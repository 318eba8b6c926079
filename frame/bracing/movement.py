"""Sag, sway and swing of one bracing, worst over its tilts and corners."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from frame.fem.cases import Answer
from frame.idealize.actions import PANEL_WEIGHT, STEEL_WEIGHT
from frame.idealize.posts import beam_mark, post_name
from frame.loads.cases import WindCase
from frame.loads.combinations import WEIGHT_ONLY, WHOLE_WIND
from frame.named.limit_state import LimitState
from frame.named.part import PartKind, Side
from frame.parts.steel.grip import grip
from frame.records.motion import Sag, Sagging, Sway, Swing
from frame.records.results import Row
from frame.solved.alpha import MEDIAN_ALPHA
from frame.solved.blocks import Block
from frame.solved.frames import FloatArray
from frame.solved.worst import worst_case

SERVICE = WHOLE_WIND[:1]
RY = 4


def still_air(block: Block) -> tuple[FloatArray, FloatArray]:
    """Displacements (nodes, 6) under the weights alone, and with the guys at their pretension."""
    response = block.frame.response
    index = response.model.load_index
    dead = response.displacements[[index[STEEL_WEIGHT], index[PANEL_WEIGHT]]].sum(axis=0)
    return dead, weighed(block).displacements[0]


def weighed(block: Block) -> Answer:
    """Return the answer to the weights alone, guys at their pretension."""
    index = block.frame.response.model.load_index
    factors = np.zeros((1, len(index)))
    factors[0, [index[STEEL_WEIGHT], index[PANEL_WEIGHT]]] = 1.0
    return block.answer(factors)


def sags_of_beam(block: Block) -> tuple[Sag, ...]:
    """Sag of each beam end and of each span between posts, at one tilt and corner."""
    rack, marks = block.rack, block.frame.ideal.marks
    dead, still = still_air(block)
    last = len(rack.posts.positions) - 1
    per_arm, slop = rack.limits.sag_per_arm, rack.sleeve.slop
    found = []
    for side, post, sign, arm in (
        (Side.LEFT, 0, -1.0, rack.arms[0]),
        (Side.RIGHT, last, 1.0, rack.arms[1]),
    ):
        end, root = marks[f"beam end, {side}"], marks[beam_mark(rack, post)]
        top = marks[f"{post_name(rack, post)} top"]
        drop = [-(u[end, 2] - u[root, 2]) for u in (dead, still)]
        turned = sign * arm * dead[[top, root], RY]
        found.append(_sag(Sagging(side=side), drop, turned, arm * per_arm, slop * arm))
    for i in range(last):
        a, b = (marks[beam_mark(rack, j)] for j in (i, i + 1))
        tops = [marks[f"{post_name(rack, j)} top"] for j in (i, i + 1)]
        middle = marks[f"beam midspan {i + 1}"]
        span = rack.posts.positions[i + 1] - rack.posts.positions[i]
        drop = [-(u[middle, 2] - (u[a, 2] + u[b, 2]) / 2) for u in (dead, still)]
        turned = span / 8 * np.array([dead[n, RY] - dead[m, RY] for n, m in (tops, (a, b))])
        found.append(_sag(Sagging(span=i + 1), drop, turned, span * per_arm, 0.0))
    return tuple(found)


def _sag(where: Sagging, drop: list[float], turned: FloatArray, limit: float, slop: float) -> Sag:
    """Put a sag together; `turned`: from the post top alone, and from post and sleeve together."""
    post, both = map(float, turned)
    return Sag(
        dead=float(drop[0]),
        still_air=float(drop[1]),
        limit=limit,
        where=where,
        pipe=float(drop[0]) - both,
        sleeve=both - post,
        post=post,
        slop=slop,
    )


def worst_sag(blocks: Sequence[Block]) -> Sag:
    """Return the sag that comes nearest to its limit, the first of those that are the same."""
    return most_sag(blocks)[0]


def most_sag(blocks: Sequence[Block]) -> tuple[Sag, Block]:
    """Return the sag of `worst_sag`, and the block that sags so."""
    found = [(sag, block) for block in blocks for sag in sags_of_beam(block)]
    return found[worst_case(np.array([sag.use for sag, _ in found]))]


@dataclass(frozen=True, kw_only=True)
class Blown:
    """The worst sway, and the case in which it is found, solved at second order."""

    sway: Sway
    block: Block
    wind: WindCase
    answer: Answer


def worst_sway(blocks: Sequence[Block], gust: float | None = None) -> Sway:
    """Largest level movement of a post top from still air at a `gust`, else the service gust.

    Of second order, with the forces as they are and the whole stiffness. Where the rack sways over
    in some wind it says so, and tells the largest movement in the others.
    """
    return most_sway(blocks, gust).sway


def most_sway(blocks: Sequence[Block], gust: float | None = None) -> Blown:
    """Return the sway of `worst_sway`, and the case it comes from."""
    rack = blocks[0].frame.rack
    gust = rack.site.service_gust if gust is None else gust
    best: tuple[tuple[bool, float], Block, int, Answer] | None = None
    for block in blocks:
        answer = _blown(block, gust)
        level, over = level_sway(block, answer), answer.sways_over
        standing = np.where(over, 0.0, level)
        case = int(np.argmin(answer.lowest)) if over.any() else worst_case(standing)
        most = max(best[0][1] if best else -1.0, float(standing.max()))
        if best is None or (bool(over.any()), most) > best[0]:
            best = (bool(over.any()), most), block, case, answer
    assert best is not None
    (topples, top), block, case, answer = best
    wind = block.frame.cases(SERVICE).winds[case]
    assert wind is not None
    sway = Sway(
        gust=gust,
        top=top,
        limit=rack.limits.sway_per_height * rack.posts.height,
        words=wind.words,
        topples=topples,
    )
    return Blown(sway=sway, block=block, wind=wind, answer=answer.only(np.array([case])))


def _blown(block: Block, gust: float) -> Answer:
    """Every wind of a gust, of second order.

    With the gust factor of 0.85 on slow racks too: limits of movement are judgements for what is
    seen in such gusts, and pictures and page add the same states up.
    """
    table = block.frame.cases(SERVICE)
    return block.grown(block.answer(table.at(block.frame.pressure(gust))), MEDIAN_ALPHA)


def level_sway(block: Block, answer: Answer) -> FloatArray:
    """How far a post top moves level from still air (n,) [m], in answers of second order."""
    rack, marks = block.frame.rack, block.frame.ideal.marks
    rest = block.grown(weighed(block), answer.alpha).displacements[0]
    tops = [marks[f"{post_name(rack, i)} top"] for i in range(len(rack.posts.positions))]
    moved = (answer.displacements - rest)[:, tops, :2]
    found: FloatArray = np.linalg.norm(moved, axis=2).max(axis=1)
    return found


def worst_swing(
    blocks: Sequence[Block], rows: Sequence[Row] = (), gust: float | None = None
) -> Swing | None:
    """Largest torque about the post at a `gust`, else the service gust; None with several posts.

    Of second order, in winds that do not topple the rack.

    What the ground holds is read from the check of the post turning in it, among `rows`.
    """
    rack = blocks[0].frame.rack
    if len(rack.posts.positions) > 1:
        return None
    gust = rack.site.service_gust if gust is None else gust
    best = (-1.0, "")
    for block in blocks:
        answer = _blown(block, gust)
        torque = np.abs(answer.connection_forces[:, sleeves(block)[0], 5])
        torque[answer.sways_over] = 0.0
        case = worst_case(torque)
        best = max(best, (float(torque[case]), _plain(block.frame.cases(SERVICE).winds[case])))
    low, high = grip(rack)
    return Swing(
        gust=gust,
        torque=best[0],
        grip_low=low,
        grip_high=high,
        ground=next((r.nominal for r in rows if r.check is LimitState.POST_TURNING), None),
        words=best[1],
    )


def sleeves(block: Block) -> list[int]:
    """Positions of the sleeves among the model's connections."""
    return block.frame.ideal.model.connections_of(PartKind.SLEEVE)


def _plain(wind: object) -> str:
    return getattr(wind, "words", WEIGHT_ONLY.words)
