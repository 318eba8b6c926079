"""What panels and rails may strike as they are tilted and turned, in words and from the side."""

import math

import numpy as np

from frame.draw.shop.paper import GREY, SMALL, TITLE, Column, Paper
from frame.draw.shop.strip import spread_apart
from frame.idealize.deck import Slope
from frame.rack.rack import STAYS
from frame.shop.job import Job
from frame.shop.steel.eyes import eyes
from frame.shop.words import tape
from frame.shop.yard.clearance import NEAR, STEEPEST, Contact
from frame.units import DEG

TALLEST = 3.4
"""Height of the picture at most [in]."""
DASHES = (0, (4, 3))
LINE = 0.17
"""Least distance of two labels one under the other [in]."""


def write_clearance(paper: Paper, job: Job) -> None:
    """Write what comes near on a new page, with the rack from the side at its tilts."""
    found, system = job.clearance, job.rack.units
    paper.new_page()
    paper.heading(f"{job.rack.name}: what is in the way", TITLE)
    paper.paragraph(
        f"Panels and rails are swept from flat to {STEEPEST / DEG:.0f} deg. Room is told at the "
        "tilts of the file, less half of what stands there; a part that comes nearer than "
        f"{tape(NEAR, system)} is marked."
    )
    _picture(paper, job)
    paper.table(
        (
            Column("may be struck", 2.1),
            Column("room", 1.0, bold=True),
            Column("at", 0.75),
            Column("by", 1.0),
            Column("strikes when", paper.width - 4.85),
        ),
        [
            (c.what, _room(c, system), f"{c.at / DEG:.0f} deg", c.moving, _further(c))
            for c in found.contacts
        ],
        SMALL + 1,
    )
    if found.held:
        paper.paragraph(f"The beam is not turned: {found.held}.")
    elif not found.turning:
        paper.paragraph(
            "Turned right round on the post it strikes nothing at the tilts of the file."
        )
    for one in found.turning:
        some = ", ".join(f"{a / DEG:.0f} to {b / DEG:.0f}" for a, b in one.headings)
        paper.paragraph(
            f"Turned at {one.tilt / DEG:.0f} deg of tilt it strikes the {one.what} at headings of "
            f"{some} deg, seen from above, counterclockwise from where it is drawn.",
            SMALL + 1,
        )


def _room(contact: Contact, system: str) -> str:
    if contact.gap <= 0:
        return "STRIKES"
    return tape(contact.gap, system) + (" NEAR" if contact.gap < NEAR else "")


def _further(contact: Contact) -> str:
    said = []
    if contact.below is not None:
        said.append(f"lowered to {contact.below / DEG:.0f} deg")
    if contact.above is not None:
        said.append(f"raised to {contact.above / DEG:.0f} deg")
    return " or ".join(said) or "never"


def _stays(job: Job) -> list[tuple[np.ndarray, np.ndarray]]:
    """Return heads and feet of the stays at the flattest tilt."""
    rack = job.rack
    if rack.stays is None or STAYS not in job.bracing:
        return []
    return [
        (eye.point, job.ground.point(eye.foot[0], eye.foot[1]))
        for eye in eyes(rack, rack.stays, min(rack.tilts))
    ]


def _picture(paper: Paper, job: Job) -> None:
    """Draw the rack from the side, its front at the left: panels at every tilt, guys, ground."""
    rack = job.rack
    half = max(rack.panels.chord, rack.rails.length) / 2
    lines = [(line.eye.point, line.anchor) for line in job.lines] + _stays(job)
    feet = [float(foot[1]) for _, foot in lines]
    low, high = min([-half, *feet]), max([half, *feet])
    steeper = [c.above for c in job.clearance.contacts if c.above is not None]
    tilts = [*rack.tilts, *([min(steeper)] if steeper else [])]
    top = rack.posts.height + half * math.sin(max(tilts)) + rack.stand_off
    drop = max(0.0, *(-job.ground.height(0.0, y) for y in (low, high)))
    per = min((paper.width - 0.4) / (high - low), TALLEST / (top + drop))
    paper.need((top + drop) * per + 0.4)
    ground = paper.down + top * per + 0.1
    left = (paper.width - (high - low) * per) / 2

    def place(y: float, z: float) -> tuple[float, float]:
        return left + (y - low) * per, ground - z * per

    fall = [place(y, job.ground.height(0.0, y)) for y in (low, high)]
    paper.rule(*fall[0], *fall[1], linewidth=1.0)
    width = rack.posts.pipe.od / 2
    for y in (-width, width):
        paper.rule(*place(y, 0), *place(y, rack.posts.height), linewidth=1.4)
    for line in lines:
        ends = [place(float(p[1]), float(p[2])) for p in line]
        paper.rule(*ends[0], *ends[1], linewidth=0.8, color=GREY)
    told = []
    for tilt in tilts:
        slope, known = Slope(tilt), tilt in rack.tilts
        off = rack.stand_off + rack.rails.channel.depth / 2
        ends = [
            place(
                float(off * slope.out[1] + s * slope.up[1]),
                float(rack.posts.height + off * slope.out[2] + s * slope.up[2]),
            )
            for s in (-half, half)
        ]
        style = {"linewidth": 2.4} if known else {"linewidth": 1.0, "linestyle": DASHES}
        paper.rule(*ends[0], *ends[1], **style)
        words = f"{tilt / DEG:.0f} deg" + ("" if known else " strikes")
        told.append((ends[1][1] - 0.08, ends[1][0] + 0.05, words))
    told.sort()
    downs = spread_apart([y for y, _, _ in told], LINE, (0.0, paper.bottom))
    for down, (_, x, words) in zip(downs, told, strict=True):
        paper.put(x, down, words, SMALL, weight="bold")
    paper.down = ground + drop * per + 0.15
