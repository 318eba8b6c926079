"""Stakes: where posts and anchors stand, and the tapes that set them out and check them."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise

import numpy as np

from frame.idealize.posts import post_name
from frame.named.part import Edge, Side
from frame.rack.rack import STAYS, Rack
from frame.shop.ground import Ground
from frame.shop.steel.eyes import eyes
from frame.shop.yard.lines import GuyLine
from frame.units import DEG


@dataclass(frozen=True, slots=True, kw_only=True)
class Stake:
    """A stake at a `point` on the ground [m], global axes, z over the grade at their middle.

    `set_out`: name of the post it is measured from, empty for the first post; `way` from the rack
    in which an anchor or foot lies.
    """

    name: str
    point: np.ndarray
    group: str = ""
    set_out: str = ""
    way: tuple[Edge, Side] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TapeLength:
    """A tape stretched from one stake to another: along the ground [m], and level.

    `checks`: it only proves what others have set out.
    """

    first: str
    second: str
    tape: float
    level: float
    checks: bool


def stakes(
    rack: Rack, bracing: tuple[str, ...], ground: Ground, lines: tuple[GuyLine, ...]
) -> tuple[Stake, ...]:
    """Return all stakes of a rack: posts from left to right, then anchors, then feet of stays."""
    posts = [
        Stake(name=post_name(rack, i), point=ground.point(x, 0.0))
        for i, x in enumerate(rack.posts.positions)
    ]
    ends = {Side.LEFT: posts[0].name, Side.RIGHT: posts[-1].name}
    found = posts + [
        Stake(
            name=f"anchor of {guy_words(line)}",
            point=line.anchor,
            group=_group(line),
            set_out=ends[line.eye.side],
            way=(line.eye.edge, line.eye.side),
        )
        for line in lines
    ]
    if rack.stays and STAYS in bracing:
        found += [
            Stake(
                name=f"foot of stay, {eye.which}",
                point=ground.point(eye.foot[0], eye.foot[1]),
                group="stays",
                set_out=ends[eye.side],
                way=(eye.edge, eye.side),
            )
            for eye in eyes(rack, rack.stays, min(rack.tilts))
        ]
    return tuple(found)


def guy_words(line: GuyLine) -> str:
    """Name a guy, and the tilt where it has another at each."""
    tilt = "" if line.tilt is None else f" at {line.tilt / DEG:.0f} deg"
    return f"{line.name}{tilt}"


def _group(line: GuyLine) -> str:
    return line.group if line.tilt is None else f"{line.group} at {line.tilt / DEG:.0f} deg"


def measures(found: tuple[Stake, ...]) -> tuple[TapeLength, ...]:
    """Return the tapes: post to post, post to its anchors, then side by side and diagonals."""
    return tuple(_measures(found))


def _measures(found: tuple[Stake, ...]) -> Iterator[TapeLength]:
    posts = [s for s in found if not s.group]
    for a, b in pairwise(posts):
        yield tape_between(a, b)
    by_name = {s.name: s for s in found}
    for group in dict.fromkeys(s.group for s in found if s.group):
        mine = [s for s in found if s.group == group]
        for stake in mine:
            yield tape_between(by_name[stake.set_out], stake)
        for a, b in combinations(mine, 2):
            yield tape_between(a, b, checks=_is_diagonal(a, b))


def _is_diagonal(a: Stake, b: Stake) -> bool:
    """Whether they are at opposite corners."""
    return not set(a.way or ()) & set(b.way or ())


def tape_between(a: Stake, b: Stake, *, checks: bool = False) -> TapeLength:
    """Return the measure between two stakes."""
    apart = b.point - a.point
    return TapeLength(
        first=a.name,
        second=b.name,
        tape=float(np.linalg.norm(apart)),
        level=float(np.hypot(apart[0], apart[1])),
        checks=checks,
    )
