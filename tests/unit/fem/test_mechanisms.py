"""A frame that is loose is refused, and the message names the part and its motion."""

import pytest

from frame.errors import MechanismError
from frame.fem.model import Connection, Guy, Model, Support, UnitLoad
from frame.fem.response import respond
from tests.unit.fem.builders import FIXED, GLOBAL_AXES, RIGID, member, node, point

HINGED = (("ry", "rz"), ("ry", "rz"))


def post_with_beam(*, foot=FIXED, k=RIGID, **parts) -> Model:
    values = {
        "nodes": (
            node((0, 0, 0), "foot"),
            node((0, 0, 2), "top"),
            node((0, 0, 2.1), "beam at post"),
            node((2, 0, 2.1), "beam end, right"),
        ),
        "members": (member(0, 1, part="post"), member(2, 3, part="beam")),
        "connections": (Connection(name="sleeve", ends=(1, 2), axes=GLOBAL_AXES, k=k),),
        "supports": (Support(node=0, fixed=foot),),
        "unit_loads": (point(3, Fz=-1.0),),
        **parts,
    }
    return Model(**values)


def message(model: Model) -> str:
    with pytest.raises(MechanismError) as caught:
        respond(model)
    return str(caught.value)


def test_it_stands() -> None:
    assert respond(post_with_beam()).displacements.shape == (1, 4, 6)


def test_a_sleeve_that_swings_freely() -> None:
    text = message(post_with_beam(k=(None, None, None, None, None, 0)))
    assert "beam" in text
    assert "move along y" in text
    assert "'beam end, right'" in text


def test_a_post_that_turns_in_the_ground() -> None:
    text = message(post_with_beam(foot=(True, True, True, True, True, False)))
    assert "beam can move along y" in text


def test_a_pipe_that_turns_about_itself() -> None:
    ends = (True, True, True, False, True, True)
    model = Model(
        nodes=(node((0, 0, 0), "a"), node((3, 0, 0), "b")),
        members=(member(0, 1, part="tie"),),
        supports=(Support(node=0, fixed=ends), Support(node=1, fixed=ends)),
    )
    text = message(model)
    assert "tie can turn about x" in text


def test_a_hinge_too_many() -> None:
    nodes = (node((0, 0, 0), "a"), node((1, 0, 0), "b"), node((2, 0, 0), "c"))
    model = Model(
        nodes=nodes,
        members=(
            member(0, 1, part="arm", free=((), ("ry",))),
            member(1, 2, part="tip", free=(("ry",), ())),
        ),
        supports=(Support(node=0, fixed=FIXED),),
    )
    text = message(model)
    assert "about y" in text or "'c' the tip can move along z" in text


def test_a_node_nothing_holds() -> None:
    model = Model(
        nodes=(node((0, 0, 0), "a"), node((1, 0, 0), "b")),
        members=(member(0, 1, part="arm", free=((), ("ry", "rz"))),),
        supports=(Support(node=0, fixed=FIXED),),
    )
    assert "at 'b' the arm can turn about" in message(model)


def test_a_post_that_only_its_guys_hold() -> None:
    guys = tuple(
        Guy(name=f"g{i}", node=1, anchor=(x, y, 0.0), EA=1e6, pretension=100.0)
        for i, (x, y) in enumerate(((2, 0), (-2, 1), (-2, -1)))
    )
    hinged = (True, True, True, False, False, True)
    text = message(post_with_beam(foot=hinged, guys=guys))
    assert "stands only by its guys" in text


def test_what_is_loose_before_the_later_parts_are_fitted() -> None:
    brace = member(0, 3, part="brace", fitted="after")
    model = post_with_beam(
        k=(None, None, None, None, 0, None),
        members=(member(0, 1, part="post"), member(2, 3, part="beam"), brace),
        unit_loads=(point(3, Fz=-1.0, acts="before"),),
    )
    text = message(model)
    assert "before the later parts are fitted" in text
    assert "beam can move along z" in text


def test_nearly_loose_is_loose() -> None:
    assert "beam can move" in message(post_with_beam(k=(None, None, None, None, None, 1e-7)))
    assert respond(post_with_beam(k=(None, None, None, None, None, 10.0)))


@pytest.mark.parametrize(
    ("parts", "text"),
    [
        (
            {"members": (member(0, 1, name="m", setback=((0, 0, 2), (0, 0, 0))),)},
            "'m' has no length",
        ),
        ({"members": (member(0, 1, name="m", y_axis=(0, 0, 1.0)),)}, "'m': its y_axis lies along"),
        (
            {"guys": (Guy(name="g", node=1, anchor=(0, 0, 2), EA=1.0, pretension=0.0),)},
            "'g' has no length",
        ),
        ({"unit_loads": (UnitLoad(name="l", acts="later"),)}, "acts 'later'"),
        (
            {
                "members": (
                    member(0, 1),
                    member(2, 3),
                    member(0, 3, name="brace", fitted="after"),
                ),
                "unit_loads": (
                    UnitLoad(name="l", acts="before", members=((2, (0.0, 0.0, -1.0)),)),
                ),
            },
            "before 'brace' is fitted",
        ),
        (
            {
                "connections": (
                    Connection(name="a", ends=(1, 2), axes=GLOBAL_AXES, k=RIGID),
                    Connection(name="b", ends=(2, 1), axes=GLOBAL_AXES, k=RIGID),
                )
            },
            "in a circle",
        ),
        (
            {
                "connections": (
                    Connection(name="a", ends=(1, 2), axes=GLOBAL_AXES, k=RIGID),
                    Connection(name="b", ends=(0, 2), axes=GLOBAL_AXES, k=RIGID),
                )
            },
            "second node of two",
        ),
    ],
)
def test_models_that_make_no_sense(parts: dict, text: str) -> None:
    with pytest.raises(ValueError, match=text):
        respond(post_with_beam(**parts))
