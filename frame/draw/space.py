"""The space frame seen from above its front left corner, as a plane picture."""

import math

import numpy as np

from frame.draw.curve import deflected
from frame.draw.picture import Array, DrawnGuy, DrawnMember, Picture, ValueMark, guy_text
from frame.fem.model import Connection, Member, Model
from frame.named.part import BRACES, PartKind
from frame.units import show

TURN, DIP = math.radians(-32.0), math.radians(20.0)
STATIONS = 9


def project(points: Array) -> Array:
    """Parallel projection of (..., 3) points or movements onto the paper (..., 2).

    The eye stands in front of the rack (-y), left of it and above; z stays upright.
    """
    right = np.array([math.cos(TURN), math.sin(TURN), 0.0])
    ahead = np.array([-math.sin(TURN), math.cos(TURN), 0.0])
    up = math.sin(DIP) * ahead + math.cos(DIP) * np.array([0.0, 0.0, 1.0])
    return np.stack([points @ right, points @ up], axis=-1)


def space_picture(
    model: Model, displacements: Array, tensions: Array, system: str, panels: Array | None = None
) -> Picture:
    """Picture of a solved space frame.

    Parameters
    ----------
    model : Model
        The frame.
    displacements : array (n_nodes, 6)
        Movement of the nodes in one case [m, rad].
    tensions : array (n_guys,)
        Pull of the guys [N]; at 0 they are drawn slack, at nan not at all (not fitted).
    system : str
        Units of the values written, "us" or "metric".
    panels : array (k, 3), optional
        Corners of the panel plane [m].
    """
    xyz = np.array([node.xyz for node in model.nodes])
    bars = [bar for member in model.members for bar in _member(member, xyz, displacements)]
    bars += [bar for one in model.connections for bar in _connection(one, xyz, displacements)]
    lines, pulls = [], []
    for guy, pull in zip(model.guys, tensions, strict=True):
        if np.isnan(pull):
            continue
        arm = np.array(guy.setback)
        start, moved = xyz[guy.node] + arm, _carried(displacements[guy.node], arm)
        lines.append(
            DrawnGuy(
                name=guy.name,
                ends=project(np.array([start, guy.anchor])),
                shape=project(np.array([moved, np.zeros(3)])),
                slack=bool(pull <= 0),
            )
        )
        middle = project(0.4 * start + 0.6 * np.array(guy.anchor))
        along = project(0.4 * moved)
        text = guy_text(guy.name, float(pull), system)
        away = np.array([np.sign(project(np.array(guy.anchor) - start)[0]) or 1.0, -0.3])
        pulls.append(ValueMark(text=text, at=middle, offset=along, toward=away))
    outline = None if panels is None else project(panels)
    return Picture(
        bars=tuple(bars),
        lines=tuple(lines),
        panels=outline,
        movements=(*_farthest(xyz, displacements, system), *pulls),
        ground=False,
    )


def _farthest(xyz: Array, displacements: Array, system: str) -> tuple[ValueMark, ...]:
    """Return a mark at the node that moves farthest."""
    far = np.linalg.norm(displacements[:, :3], axis=1)
    i = int(np.argmax(far))
    text = f"moves {show(float(far[i]), 'movement', system)}"
    toward = np.array([1.0 if project(xyz[i])[0] > 0 else -1.0, 0.5])
    moved = project(displacements[i, :3])
    return (ValueMark(text=text, at=project(xyz[i]), offset=moved, toward=toward),)


def _carried(six: Array, arm: Array) -> Array:
    """Movement of a point on a rigid arm from a node that moves by `six`."""
    return np.asarray(six[:3] + np.cross(six[3:], arm))


def _member(member: Member, xyz: Array, displacements: Array) -> list[DrawnMember]:
    arms = np.array(member.setback)
    nodes = list(member.ends)
    ends = xyz[nodes] + arms
    moved = np.array([_carried(displacements[n], a) for n, a in zip(nodes, arms, strict=True)])
    freed = bool(member.free[0]), bool(member.free[1])
    shape = deflected(ends, moved, displacements[nodes, 3:], freed, STATIONS)
    at = ends[0] + np.linspace(0.0, 1.0, STATIONS)[:, None] * (ends[1] - ends[0])
    bars = [_bar(member.part, at, shape, member.part.kind)]
    for end, node in enumerate(nodes):
        if arms[end].any():
            pair = np.array([xyz[node], ends[end]])
            bars.append(_bar(member.part, pair, np.array([displacements[node, :3], moved[end]])))
    return bars


def _connection(one: Connection, xyz: Array, displacements: Array) -> list[DrawnMember]:
    first, second = one.ends
    arm = xyz[second] - xyz[first]
    if not arm.any():
        return []
    moved = np.array([displacements[first, :3], _carried(displacements[first], arm)])
    return [_bar(one.name, xyz[[first, second]], moved)]


def _bar(part: str, at: Array, shape: Array, kind: PartKind | None = None) -> DrawnMember:
    return DrawnMember(
        part=part,
        at=project(at),
        shape=project(shape),
        force=np.zeros(len(at)),
        brace=kind in BRACES,
        rail=kind is PartKind.RAIL,
        rigid=len(at) == 2,
    )
