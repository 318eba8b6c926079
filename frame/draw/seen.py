"""A rack under a load as it is seen from the front or from the side: strips of true width."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from frame.draw.curve import deflected
from frame.draw.picture import Array
from frame.draw.view import panel_corners, panel_nodes
from frame.named.part import Part, PartKind
from frame.pictured.beside import Loaded
from frame.pictured.flexing import STATIONS, seen_width

FRONT, SIDE = "front", "side"
ACROSS = {FRONT: [0, 2], SIDE: [1, 2]}
"""Axes of the rack that lie on the paper."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """A member: `at` and `shape` (S, 2), place and movement [m]; `width` [m]; `used` (S,) [1]."""

    part: Part
    member: int
    at: Array
    shape: Array
    width: float
    used: Array

    @property
    def end_on(self) -> bool:
        """Whether it is looked along, and so is a round on the paper."""
        return float(np.hypot(*(self.at[-1] - self.at[0]))) < 1e-6

    def outline(self, times: float, more: float = 0.0) -> Array:
        """Edges (2 S, 2) [m] of the strip moved `times` its movement, `more` wider at full use."""
        middle = self.at + times * self.shape
        way = np.gradient(middle, axis=0)
        across = np.stack([-way[:, 1], way[:, 0]], axis=1)
        # Looked along, a part that does not move has no direction on the paper, and no outline.
        across /= np.maximum(np.hypot(*across.T), 1e-9)[:, None]
        half = (self.width / 2 + more * np.minimum(self.used, 1.0))[:, None] * across
        return np.vstack([middle + half, (middle - half)[::-1]])


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenGuy:
    """A guy: `ends` and `shape` (2, 2) [m], from the rack to its anchor; whether it is slack."""

    name: str
    ends: Array
    shape: Array
    slack: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenElevation:
    """An elevation: strips, wires, panels (k, 2) and what they move by [m]."""

    view: str
    strips: tuple[Strip, ...]
    wires: tuple[SeenGuy, ...]
    panels: Array
    panels_moved: Array

    def on_paper(self, xyz: Array) -> Array:
        """Return a place or movement (..., 3) on the paper (..., 2)."""
        return np.asarray(xyz)[..., ACROSS[self.view]]

    def extent(self, times: float) -> Array:
        """Left, right, bottom and top [m] of all there is, at rest and moved."""
        points = [p for s in self.strips for p in (s.at, s.at + times * s.shape)]
        points += [w.ends for w in self.wires]
        points += [self.panels, self.panels + times * self.panels_moved]
        every = np.vstack(points)
        (left, bottom), (right, top) = every.min(axis=0), every.max(axis=0)
        return np.array([left, right, bottom, top])

    @property
    def longest_movement(self) -> float:
        """Longest movement on the paper [m]."""
        return max(float(np.hypot(*s.shape.T).max()) for s in self.strips)


def seen(loaded: Loaded, view: str) -> SeenElevation:
    """See a loaded rack from the front, left at the left, or the side, front at the left.

    From the side one rail is seen, the one that works hardest, and the beam end on.
    """
    ideal = loaded.block.frame.ideal
    xyz = np.array([node.xyz for node in ideal.model.nodes])
    strips = tuple(_strips(loaded, view, xyz))
    wires = []
    for guy, pull, fitted in zip(ideal.model.guys, loaded.pulls, loaded.block.fitted, strict=True):
        if not fitted:
            continue
        arm = np.array(guy.setback)
        six = loaded.moved[guy.node]
        moved = six[:3] + np.cross(six[3:], arm)
        wires.append(
            SeenGuy(
                name=guy.name,
                ends=np.array([xyz[guy.node] + arm, guy.anchor])[:, ACROSS[view]],
                shape=np.array([moved, np.zeros(3)])[:, ACROSS[view]],
                slack=bool(pull <= 0.0),
            )
        )
    corners = panel_corners(ideal)
    return SeenElevation(
        view=view,
        strips=strips,
        wires=tuple(wires),
        panels=corners[:, ACROSS[view]],
        panels_moved=loaded.moved[panel_nodes(ideal), :3][:, ACROSS[view]],
    )


def _strips(loaded: Loaded, view: str, xyz: Array) -> Iterator[Strip]:
    ideal = loaded.block.frame.ideal
    members = ideal.model.members
    rails = [i for i, m in enumerate(members) if m.part.kind is PartKind.RAIL]
    worst = members[max(rails, key=lambda i: loaded.used[i].max())].part
    hidden = (PartKind.RAIL if view == FRONT else PartKind.KNEE, PartKind.TIE)
    for i, member in enumerate(members):
        kind = member.part.kind
        if kind in hidden or (kind is PartKind.RAIL and member.part != worst):
            continue
        yield _strip(loaded, i, xyz, ACROSS[view])


def _strip(loaded: Loaded, index: int, xyz: Array, paper: list[int]) -> Strip:
    member = loaded.block.frame.ideal.model.members[index]
    arms, nodes = np.array(member.setback), list(member.ends)
    ends = xyz[nodes] + arms
    six = loaded.moved[nodes]
    moved = six[:, :3] + np.cross(six[:, 3:], arms)
    freed = bool(member.free[0]), bool(member.free[1])
    shape = deflected(ends, moved, six[:, 3:], freed, STATIONS)
    at = ends[0] + np.linspace(0.0, 1.0, STATIONS)[:, None] * (ends[1] - ends[0])
    return Strip(
        part=member.part,
        member=index,
        at=at[:, paper],
        shape=shape[:, paper],
        width=seen_width(loaded.block.frame.rack, member.part.kind),
        used=loaded.used[index],
    )
