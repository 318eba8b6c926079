"""Plane frames for the tests: one stiffness, points, bars, supports and loads."""

import numpy as np

from frame.fem.plane.model import (
    BEAM,
    PlaneFrame,
    PlaneLoad,
    PlaneMember,
    PlaneNode,
    PlaneSupport,
)
from frame.fem.plane.planar import solve_plane

EA, EI = 4.0e8, 6.0e5
CLAMP = (True, (0.0, 0.0, 0.0))


def frame(points, bars, supports, loads=(), turn=1, **more):
    """A plane frame of EA, EI from points, bars (i, j[, kind[, EA[, fitted]]]) and supports."""
    members = []
    for n, (i, j, *rest) in enumerate(bars):
        kind, stiff, fitted = (*rest, *(BEAM, EA, "before")[len(rest) :])
        members.append(
            PlaneMember(
                name=f"bar {n}", part=f"bar {n}", ends=(i, j), kind=kind, EA=stiff, EI=EI,
                fitted=fitted,
            )
        )  # fmt: skip
    return PlaneFrame(
        view="side" if turn == 1 else "front",
        turn=turn,
        nodes=tuple(PlaneNode(name=f"node {i}", at=p) for i, p in enumerate(points)),
        members=tuple(members),
        supports=tuple(
            PlaneSupport(node=n, fixed=fixed, k=k, fitted="before")
            for n, (fixed, k) in supports.items()
        ),
        loads=tuple(
            PlaneLoad(name=f"load {i}", acts=acts, nodes=nodes, members=spread)
            for i, (acts, nodes, spread) in enumerate(loads)
        ),
        **more,
    )


def pinned(k=1e12):
    return (False, (k, k, 0.0))


def roller(k=1e12):
    return (False, (0.0, k, 0.0))


def one(*loads):
    return solve_plane(*loads, np.ones(len(loads[0].loads)))


def close(value, expected, rel=1e-5, scale=None):
    np.testing.assert_allclose(value, expected, rtol=rel, atol=rel * (scale or 0.0))
