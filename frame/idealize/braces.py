"""Knee braces and stays: stiff bracing."""

import math

import numpy as np

from frame.fem.model import AFTER, BEFORE, Support
from frame.idealize.draft import Draft, tube_bar
from frame.idealize.posts import post_name
from frame.rack.guy import BEAM_ENDS, POST_TOP
from frame.rack.rack import Rack

PINNED = ("ry", "rz")
ACROSS = (0.0, 1.0, 0.0)


def stage(fitted: str) -> str:
    """When a part fitted "before", "after" or "jacked" begins to carry dead load."""
    return AFTER if fitted == "after" else BEFORE


def knee_name(rack: Rack, index: int, side: str) -> str:
    """Name of a knee: "knee, left", or "knee 2, left" on the second of several posts."""
    number = "" if len(rack.posts.positions) == 1 else f" {index + 1}"
    return f"knee{number}, {side}"


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
        for side in ("left", "right"):
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
                fitted=stage(knees.fitted),
            )


def corners(draft: Draft, rack: Rack, attach: str) -> list[tuple[str, int, float, float]]:
    """Attachments of guys and stays: (which, node, sign of x, sign of y), four of them."""
    first, last = post_name(rack, 0), post_name(rack, len(rack.posts.positions) - 1)
    rails = len(rack.rails.positions)
    found = []
    for depth, sy, edge in (("front", -1.0, "lower end"), ("back", 1.0, "upper end")):
        for side, sx, post, rail in (("left", -1.0, first, 1), ("right", 1.0, last, rails)):
            mark = f"rail {rail} {edge}"
            if attach == POST_TOP:
                mark = f"{post} lug"
            elif attach == BEAM_ENDS:
                mark = f"beam end, {side}"
            found.append((f"{depth} {side}", draft.marks[mark], sx, sy))
    return found


def add_stays(draft: Draft, rack: Rack) -> None:
    """Add four stays, pinned at both ends, their feet held by the ground."""
    stays = rack.stays
    if stays is None:
        return
    bar = tube_bar(stays.pipe.design, stays.pipe.weight)
    for which, node, sx, sy in corners(draft, rack, stays.attach):
        x, y, _ = draft.xyz(node)
        foot = draft.node(f"stay foot, {which}", (x + sx * stays.along, y + sy * stays.out, 0.0))
        draft.supports.append(Support(node=foot, fixed=(True,) * 6, fitted=stage(stays.fitted)))
        draft.member(
            f"stay, {which}",
            (foot, node),
            bar,
            (math.cos(0.3), math.sin(0.3), 0.0),
            free=(PINNED, PINNED),
            fitted=stage(stays.fitted),
        )
