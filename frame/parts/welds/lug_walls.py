"""The wall of post or beam under a lug that a brace or guy pulls on."""

from dataclasses import replace

from frame.checks.check import Check, Numbers
from frame.checks.welds.lug_wall import LugPull, LugWall, lug_wall
from frame.checks.welds.round_joint import yield_in_tables
from frame.idealize.posts import post_name
from frame.named.part import BEAM, Part, Side
from frame.parts.forces import coded_metal, pipe_wall, remark, wall_counted_on
from frame.rack.guy import POST_TOP
from frame.rack.pipe import Pipe
from frame.rack.rack import Rack
from frame.rack.weld import ARM_PER_LENGTH
from frame.solved.situation import Situation


def wall_under_lug(
    now: Situation,
    pull: LugPull,
    carrier: Pipe,
    stress: Numbers,
    *,
    ndim: int = 1,
    crossed: bool = False,
    open_end: bool = False,
) -> Check:
    """Check the wall of a `carrier` under a lug pulled at its hole, (n,) or (n, lugs) by `ndim`.

    `stress`: compression of the carrier at the lug [Pa]. `crossed`: another lug pulls from the
    other side at the same place; `open_end`: the lug ends with the carrier. Expected are wall and
    yield, on walls that the code covers.
    """
    welds, metal = now.rack.welds, coded_metal(now, wall_counted_on(carrier))
    under = LugWall(
        od=carrier.design.od,
        wall=carrier.design.wall,
        length=welds.lug_length,
        arm=ARM_PER_LENGTH * welds.lug_length,
        yield_stress=yield_in_tables(metal.counted_yield),
        tensile=metal.counted_tensile,
        crossed=crossed,
        open_end=open_end,
    )
    check = lug_wall(pull, under, stress)
    if now.median:
        expected = replace(
            under,
            wall=pipe_wall(now, carrier, ndim)[0],
            yield_stress=now.yield_of(carrier.steel, ndim),
        )
        made = lug_wall(pull, expected, stress, now.expected("chord_wall", ndim))
        check = replace(made, covered=check.covered)
    return remark(check, carrier.steel)


def carrier_of(rack: Rack, attach: str, line: Part) -> tuple[Part, Pipe]:
    """Return the post or beam whose lug a guy or stay pulls on, by its `attach`, and its pipe."""
    if attach != POST_TOP:
        return BEAM, rack.beam.pipe
    last = len(rack.posts.positions) - 1
    return post_name(rack, 0 if line.side is Side.LEFT else last), rack.posts.pipe
