"""Posts, sleeves and beam: the part of the frame that every rack has."""

from frame.fem.model import Connection, Support
from frame.idealize.draft import CLOSE, Draft, tube_bar
from frame.idealize.soil import embedded_depths, encased_second_moment, layers
from frame.idealize.state import MIDDLE, SOFT, State
from frame.named.part import BEAM, Part, post, sleeve
from frame.rack.knee_foot import sleeve_foot
from frame.rack.rack import Rack
from frame.rack.sleeve import Pin
from frame.tables.steels import material

ACROSS = (0.0, 1.0, 0.0)
LOCAL_GIVE = 40.0
"""E D times the local give of a pipe wall under a load spread round it.

Of the order of the parametric formulas for tubular joints (Fessler 1986, width ratio near 0.8,
from memory); a judgement for a sleeve bearing on a post.
"""


def number_of(rack: Rack, index: int) -> int | None:
    """Return the number of a post from the left, None where there is only one."""
    return None if len(rack.posts.positions) == 1 else index + 1


def post_name(rack: Rack, index: int) -> Part:
    """Return a post as a part: "post", or "post 1", "post 2" ... where there are several."""
    return post(number_of(rack, index))


def beam_mark(rack: Rack, index: int) -> str:
    """Name of the beam's node over a post."""
    return f"beam at {post_name(rack, index)}"


def sleeve_stiffness(rack: Rack, soil: str = MIDDLE) -> float:
    """Rotational stiffness of a sleeve with its play taken up [N m/rad].

    Two bearings a sleeve length s apart, post and sleeve wall giving at each by
    `LOCAL_GIVE` / (E D): k = s^2 E D / (4 LOCAL_GIVE), times what was found of it on the rack: on
    `soil` at the ends of its band, which are the code's, only where that is less.
    """
    give = LOCAL_GIVE / (material().E * rack.posts.pipe.od)
    found = rack.sleeve.stiffness if soil == MIDDLE else min(rack.sleeve.stiffness, 1.0)
    return found * rack.sleeve.length**2 / (4 * give)


def lug_height(rack: Rack) -> float:
    """Height of the bottom of the sleeve above grade [m], where post-top guys are tied."""
    return rack.posts.height - sleeve_foot(rack)


def turns_freely(rack: Rack, where: str) -> bool:
    """Whether posts are taken to turn in their holes without resistance.

    A single post must hold the swing itself. Several hold the beam against it by their level
    forces alone; a spring of the ground would lift some of that off them with a torque that
    friction cannot give on a bare pipe in fill, nor set bolts hand down. Pinned posts in concrete
    can: there the `soft` end of the band counts nothing on it, the others do (judgement).
    """
    if len(rack.posts.positions) == 1:
        return False
    pinned = isinstance(rack.sleeve.lock, Pin)
    return where == SOFT or not (pinned and rack.posts.footing.cast)


def add_posts(draft: Draft, rack: Rack, state: State) -> None:
    """Add every post with its soil springs, from foot to the beam's centre line."""
    posts, steel = rack.posts, material()
    bar = tube_bar(posts.pipe.design, posts.pipe.weight)
    buried_inertia = encased_second_moment(posts, state.soil, steel.E)
    buried = tube_bar(posts.pipe.design, posts.pipe.weight)
    if buried_inertia != buried.Iy:
        buried = type(buried)(
            A=buried.A, Iy=buried_inertia, Iz=buried_inertia, J=buried.J, weight=buried.weight
        )
    springs = layers(posts, rack.site.soil, state.soil, turns=turns_freely(rack, state.soil))
    marks = [(0.0, "at grade"), (lug_height(rack), "lug"), (posts.height, "top")]
    if rack.knees:
        marks.append((posts.height - rack.knees.drop, "at knees"))
    for i, x in enumerate(posts.positions):
        name = post_name(rack, i)
        below = [
            draft.node(f"{name} foot" if j == 0 else f"{name} {depth:.3f} below", (x, 0, -depth))
            for j, depth in enumerate(embedded_depths(posts))
        ]
        above = _nodes_up(draft, name, x, sorted(marks))
        for node, layer in zip(below, springs, strict=True):
            draft.supports.append(Support(node=node, k=layer.k))
        draft.chain(name, [*below, above[0]], buried, ACROSS)
        draft.chain(name, above, bar, ACROSS)


