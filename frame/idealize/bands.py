"""Guys of a built frame at the corners of their bands."""

import numpy as np

from frame.idealize.build import Idealized
from frame.idealize.lines import effective_stiffness, pretension
from frame.idealize.state import State


def guy_groups(ideal: Idealized) -> tuple[str, ...]:
    """Name of the group that each guy of the model belongs to, in order."""
    return tuple(guy.name.group for guy in ideal.model.guys)


def guy_lengths(ideal: Idealized) -> np.ndarray:
    """Length of each guy of the model from its attachment to its anchor [m], (guys,)."""
    nodes = ideal.model.nodes
    lines = [np.subtract(g.anchor, nodes[g.node].xyz) for g in ideal.model.guys]
    return np.array([np.linalg.norm(line) for line in lines])


def guy_directions(ideal: Idealized) -> np.ndarray:
    """Way from its attachment to its anchor of each guy of the model, (guys, 3) of length 1."""
    nodes = ideal.model.nodes
    lines = [np.subtract(g.anchor, nodes[g.node].xyz) for g in ideal.model.guys]
    directions: np.ndarray = np.reshape(lines, (-1, 3)) / guy_lengths(ideal)[:, None]
    return directions


def guy_band(ideal: Idealized, state: State) -> tuple[np.ndarray, np.ndarray]:
    """Effective EA [N] and pretension [N] of the model's guys at a corner, (guys,) each."""
    groups = {guys.name: guys for guys in ideal.rack.guys}
    stiffness, pull = [], []
    named = zip(guy_groups(ideal), guy_lengths(ideal), strict=True)
    for name, length in named:
        stiffness.append(effective_stiffness(groups[name], length, state.guys))
        pull.append(pretension(groups[name], stiffness[-1], state.pretension))
    return np.array(stiffness), np.array(pull)
