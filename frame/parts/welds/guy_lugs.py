"""The welds of the lugs that guys pull on, at post tops and beam ends."""

from collections.abc import Iterator

import numpy as np

from frame.checks.welds.weld import lug_line
from frame.idealize.bands import guy_groups
from frame.named.part import lugs, weld
from frame.parts.checker import PartCheck
from frame.parts.forces import metal_between, pipe_wall
from frame.parts.guys.guys import fitted_guys
from frame.parts.welds.lugs import STEEL
from frame.parts.welds.welds import line_checks, welded_lug
from frame.rack.guy import POST_TOP, RAIL_CORNERS
from frame.solved.situation import Situation
from frame.tables.steels import find


def guy_lug_checks(now: Situation) -> Iterator[PartCheck]:
    """Weld and base metal of the lugs of each group of guys, the worst of the group.

    Every lug lies along its pipe and in the plane of pipe and guy, so that nothing pulls it
    sideways. Guys on rail corners pull on bolts and have no lug.
    """
    rack, model = now.rack, now.block.frame.ideal.model
    lines = {line.name: line for line in fitted_guys(now)}
    groups = guy_groups(now.block.frame.ideal)
    shares = np.abs(now.each(lambda b: b.frame.guy_directions))
    welds = rack.welds
    for group in rack.guys_in(now.block.bracing):
        if group.attach == RAIL_CORNERS:
            continue
        mine = [i for i, name in enumerate(groups) if name == group.name]
        carrier = rack.posts.pipe if group.attach == POST_TOP else rack.beam.pipe
        along = shares[:, mine, 2 if group.attach == POST_TOP else 0]
        pull = np.stack([lines[model.guys[i].name].pull for i in mine], axis=1)
        line = lug_line(pull * along, pull * np.sqrt(1 - along**2), 0.0 * pull, welded_lug(welds))
        walls = pipe_wall(now, carrier, 2), (welds.lug_plate, find(STEEL))
        metal = metal_between(now, *walls, ndim=2)
        yield from line_checks(now, weld(lugs(group.name)), line, metal, carrier.steel)
