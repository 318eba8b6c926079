"""The ground round a guy anchor: wet and dry for the code's margin, and its middle.

The soft side of a doubt is taken throughout: nothing here counts rock as better than loam for logs
in the table, or as more than stiff clay where the wedge is worked out.
"""

import math

import numpy as np
import numpy.typing as npt

from frame.checks.guys.anchor import holding_kept
from frame.checks.guys.deadman import Earth, Log
from frame.rack.guy import DEADMAN, PICKETS, SCREW, Anchor
from frame.solved.frames import FloatArray
from frame.tables.soils import Soil
from frame.units import PSF

BoolArray = npt.NDArray[np.bool_]
STIFF_CLAY = 2000 * PSF
"""Most cohesion counted on before a log [Pa]: in harder ground log or wire gives (judgement)."""
SHARES = {
    (DEADMAN, "clay"): ("fine wet or sandy", "loam"),
    (DEADMAN, "sand"): ("fine wet or sandy", "fine wet or sandy"),
    (DEADMAN, ""): ("fine wet or sandy", "loam"),
    (PICKETS, "sand"): ("fine wet or sandy", "fine wet or sandy"),
    (PICKETS, ""): ("fine wet or sandy", "clay or gravel"),
    (SCREW, ""): ("wetter than at the torque reading", "as at the torque reading"),
}
"""Row of the table of grounds when wet and when dry, by anchor and soil."""


def log(hold: Anchor) -> Log:
    """Return the face of a buried log."""
    return Log(depth=hold.depth, height=hold.height, length=hold.length)


def holding_left(kind: str, soil: Soil, wet: BoolArray) -> FloatArray:
    """Share of the listed holding [1] in each case (n,), by whether the ground is wet."""
    return np.where(wet, *_shares(kind, soil))


def middle_share(kind: str, soil: Soil) -> float:
    """Middle share of the listed holding [1] (judgement)."""
    return math.sqrt(math.prod(_shares(kind, soil)))


def earth(soil: Soil, wet: BoolArray) -> Earth:
    """Return the ground in each case (n,), by whether it is wet."""
    return Earth(
        unit_weight=np.where(wet, soil.unit_weight_wet, soil.unit_weight_dry),
        cohesion=np.minimum(np.where(wet, soil.cu_soft, soil.cu_stiff), STIFF_CLAY),
        phi=np.where(wet, soil.phi_soft, soil.phi_stiff),
    )


def middle_earth(soil: Soil) -> Earth:
    """Return the ground as it is expected, neither wet nor dry."""
    return Earth(
        unit_weight=(soil.unit_weight_wet + soil.unit_weight_dry) / 2,
        cohesion=min(soil.cu_expected, STIFF_CLAY),
        phi=soil.phi_expected,
    )


def _shares(kind: str, soil: Soil) -> tuple[float, float]:
    wet, dry = SHARES.get((kind, soil.name), SHARES[kind, ""])
    return holding_kept(kind, wet), holding_kept(kind, dry)
