"""What a rack's readings would be on stiff and on soft ground, before anything is read."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from frame.diagnosis.fit import values_at
from frame.diagnosis.forward import Forward
from frame.diagnosis.predict import PREDICTED, Yard
from frame.diagnosis.unknowns import GROUND, fit_unknowns
from frame.rack.measured import Measured
from frame.rack.rack import Rack
from frame.tables.readings import OF_ONE_POST, reading_kinds
from frame.units import LB

PULL, PUSH, PRESS = 100 * LB, 30 * LB, 40 * LB
"""Forces of a test that the file does not tell [N] (judgement: what one person can hold)."""
SCALE = 0.2
"""How far off a scale is taken to be, as a share (judgement)."""


@dataclass(frozen=True, slots=True)
class Expectation:
    """What a reading by its `key` would be on `stiff` and on `soft` ground [SI]."""

    key: str
    stiff: float
    soft: float


def conditions(rack: Rack) -> Measured:
    """Return how the rack is to be read: as its file says, else bare in the first of its tilts."""
    if rack.measured is not None:
        return with_tests(rack.measured)
    height = rack.posts.height
    return Measured(
        readings=(),
        fitted=rack.stood.fitted if rack.stood else (),
        tilt=rack.tilts[0],
        pull=PULL,
        pull_height=height,
        pull_way="across",
        push=PUSH,
        press=PRESS,
        scale_within=SCALE,
        lean_height=height,
        shakes_way="across",
    )


def with_tests(measured: Measured) -> Measured:
    """Return readings with the forces of every test, those not told as one person holds them."""
    return replace(
        measured,
        pull=measured.pull or PULL,
        push=measured.push or PUSH,
        press=measured.press or PRESS,
    )


def tellable(rack: Rack, measured: Measured) -> tuple[str, ...]:
    """List the readings that tell anything of a rack; of play only where one post holds it."""
    keys = list(reading_kinds())
    if not rack.guys_in(measured.fitted):
        keys.remove("guy_pull")
    if len(rack.posts.positions) > 1:
        keys = [key for key in keys if key not in OF_ONE_POST]
    return tuple(keys)


def expectations(rack: Rack) -> tuple[Expectation, ...]:
    """List every reading that can be taken of a rack, with what it would be if it is well made.

    Without play, bow or lean, at the ends of the band of its ground.
    """
    return tuple(_list(rack))


def _list(rack: Rack) -> Iterator[Expectation]:
    measured = conditions(rack)
    forward = Forward(rack, measured)
    some = fit_unknowns(rack, measured)
    middle = values_at(some, np.zeros(len(some)))
    well = {u.key: middle[u.key] if u.factor else 0.0 for u in some}
    soil = rack.site.soil
    half = math.sqrt(soil.stiffness_stiff / soil.stiffness_soft)
    for key in tellable(rack, measured):
        stiff, soft = (
            PREDICTED[key](Yard(forward, {**well, GROUND: factor})) for factor in (half, 1 / half)
        )
        yield Expectation(key, stiff, soft)
