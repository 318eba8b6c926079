"""What must be true of what lets go on any rack, and racks a little stronger in one thing."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from frame.parts.checkers import CHECKERS
from frame.rack.pipe import Pipe
from frame.rack.rack import Rack
from frame.rack.sleeve import SetBolts
from frame.search.crossings import Key, lowest_gusts
from frame.search.grid import coarse
from frame.search.searched import Search
from frame.solved.blocks import split
from frame.solved.situation import situation, whole_table
from tests.builders import models_of

MORE = 1.25
"""How much more of a thing a stronger rack has."""


def thicker(pipe: Pipe) -> Pipe:
    """A pipe of more wall, and weight with it."""
    return replace(pipe, wall=pipe.wall * MORE, weight=pipe.weight * MORE)


def thicker_post(rack: Rack) -> Rack:
    """The rack on posts of more wall; a sleeve taken to be as thick as its post stays so."""
    pipe = thicker(rack.posts.pipe)
    alike = np.isclose(rack.sleeve.wall, rack.posts.pipe.design.wall)
    wall = pipe.design.wall if alike else rack.sleeve.wall
    return replace(
        rack,
        posts=replace(rack.posts, pipe=pipe),
        sleeve=replace(rack.sleeve, wall=wall),
    )


def stronger(rack: Rack) -> Iterator[tuple[str, Rack]]:
    """The rack with more of one thing at a time: torque, bolts, depth, wall."""
    lock, posts, rods = rack.sleeve.lock, rack.posts, rack.rails.u_bolts
    if isinstance(lock, SetBolts):
        for words, made in (
            ("more torque on the set bolts", replace(lock, torque=lock.torque * MORE)),
            ("one more set bolt", replace(lock, count=lock.count + 1)),
        ):
            yield words, replace(rack, sleeve=replace(rack.sleeve, lock=made))
    for words, rod in (
        ("more torque on the U-bolts", replace(rods, torque=rods.torque * MORE)),
        ("one more U-bolt on each rail", replace(rods, count=rods.count + 1)),
    ):
        yield words, replace(rack, rails=replace(rack.rails, u_bolts=rod))
    deeper = replace(posts.footing, depth=posts.footing.depth * MORE)
    yield "a deeper post", replace(rack, posts=replace(posts, footing=deeper))
    yield "a post of thicker wall", thicker_post(rack)
    yield (
        "a beam of thicker wall",
        replace(rack, beam=replace(rack.beam, pipe=thicker(rack.beam.pipe))),
    )
    yield (
        "a sleeve of thicker wall",
        replace(rack, sleeve=replace(rack.sleeve, wall=rack.sleeve.wall * MORE)),
    )


def gusts(rack: Rack, bracing: tuple[str, ...]) -> dict[Key, float]:
    """Gust [m/s] at which each check is expected to go, without ranges."""
    _, blocks = split(models_of(rack, bracing))
    work = Search.of(blocks)
    found = coarse(work)
    work = replace(work, owners=found.owners)
    return {x.name.key: x.gust for x in lowest_gusts(work, found.crossing).values()}


def broken_by_weight(rack: Rack, bracing: tuple[str, ...]) -> set[Key]:
    """Checks that weight alone takes over the nominal strength of the code's model."""
    code, _ = split(models_of(rack, bracing))
    found = set()
    for block in code:
        now = situation(block, whole_table(block), [0.0])
        for checker in CHECKERS:
            for part, check in checker(now):
                if (np.nan_to_num(check.let_go) >= 1).any():
                    found.add((part, check.name))
    return found
