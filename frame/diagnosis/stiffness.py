"""A model whose parts are stiffer or softer than its file leads one to expect."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from frame.fem.model import Model, Support, UnitLoad
from frame.geometry.tube import Tube
from frame.idealize.actions import STEEL_WEIGHT
from frame.named.part import PartKind
from frame.rack.pipe import Pipe
from frame.rack.rack import Rack

GROUND, SLEEVE, POST, BEAM, GUYS = "ground", "sleeve", "post", "beam", "guys"
PARTS = (GROUND, SLEEVE, POST, BEAM, GUYS)
"""Groups of the frame whose share of a movement is told; rails and braces have the rest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stiffness:
    """Stiffness of the parts: factors [1], but walls over the listed or measured wall [1].

    `more`: further factors by group of `PARTS`.
    """

    ground: float = 1.0
    beam_wall: float = 1.0
    post_wall: float = 1.0
    sleeve: float = 1.0
    guy_pull: float = 1.0
    guy_give: float = 1.0
    more: tuple[tuple[str, float], ...] = ()

    def factor_of(self, part: str) -> float:
        """Further factor on a part."""
        return dict(self.more).get(part, 1.0)


def with_stiffness(model: Model, rack: Rack, stiffness: Stiffness) -> Model:
    """Return the model with other stiffnesses; the beam weighs as much less as its wall has."""
    pipes = {
        PartKind.BEAM: (rack.beam.pipe, stiffness.beam_wall, stiffness.factor_of(BEAM)),
        PartKind.POST: (rack.posts.pipe, stiffness.post_wall, stiffness.factor_of(POST)),
    }
    sizes: dict[PartKind, tuple[float, float, float]] = {}
    for part, (pipe, wall, factor) in pipes.items():
        found, design = tube_of(pipe, wall), pipe.design
        area, bending = found.area / design.area, found.second_moment / design.second_moment
        sizes[part] = (area * factor, bending * factor, found.area / pipe.nominal.area)
    members = tuple(
        replace(m, A=m.A * area, Iy=m.Iy * bent, Iz=m.Iz * bent, J=m.J * bent)
        for m in model.members
        for area, bent, _ in [sizes.get(m.part.kind, (1.0, 1.0, 1.0))]
    )
    ground = stiffness.ground * stiffness.factor_of(GROUND)
    sleeve = stiffness.sleeve * stiffness.factor_of(SLEEVE)
    lighter = sizes[PartKind.BEAM][2]
    sleeves = model.connections_of(PartKind.SLEEVE)
    guys = stiffness.guy_give * stiffness.factor_of(GUYS)
    return replace(
        model,
        members=members,
        supports=tuple(_firmer(s, ground) for s in model.supports),
        connections=tuple(
            replace(c, k=tuple(k and sleeve * k for k in c.k)) if i in sleeves else c
            for i, c in enumerate(model.connections)
        ),
        guys=tuple(
            replace(g, EA=g.EA * guys, pretension=g.pretension * stiffness.guy_pull)
            for g in model.guys
        ),
        unit_loads=tuple(_weighed(model, load, lighter) for load in model.unit_loads),
    )


def _firmer(support: Support, factor: float) -> Support:
    x, y, z, rx, ry, rz = (factor * k for k in support.k)
    return replace(support, k=(x, y, z, rx, ry, rz))


def tube_of(pipe: Pipe, wall: float) -> Tube:
    """Return a pipe with `wall` times its listed or measured wall, less rust; at most solid."""
    od = pipe.od - 2 * pipe.rust
    return Tube(od, min(max(pipe.wall * wall - pipe.rust, 0.05 * pipe.wall), od / 2))


def _weighed(model: Model, load: UnitLoad, beam: float) -> UnitLoad:
    """Return the weight of the steel with a lighter or heavier beam; other loads as they are."""
    if load.name != STEEL_WEIGHT:
        return load
    lighter: Mapping[bool, float] = {True: beam, False: 1.0}
    return replace(
        load,
        members=tuple(
            (m, (x, y, z * lighter[model.members[m].part.kind is PartKind.BEAM]))
            for m, (x, y, z) in load.members
        ),
    )
