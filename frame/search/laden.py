"""Loads that no gust changes, as snow, ice and people: what a rack uses of the code's margin."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from frame.named.aim import Key
from frame.search.searched import Search
from frame.search.stack import stacked
from frame.solved.blocks import Block
from frame.solved.situation import gustless

HOPELESS = 1e3
"""Use beyond which more is not worse [1] (judgement)."""


@dataclass(frozen=True, slots=True)
class Laden:
    """Most that any check uses of its allowable under such loads [1].

    Ice and snow come with their own wind, others with none, or with the least pressure that the
    standard asks for. `key`: the check; `block`: where; None where nothing was looked at.
    """

    use: float = 0.0
    key: Key | None = None
    block: Block | None = None

    @property
    def carried(self) -> bool:
        """Whether the rack has the code's margin under them."""
        return self.use <= 1.0

    @property
    def short(self) -> float:
        """How many times as strong it would have to be, told as a gust is: by the root [1].

        Never endless, as where nothing is left of a wall: what mends other parts gains there too.
        """
        return math.sqrt(min(max(self.use, 1.0), HOPELESS))


def laden(code: Sequence[Block]) -> Laden:
    """Work out every check under loads that no gust changes, over blocks of the code's model."""
    worst = Laden()
    for key, uses in laden_uses(code).items():
        at = int(uses.argmax())
        if uses[at] > worst.use:
            worst = Laden(float(uses[at]), key, code[at])
    return worst


def laden_uses(code: Sequence[Block]) -> dict[Key, np.ndarray]:
    """Largest use (blocks,) of every check under such loads, block by block."""
    found: dict[Key, np.ndarray] = {}
    if not code:
        return found
    work = Search.of(code)
    for nows in zip(*map(gustless, code), strict=True):
        of = np.repeat(np.arange(len(code)), [len(now.case) for now in nows])
        for key, used in work.used(stacked(nows)).items():
            most = found.setdefault(key, np.zeros(len(code)))
            np.maximum.at(most, of, used.use)
    return found
