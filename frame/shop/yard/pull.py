"""How tight a guy is, told three ways: turns of the turnbuckle, a pull at its middle, a pluck."""

import math
from dataclasses import dataclass

from frame.idealize.lines import effective_stiffness
from frame.idealize.state import SOFT, STIFF
from frame.rack.guy import Guys
from frame.tables.fittings import TURNBUCKLE, kind_of
from frame.tables.steels import material
from frame.units import G0, INCH, LB

THREADS_AN_INCH = ((0.25, 20), (0.3125, 18), (0.375, 16), (0.5, 13), (0.625, 11), (0.75, 10))
"""Threads of a turnbuckle by its size [in]: ASME B1.1 UNC (from memory of the standard)."""
SHARES = (0.5, 0.75, 1.0, 1.25, 1.5)
"""Pulls on the card, of the one wanted [1]."""
SIDE_PULLS = (20 * LB, 10 * LB)
"""Pull at the middle with a spring scale [N]; the lesser where the greater moves it too far."""
FARTHEST = 1 / 30
"""Largest movement at the middle, over the length, that is read well (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PullReading:
    """A pull in a guy [N] and how it shows: `aside` [m] at the middle, `pluck` [Hz]."""

    pull: float
    aside: float
    pluck: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TensionCard:
    """How to bring a guy to its `wanted` pull [N] and to check it.

    `turn`: what a full turn of the turnbuckle adds, with an anchor that gives most and one that
    gives least [N], 0 without one; `turns` past snug, fewest and most; `side` pull at the middle
    [N]; `a_degree`: what it gains at most for every kelvin colder [N].
    """

    name: str
    length: float
    wanted: float
    turn: tuple[float, float]
    turns: tuple[float, float]
    side: float
    readings: tuple[PullReading, ...]
    a_degree: float


def side_movement(pull: float, side: float, length: float, stiffness: float) -> float:
    """Movement [m] of the middle of a straight wire under a `side` pull [N] square to it.

    `pull` in the wire before [N], `length` [m], `stiffness` EA with its anchor [N]. Exact statics
    of two straight halves: side = 2 T s / h, T = pull + EA (h / h0 - 1), h0 = length / 2, h the
    half drawn aside by s. Its own weight is left out: under a hundredth of the pull here.
    """
    half = length / 2

    def drawn(aside: float) -> float:
        long = math.hypot(half, aside)
        tension = pull + stiffness * (long / half - 1)
        return 2 * tension * aside / long

    low, high = 0.0, half
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if drawn(middle) < side else (low, middle)
    return (low + high) / 2


def pluck(pull: float, weight: float, length: float) -> float:
    """Frequency [Hz] of a plucked wire of `weight` [N/m] and `length` [m] at a `pull` [N].

    f = sqrt(T / m) / 2 L, the string of any text on vibrations; its bending stiffness left out.
    """
    return math.sqrt(pull / (weight / G0)) / (2 * length)


def pitch(size: float) -> float:
    """Pitch of the thread of a turnbuckle of a `size` [m]; a full turn takes up twice that."""
    inches = size / INCH
    found = [n for listed, n in THREADS_AN_INCH if listed <= inches * 1.001]
    return INCH / (found[-1] if found else THREADS_AN_INCH[0][1])


def tension_card(guys: Guys, name: str, length: float) -> TensionCard:
    """Work out the card of one guy of a `length` pin to pin [m]."""
    soft, stiff = (effective_stiffness(guys, length, where) for where in (SOFT, STIFF))
    wanted = guys.pretension
    turn = (0.0, 0.0)
    turns = (0.0, 0.0)
    if kind_of(guys.fitting) == TURNBUCKLE and guys.fitting_size:
        step = 2 * pitch(guys.fitting_size)
        turn = (soft * step / length, stiff * step / length)
        turns = (wanted / turn[1], wanted / turn[0])
    middle = (soft + stiff) / 2
    side = next(
        (
            p
            for p in SIDE_PULLS
            if side_movement(SHARES[0] * wanted, p, length, middle) <= FARTHEST * length
        ),
        SIDE_PULLS[-1],
    )
    return TensionCard(
        name=name,
        length=length,
        wanted=wanted,
        turn=turn,
        turns=turns,
        side=side,
        readings=tuple(
            PullReading(
                pull=share * wanted,
                aside=side_movement(share * wanted, side, length, middle),
                pluck=pluck(share * wanted, guys.wire.weight, length),
            )
            for share in SHARES
        ),
        a_degree=stiff * material().alpha,
    )
