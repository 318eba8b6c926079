"""Which listed pipe goes over a post as its sleeve, and what is done about its play."""

from frame.rack.rack import Rack
from frame.shop.steel.cut_list import sleeve_bore
from frame.shop.words import tape
from frame.tables.pipes import PipeSize, pipes
from frame.units import INCH, show

SLIDES = INCH / 64
"""Least bore over the post that still slides on [m] (judgement)."""
SHIMS_TAKE_UP = 3 * INCH / 8
"""How much wider than described a bore may be for shims to take it up [m] (judgement)."""
EXACT = INCH / 32
"""How far a bore may be from the one described to be it [m] (judgement)."""


def nearest_pipe(rack: Rack) -> PipeSize | None:
    """Return the listed pipe nearest in bore that goes over the post, no thinner than counted."""
    least, thin = rack.posts.pipe.od + SLIDES, rack.sleeve.wall - EXACT / 2
    fit = [p for p in pipes() if p.od - 2 * p.wall >= least and p.wall >= thin]
    bore = sleeve_bore(rack)
    return min(fit, key=lambda p: (abs(p.od - 2 * p.wall - bore), p.weight), default=None)


def rolled(rack: Rack) -> bool:
    """Whether no listed pipe with that wall has about the bore that the sleeve is to have."""
    found = nearest_pipe(rack)
    return found is None or found.od - 2 * found.wall - sleeve_bore(rack) > SHIMS_TAKE_UP


def sleeve_words(rack: Rack) -> str:
    """Say where sleeve pipe comes from; empty where a listed pipe is as described."""
    system, bore = rack.units, sleeve_bore(rack)
    wanted = show(bore, "thickness", system)
    found = nearest_pipe(rack)
    if found is None:
        return (
            f"Sleeve: no listed pipe has a bore of {wanted} or more over the post with that wall. "
            "Roll one, or split a pipe and weld it up."
        )
    had = found.od - 2 * found.wall
    outside = bore + 2 * rack.sleeve.wall
    if abs(had - bore) <= EXACT and abs(found.od - outside) <= EXACT:
        return ""
    play = show(had - rack.posts.pipe.od, "thickness", system)
    return (
        f"Sleeve: the nearest listed pipe over the post is {found.name}, bore "
        f"{show(had, 'thickness', system)}, not {wanted}, {tape(found.od, system)} outside. To "
        f'use it, write [sleeve] clearance = "{play}" and wall = '
        f'"{show(found.wall, "thickness", system)}", and play = "..." as it is shimmed, and run '
        f"this again: the template here fits only a sleeve {tape(outside, system)} thick."
    )
