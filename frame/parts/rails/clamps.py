"""Panel clamps and the panels themselves under local gusts."""

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Step
from frame.checks.fasteners.clamp import corner_uplift, hold_down, panel_rating
from frame.named.part import CLAMP, PANEL
from frame.parts.checker import PartCheck
from frame.parts.rails.local_wind import LocalWind, edge, local_wind
from frame.solved.situation import Situation
from frame.tables.bolts import find_grade
from frame.tables.channels import find_nut

END_CLAMP_LEVER = 2.0
"""Pull on the bolt of an end clamp over the lift of the panel: the bolt halfway between the
panel's edge and the heel of the clamp (judgement)."""


def clamp_checks(now: Situation) -> Iterator[PartCheck]:
    """Lift at the worst corner of the corner panel; the panel's rating where it is given."""
    wind = local_wind(now)
    yield CLAMP, _clamp(now, wind)
    if now.rack.panels.rating is not None:
        yield PANEL, _rating(now, wind)


def _clamp(now: Situation, wind: LocalWind) -> Check:
    """One end clamp under a quarter of a panel; a clamp shared by two panels has no lever.

    Expected is what is listed of its bolt and nut, as clamps scatter. Not covered with a bolt that
    no channel nut is listed for.
    """
    rack, tilt = now.rack, now.block.frame.ideal.tilt
    panels, steel = rack.panels, find_grade("unmarked")
    area = panels.width * panels.height
    _, lift = wind.coefficients(tilt, "corner", area / 4, edge(rack, tilt))
    weight = panels.weight * math.cos(tilt) * wind.dead
    uplift = corner_uplift(wind.pressure, lift, area, weight)
    nut = find_nut(rack.rails.channel, panels.clamp_bolt)
    check = hold_down(
        uplift,
        END_CLAMP_LEVER,
        math.pi / 4 * panels.clamp_bolt**2,
        steel.expected_fu if now.median else steel.fu,
        nut.pull_out if nut else np.nan,
        now.expected("clamp") if now.median else None,
    )
    lead = (
        Step("q", "velocity pressure with Kd, G and the wind's factor", "", wind.pressure, "Pa"),
        Step("C_N", "net pressure coefficient at a corner", "", lift, "1", wind.source),
        Step("A_p", "area of a panel", "", area, "m2"),
        Step("W", "weight square to it with the dead factor", "", weight, "N"),
        check.steps[0]._replace(formula="max((-C_N*q*A_p - W)/4, 0)"),
    )
    return replace(check, steps=(*lead, *check.steps[1:]))


def _rating(now: Situation, wind: LocalWind) -> Check:
    """Pressure on the corner panel, pressing or lifting, whichever is more.

    Expected is that it breaks at some more than it was tested for.
    """
    rack, tilt = now.rack, now.block.frame.ideal.tilt
    area = rack.panels.width * rack.panels.height
    both = wind.coefficients(tilt, "corner", area, edge(rack, tilt))
    worst = np.maximum(*(np.abs(c) for c in both))
    rating = rack.panels.rating
    assert rating is not None
    expected = now.expected("panel") if now.median else None
    return panel_rating(wind.pressure, worst, rating, source=wind.source, expected=expected)
