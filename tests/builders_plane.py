"""Random models made like racks, for trying the elevations on; sizes and stiffness as in racks."""

from dataclasses import dataclass, field
from itertools import pairwise
from math import cos, radians, sin

import numpy as np

from frame.fem.model import (
    AFTER,
    BEFORE,
    Connection,
    Guy,
    Member,
    Model,
    Node,
    Support,
    UnitLoad,
)
from frame.named.part import BEAM, Edge, Side, knee, stay, tie
from frame.named.part import post as post_part
from frame.named.part import rail as rail_part

E, G = 2.0e11, 7.7e10
GLOBAL = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
PINNED = ("ry", "rz")


@dataclass
class Sketch:
    """Lists that grow into a model."""

    nodes: list = field(default_factory=list)
    members: list = field(default_factory=list)
    connections: list = field(default_factory=list)
    supports: list = field(default_factory=list)
    guys: list = field(default_factory=list)

    def node(self, name, xyz):
        self.nodes.append(Node(name=name, xyz=tuple(map(float, xyz))))
        return len(self.nodes) - 1

    def bar(self, part, ends, od, wall, y_axis=(0.0, 1.0, 0.0), **more):
        """A tube of outside diameter and wall [m]."""
        inside = od - 2 * wall
        A, inertia = np.pi / 4 * (od**2 - inside**2), np.pi / 64 * (od**4 - inside**4)
        self.members.append(
            Member(
                name=f"{part} {sum(m.part == part for m in self.members) + 1}", part=part,
                ends=ends, A=A, Iy=inertia, Iz=inertia * more.pop("flat", 1.0), J=2 * inertia,
                E=E, G=G, y_axis=y_axis, **more,
            )
        )  # fmt: skip

    def chain(self, part, nodes, od, wall, **more):
        for pair in pairwise(nodes):
            self.bar(part, pair, od, wall, **more)

    def xyz(self, node):
        return np.array(self.nodes[node].xyz)

    def model(self, loads):
        return Model(
            nodes=tuple(self.nodes), members=tuple(self.members),
            connections=tuple(self.connections), supports=tuple(self.supports),
            guys=tuple(self.guys), unit_loads=loads,
        )  # fmt: skip


def rack_like(seed, **choice):
    """One model like a rack; `choice` settles what is otherwise drawn at random.

    posts 1 or 2; knees None, "pinned" or "welded"; knees_fitted; stays; ties; guys None, "lug",
    "beam end" or "corner"; tilt [rad].
    """
    rng = np.random.default_rng(seed)
    pick = {
        "posts": int(rng.integers(1, 3)),
        "knees": (None, "pinned", "welded")[rng.integers(3)],
        "knees_fitted": (BEFORE, AFTER)[rng.integers(2)],
        "stays": bool(rng.integers(3) == 0),
        "ties": bool(rng.integers(2)),
        "guys": (None, "lug", "beam end", "corner")[rng.integers(4)],
        "tilt": radians(rng.uniform(5, 55)),
    } | choice
    s = Sketch()
    half = round(rng.uniform(1.6, 3.2), 4)
    xs = [0.0] if pick["posts"] == 1 else [round(-0.55 * half, 4), round(0.6 * half, 4)]
    H = rng.uniform(1.6, 2.8)
    posts = _posts(s, rng, xs, H)
    rails = _beam_and_rails(s, rng, (half, xs, H), posts, pick)
    if pick["knees"]:
        _knees(s, rng, posts, pick)
    corners = [rails[0][0], rails[-1][0], rails[0][-1], rails[-1][-1]]
    if pick["ties"]:
        for name, end in ((tie(Edge.LOWER), 0), (tie(Edge.UPPER), -1)):
            s.chain(name, [r[end] for r in rails], 0.05, 0.003, fitted=BEFORE)
    ways = [(-1, -1), (1, -1), (-1, 1), (1, 1)]
    if pick["stays"]:
        for i, (node, (sx, sy)) in enumerate(zip(corners, ways, strict=True)):
            x, y, _ = s.xyz(node)
            way = (Edge.FRONT if sy < 0 else Edge.BACK, Side.LEFT if sx < 0 else Side.RIGHT)
            foot = s.node(f"stay foot {i + 1}", (x + 0.7 * sx, y + 0.9 * sy, 0.0))
            s.supports.append(Support(node=foot, fixed=(True,) * 6, fitted=AFTER))
            s.bar(stay(*way), (foot, node), 0.042, 0.003, (0.3, 0.5, 0.1),
                  free=(PINNED, PINNED), fitted=AFTER)  # fmt: skip
    if pick["guys"]:
        tied = {
            "lug": [posts[0]["lug"], posts[-1]["lug"]] * 2,
            "beam end": [posts[0]["ends"][0], posts[0]["ends"][1]] * 2,
            "corner": corners,
        }[pick["guys"]]
        along, out = rng.uniform(0.0, 2.0), rng.uniform(0.5, 2.5)
        for i, (node, (sx, sy)) in enumerate(zip(tied, ways, strict=True)):
            x, y, _ = s.xyz(node)
            s.guys.append(
                Guy(
                    name=f"guy {i + 1}", node=node, anchor=(x + sx * along, y + sy * out, 0.05),
                    EA=rng.uniform(1, 4) * 1e6, pretension=rng.uniform(0.0, 1500.0),
                    setback=(0.03 * sx, 0.0, -0.04),
                )
            )  # fmt: skip
    return s.model(_loads(s, rng, rails, pick["tilt"]))


