"""Post in the ground, pushed sideways: the code's presumptive rule.

The code's rule is an *allowable* with no strength behind it. Its pressures are those at which a
post hardly moves (1806.3.4 doubles them where half an inch at grade does no harm), so it is told
as what keeps the post from leaning; `frame.checks.ground.post_ultimate` has the strength.

Signs. `shear` and `moment` are what the post hands to the ground at grade, each the size of its
resultant over x and y, taken as acting in one plane and turning the post the same
way. Where the moment in truth opposes the shear (a guyed post may do so), that is the safe side:
ground that bears a pair acting together bears the same pair opposed with more to spare. No height
h = M / P is ever formed, so P = 0 (h infinite) and h < 0 need no case of their own.
"""

from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Kind, Numbers, Step
from frame.named.backfill import CONCRETE
from frame.named.limit_state import LimitState
from frame.units import FT

PRESSURE_DEPTH = 12 * FT
SOURCE = "IBC 2021 1807.3.2.1, eq. 18-1 (copy of the code read), solved for the load"
SOURCE_HELD = "IBC 2021 1807.3.2.2, eq. 18-2 and 18-3 (copy of the code read), solved for the load"
TAMPED_SPREAD = 1.25
NO_STRENGTH = "a presumptive allowable; no strength behind it, so it never says what lets go"


def doubled(lateral: Numbers, *, posts: int, guyed: bool) -> Numbers:
    """Lateral bearing per depth [Pa/m], times 2 for an isolated pole (IBC 2021 1806.3.4).

    Allowed only where 1/2 in (13 mm) of motion at grade does no harm: one free-standing post. A
    guyed rack is harmed (guys go slack), and posts that share a beam are not isolated. From memory
    of the clause.
    """
    return 2.0 * lateral if posts == 1 and not guyed else lateral


def bearing_width(od: Numbers, hole: Numbers, backfill: str) -> Numbers:
    """Width b that the code counts on [m]: the hole if full of concrete, else the pipe.

    IBC 2021 1807.3.3 knows concrete (2000 psi), clean sand compacted in layers and controlled
    low-strength material. Tamped earth is not among them: the pipe alone counts (judgement).
    """
    return hole if backfill == CONCRETE else od


def expected_width(od: Numbers, hole: Numbers, backfill: str) -> Numbers:
    """Width [m] that bears as is to be expected: the hole of concrete, more than a tamped-in pipe.

    Tamped earth spreads the pipe's push by `TAMPED_SPREAD`, never beyond the hole (judgement).
    """
    return hole if backfill == CONCRETE else np.minimum(np.multiply(TAMPED_SPREAD, od), hole)


