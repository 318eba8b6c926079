"""An invented rack as two plane elevations, bare and braced, for drawings to be tried on."""

import math

import numpy as np

from frame.draw.elevation import elevation_picture
from frame.draw.picture import Array, Picture
from frame.draw.sheet import SheetColumn
from frame.draw.space import space_picture
from frame.fem.model import AFTER, BEFORE, Guy, Member, Model, Node
from frame.fem.plane.model import (
    BEAM,
    TRUSS,
    PlaneFrame,
    PlaneGuy,
    PlaneLoad,
    PlaneMember,
    PlaneNode,
    PlaneSupport,
)
from frame.fem.plane.planar import solve_plane
from frame.named.part import BEAM as BEAM_PART
from frame.named.part import PartKind, Side, knee, post

E, TILT, HEIGHT, ARM, CHORD = 200e9, math.radians(35.0), 3.0, 2.1, 3.4
LEFT, RIGHT = (knee(None, side) for side in Side)
POST, PIPE, RAILS = 5.5e-6, 2.0e-6, 4 * 0.08e-6
PANELS = np.array(
    [
        [x, s * math.cos(TILT), HEIGHT + 0.08 + s * math.sin(TILT)]
        for x, s in ((-2.1, -1.7), (2.1, -1.7), (2.1, 1.7), (-2.1, 1.7))
    ]
)


def member(name: str, part: str, ends: tuple[int, int], I: float, kind: str = BEAM) -> PlaneMember:
    of = {"knee": PartKind.KNEE, "rails": PartKind.RAIL}.get(part.split(",", maxsplit=1)[0])
    fitted = AFTER if kind == TRUSS else BEFORE
    return PlaneMember(
        name=name,
        part=part,
        ends=ends,
        kind=kind,
        EA=E * 1.8e-3,
        EI=E * I,
        fitted=fitted,
        of=of,
    )


def nodes(*places: tuple[str, float, float]) -> tuple[PlaneNode, ...]:
    return tuple(PlaneNode(name=n, at=(a, z)) for n, a, z in places)


def loads(beams: tuple[int, ...], weight: float, wind: Array) -> tuple[PlaneLoad, ...]:
    pull = (0.0, -weight)
    return (
        PlaneLoad(name="weight", acts=BEFORE, nodes=(), members=tuple((b, pull) for b in beams)),
        PlaneLoad(name="wind", acts=AFTER, nodes=(), members=tuple(zip(beams, wind, strict=True))),
    )


GROUND = PlaneSupport(node=0, fixed=False, k=(4e6, 3e7, 6e5), fitted=BEFORE)


def front(*, braced: bool) -> Picture:
    places = nodes(
        ("foot", 0, -1.2),
        ("grade", 0, 0),
        ("lug", 0, 2.1),
        ("top", 0, HEIGHT),
        ("end, left", -ARM, HEIGHT),
        ("left", -0.9, HEIGHT),
        ("right", 0.9, HEIGHT),
        ("end, right", ARM, HEIGHT),
    )
    chain = [member(f"post {i}", "post", (i, i + 1), POST) for i in range(3)]
    chain += [
        member(f"beam {i}", "beam", pair, PIPE)
        for i, pair in enumerate(((4, 5), (5, 3), (3, 6), (6, 7)))
    ]
    if braced:
        chain += [
            member(f"knee, {side}", f"knee, {side}", (2, n), PIPE, TRUSS)
            for side, n in (("left", 5), ("right", 6))
        ]
    guys = tuple(
        PlaneGuy(name=f"guy, {n}", node=3, anchor=(a, 0.0), share=0.6, give=2e-6)
        for n, a in (("left", -2.4), ("right", 2.4))
    )
    frame = PlaneFrame(
        view="front",
        turn=-1,
        nodes=places,
        members=tuple(chain),
        supports=(GROUND,),
        guys=guys if braced else (),
        loads=loads(
            (3, 4, 5, 6), 620.0, np.array([[90.0, -900], [90, -900], [90, -300], [90, -300]])
        ),
    )
    return _picture(frame, [True, False])


