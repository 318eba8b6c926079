"""The lugs that guys pull on, with their bolts, their welds and the walls under them."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from frame.checks.fasteners.lug import bolted_lug
from frame.checks.welds.lug_wall import LugPull
from frame.checks.welds.weld import lug_line
from frame.fem.model import Guy
from frame.idealize.bands import guy_groups
from frame.named.part import lugs, wall, weld
from frame.parts.checker import PartCheck
from frame.parts.forces import squeeze
from frame.parts.guys.guys import fitted_guys
from frame.parts.welds.lug_walls import carrier_of, wall_under_lug
from frame.parts.welds.lugs import lug_with_bolt
from frame.parts.welds.plates import PLATE_STEEL, lug_metal, welded_lug
from frame.parts.welds.welds import line_checks
from frame.rack.guy import BEAM_ENDS, POST_TOP, RAIL_CORNERS, Guys
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.tables.steels import find

NOTE = "a jaw or shackle that straddles the lug; the bolt counted in one plane (judgement)"


@dataclass(frozen=True, slots=True)
class Pulled:
    """The guys of a group: what each pulls, case by case, (n, guys) [N], and its part along.

    `along` [1]: of the pull, along the pipe that the guys' lugs stand on.
    """

    guys: tuple[Guy, ...]
    pull: FloatArray
    along: FloatArray


def guy_lug_checks(now: Situation) -> Iterator[PartCheck]:
    """Lug, bolt, weld, base metal and wall of each group of guys, the worst of the group.

    Every lug lies along its pipe and in the plane of pipe and guy, so that nothing pulls it
    sideways. Guys on rail corners pull on bolts through the rails and have no lug.
    """
    for group in now.rack.guys_in(now.block.bracing):
        if group.attach != RAIL_CORNERS:
            yield from _on_lugs(now, group, _pulls(now, group))


def _pulls(now: Situation, group: Guys) -> Pulled:
    lines = {line.name: line for line in fitted_guys(now)}
    ideal = now.block.frame.ideal
    mine = [i for i, name in enumerate(guy_groups(ideal)) if name == group.name]
    guys = tuple(ideal.model.guys[i] for i in mine)
    shares = np.abs(now.each(lambda b: b.frame.guy_directions))
    return Pulled(
        guys=guys,
        pull=np.stack([lines[guy.name].pull for guy in guys], axis=1),
        along=shares[:, mine, 2 if group.attach == POST_TOP else 0],
    )


def _on_lugs(now: Situation, group: Guys, pulls: Pulled) -> Iterator[PartCheck]:
    part, rack, pull = lugs(group.name), now.rack, pulls.pull
    bolted = bolted_lug(pull, lug_with_bolt(now, 2), factored=not now.median)
    yield part, replace(bolted, note=NOTE)
    found = [carrier_of(rack, group.attach, guy.name) for guy in pulls.guys]
    carrier = found[0][1]
    along, normal = pull * pulls.along, pull * np.sqrt(1 - pulls.along**2)
    line = lug_line(along, normal, 0.0 * pull, welded_lug(rack.welds))
    metal = lug_metal(now, carrier, 2)
    yield from line_checks(now, weld(part), line, metal, carrier.steel, find(PLATE_STEEL))
    squeezed = [
        squeeze(now, on, [guy.node], carrier)
        for guy, (on, _) in zip(pulls.guys, found, strict=True)
    ]
    under = wall_under_lug(
        now,
        LugPull(normal, along, 0.0 * pull),
        carrier,
        np.concatenate(squeezed, axis=1),
        ndim=2,
        crossed=True,
        open_end=group.attach == BEAM_ENDS,
    )
    yield wall(found[0][0].kind, part), under