def presumptive_free(
    shear: Numbers,
    moment: Numbers,
    depth: Numbers,
    width: Numbers,
    lateral: Numbers,
    ignored: Numbers = 0.0,
    cap: Numbers = PRESSURE_DEPTH,
) -> Check:
    """Post free at grade (nonconstrained), IBC 2021 1807.3.2.1, eq. 18-1.

    The code gives d = A/2 (1 + sqrt(1 + 4.36 h/A)), A = 2.34 P / (S1 b). Squaring
    2d/A - 1 = sqrt(1 + 4.36 h/A) leaves A (d + 1.09 h) = d^2, that is
    P d + 1.09 M = S1 b d^2 / 2.34 with M = P h: straight in P and M, and true for P = 0.

    Parameters
    ----------
    shear, moment : resultant at grade, allowable-stress combination [N], [N m]
    depth : of the post below grade [m]
    width : diameter, or diagonal of a square post, that bears [m]
    lateral : presumptive lateral bearing per depth, Table 1806.2, `doubled` or not [Pa/m]
    ignored : depth a of the top that does not push back (frost, dug or dried ground) [m]; d is
        what is left below it and the moment is carried down to it. The top still weighs on the
        ground below, so pressure goes on growing from grade: S1 = lateral (a + d / 3)
    cap : pressure grows no further than at cap / 3. The text caps d at 12 ft for the pressure (the
        default, cautious); the reading that caps d / 3 is cap = 36 ft. They agree up to 12 ft.

    With it S1 b d^2 is twice the moment about the foot of a pressure lateral * z that grows from
    grade and acts below `ignored` alone, whatever a: the code's own proportion at a = 0.

    Returns demand P d + 1.09 M and allowable S1 b d^2 / 2.34 [N m]; arrays broadcast. Not covered
    where nothing is left below the ignored top or the ground has no lateral bearing (fill, peat).
    """
    shear, moment = np.abs(shear), np.abs(moment)
    embedded = np.maximum(np.subtract(depth, ignored), 0.0)
    below = moment + shear * ignored
    pressure = lateral * np.minimum(ignored + embedded / 3, np.divide(cap, 3))
    demand = shear * embedded + 1.09 * below
    allowable = pressure * width * embedded**2 / 2.34
    check = Check(
        name=LimitState.POST_SIDEWAYS_CODED,
        demand=demand,
        allowable=allowable,
        nominal=np.full_like(allowable, np.inf),
        unit="N m",
        source=SOURCE,
        covered=(embedded > 0) & (np.asarray(lateral) > 0),
        note=NO_STRENGTH,
        kind=Kind.LEANS,
    )
    steps = (
        Step("P", "shear at grade", "", shear, "N"),
        Step("M", "moment at grade", "", moment, "N m"),
        Step("L", "depth of the post below grade", "", depth, "m"),
        Step("a", "top left out", "", ignored, "m"),
        Step("b", "width that bears", "", width, "m"),
        Step("s", "lateral bearing per depth", "", lateral, "Pa/m", "IBC 2021 Table 1806.2"),
        Step("c", "depth at which pressure stops growing", "", cap, "m"),
        Step("d", "depth that counts", "max(L - a, 0)", embedded, "m"),
        Step("M1", "moment where counting begins", "M + P * a", below, "N m"),
        Step("S1", "pressure a third of it down", "s * min(a + d / 3, c / 3)", pressure, "Pa"),
        Step("D", "demand, P d + 1.09 M", "P * d + 1.09 * M1", demand, "N m", SOURCE),
        Step("R", "allowable", "S1 * b * d^2 / 2.34", allowable, "N m", SOURCE),
        Step("u", "use", "D / R", check.utilisation, "1"),
    )
    return replace(check, steps=steps)


def presumptive_held(
    moment: Numbers,
    depth: Numbers,
    width: Numbers,
    lateral: Numbers,
    cap: Numbers = PRESSURE_DEPTH,
) -> Check:
    """Post held at grade (constrained), IBC 2021 1807.3.2.2, eq. 18-2 and 18-3.

    d = sqrt(4.25 P h / (S3 b)), or with Mg for P h: Mg = S3 b d^2 / 4.25, S3 = lateral * min(d,
    cap), the pressure at the foot. Only for a rigid slab or pavement all round the post at grade,
    itself checked for the shear it takes: a slab that ends at the post or cracks does not hold it.

    Parameters: `moment` at grade, resultant [N m]; `depth` below the slab, `width` [m]; `lateral`
    [Pa/m]; `cap` [m]. Demand and allowable in N m; arrays broadcast.
    """
    moment = np.abs(moment)
    pressure = np.multiply(lateral, np.minimum(depth, cap))
    allowable = pressure * width * np.square(depth) / 4.25
    check = Check(
        name=LimitState.POST_SIDEWAYS_SLAB,
        demand=moment,
        allowable=allowable,
        nominal=np.full_like(allowable, np.inf),
        unit="N m",
        source=SOURCE_HELD,
        covered=(np.asarray(depth) > 0) & (np.asarray(lateral) > 0),
        note=NO_STRENGTH,
        kind=Kind.LEANS,
    )
    steps = (
        Step("Mg", "moment at grade", "", moment, "N m"),
        Step("d", "depth below the slab", "", depth, "m"),
        Step("b", "width that bears", "", width, "m"),
        Step("s", "lateral bearing per depth", "", lateral, "Pa/m", "IBC 2021 Table 1806.2"),
        Step("c", "depth at which pressure stops growing", "", cap, "m"),
        Step("S3", "pressure at the foot", "s * min(d, c)", pressure, "Pa"),
        Step("R", "allowable", "S3 * b * d^2 / 4.25", allowable, "N m", SOURCE_HELD),
        Step("u", "use", "Mg / R", check.utilisation, "1"),
    )
    return replace(check, steps=steps)
