"""A person working on the rack, in still air."""

from collections.abc import Sequence

from frame.loads.cases import ActionCase
from frame.named.load_kind import LoadKind
from frame.units import LB

WORKER = 300 * LB
"""Weight of one worker with tools [N], ASCE/SEI 7-22 Table 4.3-1 (from memory of the standard)."""


def worker_cases(places: Sequence[str]) -> tuple[ActionCase, ...]:
    """One case for each place (name of a node) a worker may hang on or lean a ladder against.

    Unit loads "worker, beam end, left" and so on: 1 N, downwards.
    """
    return tuple(
        ActionCase(
            name=f"worker, {place}",
            words=f"a worker's weight on the {place.replace(',', '')}",
            kind=LoadKind.WORKER,
            factors=((f"worker, {place}", WORKER),),
        )
        for place in places
    )
