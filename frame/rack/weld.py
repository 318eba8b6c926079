"""How the rack is welded."""

from dataclasses import dataclass

ARM_PER_LENGTH = 0.5
"""Hole to weld over the length of a lug (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Welds:
    """Fillet welds of `leg` [m] all round, rod strength `electrode` FEXX [Pa].

    Pinned braces and guys hang on flat lugs of `lug_length` along the pipe and `lug_plate`
    thickness [m], by one bolt of `lug_bolt` diameter [m].
    """

    leg: float
    electrode: float
    lug_length: float
    lug_plate: float
    lug_bolt: float
