"""Trenches of buried logs: where one lies beyond its stake, and the rod that brings it up."""

import math
from dataclasses import dataclass

import numpy as np

from frame.rack.guy import DEADMAN
from frame.rack.rack import Rack
from frame.shop.ground import Ground
from frame.shop.words import tape
from frame.shop.yard.lines import GuyLine
from frame.shop.yard.stakes import Stake, guy_words
from frame.units import DEG

FAR = 2.0
"""How many times as far out as deep a trench lies, before it is told as far [1] (judgement).

A guy flatter than about 27 deg does; the rod is then over 2.2 times as long as the log is deep.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trench:
    """The log of one `guy`, in line with it: it lies where the guy, carried on, is `depth` deep.

    `stake`: name of the stake where the `rod` comes out of the ground; `point` on the ground over
    the middle of the log, global axes; `out` from the stake to there, `level` the same on the
    level, `from_post` to there from the post named `post`; `depth` of the log's middle under that
    point, `rod` from the log's middle to the eye [m]. `slope` of the guy over the level [rad].
    """

    guy: str
    stake: str
    post: str
    point: np.ndarray
    out: float
    level: float
    from_post: float
    depth: float
    rod: float
    slope: float

    @property
    def far(self) -> bool:
        """Whether it lies further out than is sensible."""
        return self.level > FAR * self.depth


def trenches(
    rack: Rack, ground: Ground, lines: tuple[GuyLine, ...], stakes: tuple[Stake, ...]
) -> tuple[Trench, ...]:
    """Return the trench of every guy that a log holds, in the order of `lines`.

    From the stake outwards the ground lies as `ground` says, else level.
    """
    groups = {g.name: g for g in rack.guys}
    by_name = {s.name: s for s in stakes}
    found = []
    for line, stake in zip(lines, (s for s in stakes if s.way), strict=False):
        group = groups[line.group]
        if group.anchor != DEADMAN or not group.hold.depth:
            continue
        level, point = _over_the_log(line, ground, group.hold.depth)
        found.append(
            Trench(
                guy=guy_words(line),
                stake=stake.name,
                post=stake.set_out,
                point=point,
                out=float(np.linalg.norm(point - line.anchor)),
                level=level,
                from_post=float(np.linalg.norm(point - by_name[stake.set_out].point)),
                depth=group.hold.depth,
                rod=level / math.cos(line.rise),
                slope=line.rise,
            )
        )
    return tuple(found)


def _over_the_log(line: GuyLine, ground: Ground, depth: float) -> tuple[float, np.ndarray]:
    """Return how far out on the level the guy's line is `depth` deep [m], the point over it.

    The line falls by tan(rise), the ground rises by so much along it, each metre outwards.
    """
    run = line.anchor[:2] - line.eye.point[:2]
    way = run / np.hypot(*run)
    level = depth / (math.tan(line.rise) + ground.height(float(way[0]), float(way[1])))
    x, y = line.anchor[:2] + level * way
    up = line.anchor[2] - ground.height(line.anchor[0], line.anchor[1])
    return level, ground.point(float(x), float(y), float(up))


def trench_words(found: tuple[Trench, ...], ground: Ground, system: str) -> list[str]:
    """Say how the trenches are set out, and which lie far; empty where there is none."""
    if not found:
        return []
    lies = (
        "with the slope going on beyond the stake"
        if ground.slope
        else ("with the ground level beyond the stake")
    )
    said = [
        (
            "A stake marks where the eye comes out of the ground. The log lies further out, in "
            "line with the guy, square across it, as deep as told under the ground over its "
            f"middle, {lies}: where it falls more, the log has less ground on it. The rod runs "
            "in a narrow slot, straight on in line with the guy. Leave the ground between trench "
            "and stake uncut but for the slot: it is what holds."
        )
    ]
    far = [t for t in found if t.far]
    if far:
        worst = max(far, key=lambda t: t.level / t.depth)
        said.append(
            f"{'Every guy is' if len(far) == len(found) else 'Some guys are'} so flat that the "
            f"log lies more than {FAR:.0f} times as far out as it is deep: at "
            f"{worst.slope / DEG:.0f} deg the log of {worst.guy} lies "
            f"{tape(worst.out, system)} beyond its stake on a rod of "
            f"{tape(worst.rod, system)}. See that there is room for the trench. Stakes nearer "
            "the rack (less `out` and `along`) or a higher eye make the guy steeper: write them "
            "into the file and run this again, for the guy then pulls otherwise."
        )
    return said
