"""The knee card: what each reach of the knees leaves of the sag, and the piece to cut."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from operator import attrgetter

import numpy as np

from frame.bracing.forces import brace_forces
from frame.bracing.movement import worst_sag
from frame.geometry.cope import long_point
from frame.rack.brace import Knees
from frame.rack.knee_foot import on_sleeve
from frame.rack.rack import KNEES, Rack
from frame.records.what_if import KneeChoice
from frame.solved.blocks import solved_blocks
from frame.solved.situation import situations

PARTS = (1 / 6, 1 / 4, 1 / 3, 1 / 2)
"""Reaches shown, as parts of the arm."""
SAME_REACH = 0.005
"""Parts of the arm closer than this are one reach."""


def knee_card(
    rack: Rack, bare_sag: float, tilts: Iterable[float], parts: Sequence[float] = ()
) -> tuple[KneeChoice, ...]:
    """Try knees of the same pipe and drop at several reaches, fitted before the panels.

    `parts` of the arm [1], `PARTS` and the reach described unless given; `bare_sag` [m]: dead sag
    without knees. The force is the largest push or pull at the map gust in every combination of
    the code, second order in it, as in the checks of knees; infinite where the rack sways over.
    Knees fitted after the panels save none of the sag that is there.
    """
    if rack.knees is None:
        return ()
    tilts, parts = tuple(tilts), parts or knee_parts(rack)
    return tuple(_choice(rack, rack.knees, part, bare_sag, tilts) for part in parts)


def knee_parts(rack: Rack) -> tuple[float, ...]:
    """Parts of the arm on a rack's card: `PARTS` and the one described; none without knees."""
    return () if rack.knees is None else with_described(rack.knees.reach / max(rack.arms))


def with_described(described: float) -> tuple[float, ...]:
    """Return `PARTS` and the part of the arm described, unless it is one of them."""
    others = (p for p in PARTS if abs(p - described) > SAME_REACH)
    return tuple(sorted((*others, described)))


def _choice(
    rack: Rack, knees: Knees, part: float, bare_sag: float, tilts: tuple[float, ...]
) -> KneeChoice:
    trial = replace(knees, reach=part * max(rack.arms), fitted="before")
    tried = replace(rack, knees=trial)
    found = solved_blocks(tried, (KNEES,), tilts)
    sag = worst_sag(found).dead
    forces = brace_forces(situations(found))
    pull, push = (max(forces, key=attrgetter(way)) for way in ("tension", "compression"))
    pushed = push.compression >= pull.tension
    return KneeChoice(
        part=part,
        reach=trial.reach,
        drop=trial.drop,
        sag=sag,
        left=sag / bare_sag if bare_sag else 0.0,
        force=push.compression if pushed else pull.tension,
        pushed=pushed,
        words=push.compression_words if pushed else pull.tension_words,
        tilt=max(tilts),
        cut=cut_length(rack, trial),
        angle=trial.angle,
        described=abs(trial.reach - knees.reach) <= SAME_REACH * max(rack.arms),
        note=_unbuildable(rack, trial),
    )


def cut_length(rack: Rack, knees: Knees) -> float:
    """Length [m] of the piece to cut, long point to long point, both ends coped.

    The inner edge is what sits on post and beam, so that the weld has its bevel.
    """
    radius = knees.pipe.nominal.bore / 2
    at_post = long_point(rack.posts.pipe.od / 2, radius, knees.angle)
    at_beam = long_point(rack.beam.pipe.od / 2, radius, np.pi / 2 - knees.angle)
    return knees.work_length - at_post - at_beam


def _unbuildable(rack: Rack, knees: Knees) -> str:
    return "would land on the sleeve" if on_sleeve(rack, knees) else ""
