"""Second order of whole racks, axial terms alone, against the P-delta analysis of PyNite.

PyNite (PyniteFEA) is a general open-source frame library. It knows no rigid arms and no joint
springs: arms are given to it as stiff members, a sleeve as a short member of the sleeve's bending
stiffness whose ends are one place in ours. Its guys are members that carry axial force only, those
that are taut at first order.
"""

from dataclasses import dataclass, replace

import numpy as np
import pytest
from Pynite import FEModel3D

from frame.fem.cases import solve
from frame.fem.model import AFTER, BEFORE, Model
from frame.fem.response import respond
from frame.fem.second_order.shapes import Statics
from frame.idealize.build import build
from frame.idealize.posts import beam_mark, post_name
from frame.idealize.state import State
from frame.loads.combinations import WHOLE_WIND
from frame.solved.frames import Frame
from tests.builders import case
from tests.published.test_pynite import FREEDOMS, add_member

STIFF, SHORT = 2e3, 0.004
SPREAD = {"A": 5e-3 * STIFF, "Iy": 1e-5 * STIFF, "Iz": 1e-5 * STIFF, "J": 1e-5 * STIFF}


@dataclass(frozen=True)
class Stand:
    """A rack of a case file that is changed a little, in a wind that brings it near buckling."""

    name: str
    bracing: tuple[str, ...]
    height: float
    nearness: float
    soil: str = "soft"


STANDS = (
    Stand("boat_shed", (), 1.0, 1.7),
    Stand("boat_shed", ("knees",), 1.25, 2.4),
    Stand("boat_shed", ("guys",), 1.0, 2.0, "stiff"),
    Stand("boat_shed", ("knees", "guys"), 1.1, 3.2),
    Stand("salvage_yard", (), 1.2, 3.5),
    Stand("salvage_yard", ("post-top guys",), 1.0, 2.1),
    Stand("salvage_yard", ("corner guys",), 1.0, 3.3, "stiff"),
    Stand("wash_house", ("knees", "ties"), 1.15, 2.8),
    Stand("wash_house", (), 1.0, 4.0, "stiff"),
    Stand("fifteen_lines", (), 1.0, 5.0),
)


def arm(other: FEModel3D, name: str, at: str, start: np.ndarray, way: tuple) -> str:
    """Add a stiff arm from a node; return the node at its tip, the node itself without an arm."""
    if not any(way):
        return at
    other.add_node(name, *(start + way))
    add_member(other, f"arm {name}", (at, name), SPREAD, across(np.array(way)))
    return name


def across(line: np.ndarray) -> np.ndarray:
    return np.cross(line, [0.31, 0.52, 0.8])


def twin(model: Model, factors: np.ndarray, taut: np.ndarray) -> FEModel3D:
    other = FEModel3D()
    steel = model.members[0]
    other.add_material("steel", steel.E, steel.G, 0.3, 0.0)
    xyz = np.array([n.xyz for n in model.nodes])
    add_joints(other, model, xyz)
    add_members(other, model, xyz)
    for guy in (g for g, on in zip(model.guys, taut, strict=True) if on):
        start, foot = xyz[guy.node], f"{guy.name} anchor"
        hook = arm(other, f"{guy.name} hook", model.nodes[guy.node].name, start, guy.setback)
        other.add_node(foot, *guy.anchor)
        other.def_support(foot, *(True,) * 6)
        line = {"A": guy.EA / steel.E, "Iy": 1e-9, "Iz": 1e-9, "J": 1e-9}
        add_member(other, guy.name, (hook, foot), line, across(np.array(guy.anchor) - start))
        other.def_releases(guy.name, Ryi=True, Rzi=True, Ryj=True, Rzj=True)
    for s in model.supports:
        name = model.nodes[s.node].name
        other.def_support(name, *s.fixed)
        for freedom, k in zip(FREEDOMS, s.k, strict=True):
            if k:
                other.def_support_spring(name, freedom, k)
    load(other, model, factors)
    other.analyze_PDelta()
    return other


def add_joints(other: FEModel3D, model: Model, xyz: np.ndarray) -> None:
    """Add the nodes and the connections; a sleeve takes the last millimetres of its post."""
    sleeves = [c for c in model.connections if any(k is not None for k in c.k)]
    for c in sleeves:
        assert np.allclose(xyz[c.ends[0]], xyz[c.ends[1]])
        assert c.k[3] == c.k[4]
        xyz[c.ends[0], 2] -= SHORT
    for n, at in zip(model.nodes, xyz, strict=True):
        other.add_node(n.name, *at)
    for c in model.connections:
        first, second = c.ends
        section = dict(SPREAD)
        if c in sleeves:
            bends = c.k[3] * SHORT / model.members[0].E
            section = {"A": 0.05, "J": 1e-3, "Iy": bends, "Iz": bends}
        names = model.nodes[first].name, model.nodes[second].name
        add_member(other, c.name, names, section, across(xyz[second] - xyz[first]))


