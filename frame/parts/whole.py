"""The rack as a whole."""

from collections.abc import Iterator

from frame.checks.toppling import toppling
from frame.named.part import RACK
from frame.parts.checker import PartCheck
from frame.solved.situation import Situation


def rack_checks(now: Situation) -> Iterator[PartCheck]:
    """Whether the rack sways over under its own loads, before any part fails."""
    yield RACK, toppling(now.lowest, now.each(lambda b: b.alpha))
