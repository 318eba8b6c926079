"""What a checker is, and what it must be told apart by where it is given many blocks at once."""

from collections.abc import Callable, Hashable, Iterator
from dataclasses import dataclass

from frame.checks.check import Check
from frame.named.part import Part
from frame.rack.rack import STAYS
from frame.solved.blocks import Block
from frame.solved.frames import stiff_part
from frame.solved.situation import Situation

PartCheck = tuple[Part, Check]
Checker = Callable[[Situation], Iterator[PartCheck]]
Trait = Callable[[Block], Hashable]


def panel_tilt(block: Block) -> float:
    """Tilt of the panels [rad]."""
    return block.frame.ideal.tilt


def stay_tilt(block: Block) -> float | None:
    """Tilt that the stays were cut for [rad]; None without stays."""
    return panel_tilt(block) if STAYS in block.bracing else None


def soil(block: Block) -> str:
    """End of the soil's band."""
    return block.state.soil


def guys_fitted(block: Block) -> tuple[str, ...]:
    """Guys fitted."""
    return tuple(b for b in block.bracing if b not in stiff_part(block.bracing))


def guyed(block: Block) -> bool:
    """Whether any guys are fitted."""
    return bool(block.fitted.any())


@dataclass(frozen=True)
class Alike:
    """A checker that may be given the cases of many blocks together, all of one stiff bracing.

    The blocks have the same of each trait in `same`: whatever the checker reads of the block but
    case by case (`Situation.each`). A checker not marked so is given one block at a time.
    `local`: it reads the wind but no forces of the frame, so that cases of one gust are worked out
    once for all its blocks.
    """

    run: Checker
    same: tuple[Trait, ...] = ()
    local: bool = False

    def __call__(self, now: Situation) -> Iterator[PartCheck]:
        """Work the checks out."""
        return self.run(now)