def side(*, braced: bool) -> Picture:
    low, high = (s * 1.7 * np.array([math.cos(TILT), math.sin(TILT)]) for s in (-1, 1))
    places = nodes(
        ("foot", 0, -1.2),
        ("grade", 0, 0),
        ("lug", 0, 2.1),
        ("top", 0, HEIGHT),
        ("low", low[0], HEIGHT + low[1]),
        ("high", high[0], HEIGHT + high[1]),
    )
    chain = [member(f"post {i}", "post", (i, i + 1), POST) for i in range(3)]
    chain += [member(f"rail {i}", "rails", p, RAILS) for i, p in enumerate(((4, 3), (3, 5)))]
    guys = tuple(
        PlaneGuy(name=f"guy, {n}", node=2, anchor=(a, 0.0), share=0.6, give=2e-6)
        for n, a in (("front", -2.0), ("back", 2.0))
    )
    press = 700.0 * np.array([math.sin(TILT), -math.cos(TILT)])
    frame = PlaneFrame(
        view="side",
        turn=1,
        nodes=places,
        members=tuple(chain),
        supports=(GROUND,),
        guys=guys if braced else (),
        loads=loads((3, 4), 700.0, np.array([press, 0.6 * press])),
    )
    return _picture(frame, [True, False])


def _picture(frame: PlaneFrame, taut: list[bool]) -> Picture:
    pretension = np.full(len(frame.guys), 700.0)
    answer = solve_plane(
        frame, np.ones(2), pretension, np.array(taut[: len(frame.guys)], dtype=bool)
    )
    return elevation_picture(answer, "us", PANELS)


def space(*, braced: bool) -> Picture:
    """A space frame with made-up movements: a drawing does not ask where they come from."""
    places = [("foot", (0, 0, -1.2)), ("top", (0, 0, HEIGHT)), ("lug", (0, 0, 2.1))]
    places += [(f"beam {i}", (x, 0.0, HEIGHT)) for i, x in enumerate((-ARM, -0.9, 0.9, ARM))]
    model = Model(
        nodes=tuple(Node(name=n, xyz=p) for n, p in places),
        members=tuple(
            Member(
                name=name,
                part=part,
                ends=ends,
                A=1e-3,
                Iy=1e-6,
                Iz=1e-6,
                J=2e-6,
                E=E,
                G=E / 2.6,
                y_axis=(0.0, 1.0, 0.0),
                free=((), ()) if part.kind is not PartKind.KNEE else (("rz",), ("rz",)),
            )
            for name, part, ends in (
                ("p1", post(), (0, 2)),
                ("p2", post(), (2, 1)),
                ("b1", BEAM_PART, (3, 4)),
                ("b2", BEAM_PART, (4, 1)),
                ("b3", BEAM_PART, (1, 5)),
                ("b4", BEAM_PART, (5, 6)),
                *((("k1", LEFT, (2, 4)), ("k2", RIGHT, (2, 5))) if braced else ()),
            )
        ),
        guys=tuple(
            Guy(name=f"g{i}", node=2, anchor=(x, y, 0.0), EA=1e6, pretension=500.0)
            for i, (x, y) in enumerate(((-2, -2), (2, -2), (2, 2), (-2, 2)))
        )
        if braced
        else (),
    )
    size = 0.4 if braced else 1.0
    movement = size * np.array(
        [
            [0, 0, 0, 0, 0, 0],
            [0, 0.03, 0, -0.015, 0, 0.02],
            [0, 0.018, 0, -0.012, 0, 0],
            [0, -0.01, -0.03, -0.015, -0.018, 0.02],
            [0, 0.012, -0.008, -0.015, -0.012, 0.02],
            [0, 0.048, -0.004, -0.015, 0.006, 0.02],
            [0, 0.07, -0.014, -0.015, 0.01, 0.02],
        ]
    )
    return space_picture(
        model, movement, np.array([900.0, 700, 0, 0])[: len(model.guys)], "us", PANELS
    )


def views() -> tuple[SheetColumn, SheetColumn]:
    bare, braced = (
        SheetColumn(
            title=title,
            words=words,
            front=front(braced=b),
            side=side(braced=b),
            space=space(braced=b),
        )
        for b, title, words in (
            (False, "bare", "let-go gust 41 mph: the set bolt"),
            (True, "knees + guys", "let-go gust 97 mph: the post in wet ground"),
        )
    )
    return bare, braced