def _posts(s, rng, xs, H):
    od, wall = rng.uniform(0.1, 0.17), rng.uniform(0.005, 0.011)
    depth = rng.uniform(0.8, 1.6)
    soil = rng.uniform(0.5, 5) * 1e6
    posts = []
    for i, x in enumerate(xs):
        name = post_part(None if len(xs) == 1 else i + 1)
        down = [s.node(f"{name} {d:.2f} below", (x, 0, -d)) for d in np.linspace(depth, 0.2, 4)]
        for j, node in enumerate(down):
            k = soil * depth / 4
            s.supports.append(Support(node=node, k=(k, k, 5e7 if j == 0 else 0.0, 0, 0, 4e5)))
        named = {
            "grade": s.node(f"{name} at grade", (x, 0, 0)),
            "knee": s.node(f"{name} at knees", (x, 0, H - 0.75)),
            "lug": s.node(f"{name} lug", (x, 0, H - 0.4)),
            "top": s.node(f"{name} top", (x, 0, H)),
        }
        s.chain(name, [*down, *named.values()], od, wall)
        posts.append(named | {"name": name, "x": x, "od": od})
    return posts


def _beam_and_rails(s, rng, sizes, posts, pick):
    half, xs, H = sizes
    tilt = pick["tilt"]
    up, square = np.array([0, cos(tilt), sin(tilt)]), np.array([0, -sin(tilt), cos(tilt)])
    rail_xs = [round(x, 4) for x in np.linspace(-0.9, 0.9, int(rng.integers(2, 5))) * half]
    reach = 0.25 * half
    knees = [round(x + sign * reach, 4) for x in xs for sign in (-1, 1)] if pick["knees"] else []
    at = {}
    for x in sorted({-half, half, *xs, *rail_xs, *knees}, key=lambda x: (x not in xs, x)):
        near = [found for found in at if abs(found - x) < 5e-3]
        at[x] = at[near[0]] if near else s.node(f"beam at {x:.3f}", (x, 0, H))
    along = sorted(set(at.values()), key=lambda n: s.xyz(n)[0])
    s.chain(BEAM, along, rng.uniform(0.09, 0.13), rng.uniform(0.004, 0.008))
    k = 10 ** rng.uniform(6.0, 7.3)
    for post in posts:
        s.connections.append(
            Connection(
                name=f"sleeve of {post['name']}", ends=(post["top"], at[post["x"]]), axes=GLOBAL,
                k=(None, None, None, k, k, None),
            )
        )  # fmt: skip
        post["ends"] = at[-half], at[half]
        post["reach"] = [at.get(round(post["x"] + sign * reach, 4)) for sign in (-1, 1)]
    rails = []
    length, stand_off = rng.uniform(1.5, 3.0), rng.uniform(0.07, 0.11)
    for i, x in enumerate(rail_xs):
        centre = s.xyz(at[x]) + stand_off * square
        nodes = [
            s.node(f"rail {i + 1} at {part}", centre + part * length * up)
            for part in (-0.5, -0.2, 0.0, 0.3, 0.5)
        ]
        s.chain(rail_part(i + 1), nodes, 0.05, 0.003, y_axis=tuple(square), flat=0.8)
        s.connections.append(
            Connection(
                name=f"u-bolt, rail {i + 1}", ends=(at[x], nodes[2]), axes=GLOBAL, k=(None,) * 6
            )
        )
        rails.append(nodes)
    return rails


def _knees(s, rng, posts, pick):
    free = PINNED if pick["knees"] == "pinned" else ()
    for post in posts:
        for side, beam in zip(Side, post["reach"], strict=True):
            line = s.xyz(beam) - s.xyz(post["knee"])
            line /= np.linalg.norm(line)
            s.bar(
                knee(post["name"].number, side),
                (post["knee"], beam), rng.uniform(0.04, 0.06), 0.0035,
                setback=(tuple(0.07 * line), tuple(-0.06 * line)), free=(free, free),
                fitted=pick["knees_fitted"],
            )  # fmt: skip


def _loads(s, rng, rails, tilt):
    push = np.array([0.0, sin(tilt), -cos(tilt)])
    zero = (0.0, 0.0, 0.0)
    steel = [(i, (0.0, 0.0, -7.7e4 * m.A)) for i, m in enumerate(s.members) if m.fitted == BEFORE]
    panels = [(n, (0.0, 0.0, -rng.uniform(200, 400), 5.0, 0.0, 0.0)) for r in rails for n in r]
    loads = [
        UnitLoad(name="steel weight", acts=BEFORE, members=tuple(steel)),
        UnitLoad(name="panel weight", acts=BEFORE, nodes=tuple(panels)),
    ]
    for name, chosen in (("left", rails[: len(rails) // 2]), ("right", rails[len(rails) // 2 :])):
        for half, nodes in (("lower", slice(0, 2)), ("upper", slice(3, 5))):
            found = tuple((n, (*(0.7 * push), *zero)) for r in chosen for n in r[nodes])
            loads.append(UnitLoad(name=f"panels, {half} {name}", acts=AFTER, nodes=found))
    for name, way in (("across", (0, 1, 0)), ("along", (1, 0, 0))):
        drag = [
            (i, tuple(0.12 * np.array(way)))
            for i, m in enumerate(s.members)
            if max(s.xyz(n)[2] for n in m.ends) > 0 and not m.part.startswith("tie")
        ]
        loads.append(UnitLoad(name=f"drag {name}", acts=AFTER, members=tuple(drag)))
    return tuple(loads)


def wind(model, seed):
    """Factors of a random strong wind on a random part of the dead load."""
    rng = np.random.default_rng(seed + 1000)
    side, sign = rng.uniform(0.2, 1.8, 4), rng.choice([-1.0, 1.0])
    dead = rng.choice([0.6, 1.0])
    q = rng.uniform(100, 900)
    return np.array([dead, dead, *(sign * q * side), *(q * rng.uniform(-1, 1, 2))])
