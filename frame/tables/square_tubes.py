"""Square tube: no rack in it is covered, so it is told from round pipe and one of these is named.

A sleeve that can be turned, what locks it, the wall it bears on, the joints, the wind on the sides
and the post in the ground are those of round pipe throughout. A square post with a round stub on
top would need a cap, its weld and the stub's own strength, which no check here has.
"""

import re
from dataclasses import dataclass
from functools import cache

from frame.tables.reader import rows, si
from frame.units.parse import plain_text

SAID = re.compile(r"\b(square|sq|hss|rhs|shs|box)\b")
ACROSS = re.compile(r"\b([0-9]+(?:[ -][0-9]+/[0-9]+|\.[0-9]+)?) ?(?:in|mm|\")? ?x ?\1(?![0-9.])")
WALL = re.compile(r"x ?([0-9]+/[0-9]+|0?\.[0-9]+)")


@dataclass(frozen=True, slots=True)
class SquareTube:
    """A listed square tube: `side`, nominal `wall` [m], `weight` [N/m].

    `round_pipe`: the lightest standard pipe with no less elastic and plastic modulus.
    """

    name: str
    side: float
    wall: float
    weight: float
    round_pipe: str
    source: str


@cache
def square_tubes() -> tuple[SquareTube, ...]:
    """Return every square tube listed."""
    return tuple(
        SquareTube(
            name=row["name"],
            side=si(row, "side_in"),
            wall=si(row, "wall_in"),
            weight=si(row, "weight_lb_per_ft"),
            round_pipe=row["round_pipe"],
            source=row["source"],
        )
        for row in rows("square_tubes")
    )


def is_square(text: str) -> bool:
    """Whether the name of a pipe says square tube: in words, or as one size twice."""
    plain = plain_text(text).lower()
    return bool(SAID.search(plain) or ACROSS.search(plain))


def square_refused(text: str) -> str:
    """Say that square tube is not covered, and which round pipe to think of in its place."""
    right = "write a round pipe, as `rack catalog pipe` lists them"
    size = _listed(text)
    if size:
        right = f'of its steel "{size.round_pipe}" bends no sooner: write that'
    return (
        f'"{text}": no rule here covers square tube, since the sleeve that turns, its bolts, the '
        f"joints and the wind are those of round pipe; {right}"
    )


def _listed(text: str) -> SquareTube | None:
    """Return the listed tube of the size and wall named; None where either is not."""
    plain = plain_text(text).lower()
    across, rest = ACROSS.search(plain), ""
    if across:
        rest = plain[across.end() :]
    wall = WALL.search(rest)
    if not across or not wall:
        return None
    wanted = f"{across[1].replace(' ', '-')} x {across[1].replace(' ', '-')} x {wall[1]} "
    return next((s for s in square_tubes() if s.name.startswith(wanted)), None)