def add_members(other: FEModel3D, model: Model, xyz: np.ndarray) -> None:
    for m in model.members:
        first, second = (
            arm(other, f"{m.name} tip {e}", model.nodes[n].name, xyz[n], m.setback[e])
            for e, n in enumerate(m.ends)
        )
        section = {k: getattr(m, k) for k in ("A", "Iy", "Iz", "J")}
        add_member(other, m.name, (first, second), section, np.array(m.y_axis))
        flags = {f"R{f[1]}{e}": True for e, free in zip("ij", m.free, strict=True) for f in free}
        if flags:
            other.def_releases(m.name, **flags)


def load(other: FEModel3D, model: Model, factors: np.ndarray) -> None:
    nodes, members = np.zeros((len(model.nodes), 6)), np.zeros((len(model.members), 3))
    for unit, times in zip(model.unit_loads, factors, strict=True):
        for at, six in unit.nodes:
            nodes[at] += times * np.array(six)
        for at, w in unit.members:
            members[at] += times * np.array(w)
    for n, six in zip(model.nodes, nodes, strict=True):
        for direction, value in zip(("FX", "FY", "FZ", "MX", "MY", "MZ"), six, strict=True):
            if value:
                other.add_node_load(n.name, direction, value)
    for m, w in zip(model.members, members, strict=True):
        for direction, value in zip(("FX", "FY", "FZ"), w, strict=True):
            if value:
                other.add_member_dist_load(m.name, direction, value, value)


def braced(stand: Stand) -> Frame:
    """The frame without pretension, all of it there before any load."""
    rack = case(stand.name)
    rack = replace(rack, posts=replace(rack.posts, height=stand.height * rack.posts.height))
    ideal = build(rack, rack.tilts[0], stand.bracing, State(soil=stand.soil))
    members = tuple(replace(m, fitted=BEFORE) for m in ideal.model.members)
    guys = tuple(replace(g, pretension=0.0) for g in ideal.model.guys)
    loads = tuple(replace(u, acts=AFTER) for u in ideal.model.unit_loads)
    model = replace(ideal.model, members=members, guys=guys, unit_loads=loads)
    return Frame(ideal=ideal, response=respond(model))


@pytest.mark.parametrize("stand", STANDS, ids=lambda s: f"{s.name} {' '.join(s.bracing)}")
def test_moments_of_second_order(stand: Stand) -> None:
    frame = braced(stand)
    response, model = frame.response, frame.response.model
    cases = frame.cases(WHOLE_WIND[:1]).at(frame.pressure(40.0))
    statics = Statics.of(response, axial_only=True)
    some = solve(response, cases)
    lowest = statics.ritz(some).grown(some, 1.0).lowest
    worst = np.argsort(lowest)[:2]
    # Without pretension all forces grow alike: so many times the wind brings it that near.
    pressed = cases[worst] * (lowest[worst] / stand.nearness)[:, None]
    shapes = statics.ritz(solve(response, pressed / 2), solve(response, pressed))
    for factors in pressed:
        first = solve(response, factors)
        ours = shapes.grown(first, 1.0)
        assert ours.lowest == pytest.approx(stand.nearness, rel=0.02)
        other = twin(model, factors, first.tensions[0] > 0.0)
        theirs = np.array([other.members[m.name].f("Combo 1").ravel() for m in model.members])
        some = places(frame)
        a, b = (moments(f.astype(float), some) for f in (ours.member_forces[0], theirs))
        slack = 0.02 if stand.nearness > 3 else 0.05
        assert (np.abs(a - b) < slack * np.maximum(b, 0.1 * b.max())).all()


def moments(forces: np.ndarray, places: list[tuple[int, int]]) -> np.ndarray:
    """Bending moments at the ends of members."""
    return np.array([np.hypot(*forces[m, 6 * end + 4 : 6 * end + 6]) for m, end in places])


def places(frame: Frame) -> list[tuple[int, int]]:
    """Roots of the beam, tops of the posts, posts at grade, ends of knees: member and end."""
    rack, model, marks = frame.rack, frame.response.model, frame.ideal.marks
    found = [(m, end) for m in range(len(model.members)) for end in (0, 1)]
    posts = [post_name(rack, i) for i in range(len(rack.posts.positions))]
    there = {("beam", marks[beam_mark(rack, i)]) for i in range(len(posts))}
    there |= {(name, marks[f"{name} {at}"]) for name in posts for at in ("top", "at grade")}
    return [
        (m, end)
        for m, end in found
        if (model.members[m].part, model.members[m].ends[end]) in there
        or model.members[m].part.startswith("knee")
    ]
