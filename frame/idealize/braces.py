"""Knee braces and stays: stiff bracing."""

import math

import numpy as np

from frame.fem.model import AFTER, BEFORE, Support
from frame.idealize.draft import Draft, tube_bar
from frame.idealize.posts import number_of, post_name
from frame.named.part import Edge, Part, Side, knee, stay
from frame.rack.guy import BEAM_ENDS, POST_TOP
from frame.rack.rack import Rack

PINNED = ("ry", "rz")
ACROSS = (0.0, 1.0, 0.0)


def begins_to_carry(fitted: str) -> str:
    """When a part fitted "before", "after" or "jacked" begins to carry dead load."""
    return AFTER if fitted == "after" else BEFORE


def knee_name(rack: Rack, index: int, side: Side) -> Part:
    """Return a knee as a part: "knee, left", or "knee 2, left" on the second of several posts."""
    return knee(number_of(rack, index), side)


def knee_setbacks(rack: Rack) -> tuple[float, float]:
    """Length [m] of a knee inside the post and inside the beam, from work point to pipe wall."""
    knees = rack.knees
    assert knees is not None
    return (
        rack.posts.pipe.od / 2 / math.sin(knees.angle),
        rack.beam.pipe.od / 2 / math.cos(knees.angle),
    )


def add_knees(draft: Draft, rack: Rack) -> None:
    """Add two knees to every post; rigid inside the pipes they are welded or pinned to."""
    knees = rack.knees
    if knees is None:
        return
    bar = tube_bar(knees.pipe.design, knees.pipe.weight)
    free = PINNED if knees.ends == "pinned" else ()
    at_post, at_beam = knee_setbacks(rack)
    for i in range(len(rack.posts.positions)):
        post = post_name(rack, i)
        for side in Side:
            ends = (
                draft.marks[f"{post} at knees"],
                draft.marks[f"beam at knee of {post}, {side}"],
            )
            along = draft.xyz(ends[1]) - draft.xyz(ends[0])
            along /= np.linalg.norm(along)
            draft.member(
                knee_name(rack, i, side),
                ends,
                bar,
                ACROSS,
                setback=(tuple(at_post * along), tuple(-at_beam * along)),
                free=(free, free),
                fitted=begins_to_carry(knees.fitted),
            )


def attachments(
    draft: Draft, rack: Rack, attach: str
) -> list[tuple[Edge, Side, int, tuple[float, float]]]:
    """Attachments of guys and stays: which way it goes, node, signs of x and y; four of them."""
    first, last = post_name(rack, 0), post_name(rack, len(rack.posts.positions) - 1)
    rails = len(rack.rails.positions)
    found = []
    for edge, sy, end in ((Edge.FRONT, -1.0, "lower end"), (Edge.BACK, 1.0, "upper end")):
        for side, sx, post, rail in ((Side.LEFT, -1.0, first, 1), (Side.RIGHT, 1.0, last, rails)):
            mark = f"rail {rail} {end}"
            if attach == POST_TOP:
                mark = f"{post} lug"
            elif attach == BEAM_ENDS:
                mark = f"beam end, {side}"
            found.append((edge, side, draft.marks[mark], (sx, sy)))
    return found


def add_stays(draft: Draft, rack: Rack) -> None:
    """Add four stays, pinned at both ends, their feet held by the ground."""
    stays = rack.stays
    if stays is None:
        return
    bar = tube_bar(stays.pipe.design, stays.pipe.weight)
    for edge, side, node, (sx, sy) in attachments(draft, rack, stays.attach):
        x, y, _ = draft.xyz(node)
        foot = draft.node(
            f"stay foot, {edge} {side}", (x + sx * stays.along, y + sy * stays.out, 0.0)
        )
        draft.supports.append(
            Support(node=foot, fixed=(True,) * 6, fitted=begins_to_carry(stays.fitted))
        )
        draft.member(
            stay(edge, side),
            (foot, node),
            bar,
            (math.cos(0.3), math.sin(0.3), 0.0),
            free=(PINNED, PINNED),
            fitted=begins_to_carry(stays.fitted),
        )