def _nodes_up(draft: Draft, name: str, x: float, marks: list[tuple[float, str]]) -> list[int]:
    nodes: list[int] = []
    for z, mark in marks:
        if nodes and z - draft.xyz(nodes[-1])[2] < CLOSE:
            draft.marks[f"{name} {mark}"] = nodes[-1]
        else:
            nodes.append(draft.node(f"{name} {mark}", (x, 0, z)))
    return nodes


def beam_stations(rack: Rack) -> list[tuple[float, str]]:
    """Where the beam needs nodes: (x, mark), left to right; marks close together share one place.

    What is close to a post is right over it, else the post would hold the beam a little beside
    its own axis; of other marks the one nearest the beam's middle says where, so that a rack
    alike left and right gets a frame that is.
    """
    half = rack.beam.length / 2
    found = [(-half, "beam end, left"), (half, "beam end, right")]
    found += [(x, beam_mark(rack, i)) for i, x in enumerate(rack.posts.positions)]
    found += [(x, f"beam at rail {i + 1}") for i, x in enumerate(rack.rails.positions)]
    if rack.knees:
        for i, x in enumerate(rack.posts.positions):
            name = post_name(rack, i)
            found.append((x - rack.knees.reach, f"beam at knee of {name}, left"))
            found.append((x + rack.knees.reach, f"beam at knee of {name}, right"))
    gaps = zip(rack.posts.positions[:-1], rack.posts.positions[1:], strict=True)
    found += [((a + b) / 2, f"beam midspan {i + 1}") for i, (a, b) in enumerate(gaps)]
    places = _shared([_over(rack, x) for x, _ in found])
    return sorted((places[_over(rack, x)], mark) for x, mark in found)


def _shared(along: list[float]) -> dict[float, float]:
    """Return for every place [m] along the beam the one that it shares a node with."""
    kept: list[float] = []
    shared = {}
    for x in sorted(along, key=abs):
        shared[x] = next((inner for inner in reversed(kept) if _close(x, inner)), x)
        if shared[x] == x:
            kept.append(x)
    return shared


def _over(rack: Rack, x: float) -> float:
    """Return the axis of the post that a place [m] along the beam is over, else the place."""
    return next((post for post in rack.posts.positions if _close(x, post)), x)


def _close(a: float, b: float) -> bool:
    """Whether two places [m] share a node: to the nanometre, so that rounding tells no sides."""
    return round(abs(a - b), 9) < CLOSE


def add_beam(draft: Draft, rack: Rack, state: State) -> None:
    """Add the beam and set it on the posts through their sleeves.

    The sleeve holds the beam in every way but tilt, where it gives elastically; swing about the
    post is held in the model, and the grip against it is for the checks.
    """
    nodes: list[int] = []
    for x, mark in beam_stations(rack):
        if nodes and x == draft.xyz(nodes[-1])[0]:
            draft.marks[mark] = nodes[-1]
        else:
            nodes.append(draft.node(mark, (x, 0, rack.posts.height)))
    draft.chain(BEAM, nodes, tube_bar(rack.beam.pipe.design, rack.beam.pipe.weight), ACROSS)
    give = sleeve_stiffness(rack, state.soil)
    for i in range(len(rack.posts.positions)):
        name, on = post_name(rack, i), sleeve(number_of(rack, i))
        draft.connections.append(
            Connection(
                name=on,
                part=on,
                ends=(draft.marks[f"{name} top"], draft.marks[beam_mark(rack, i)]),
                axes=((1, 0, 0), (0, 1, 0), (0, 0, 1)),
                k=(None, None, None, give, give, None),
            )
        )
