"""Guy anchor that holds by the ground before it: a log or beam buried level.

A table of the US Army says what loam holds, 3 to 7 ft deep and at pulls up to 45 degrees. Beside
it the anchor is worked out: the wedge of ground in front against a level pull, the prism above
against a lifting one. For a log of 8 by 36 in. in loam taken as a soil of 30 degrees they agree
within a third (see the tests), which neither was fitted to. The wedge gains less with the height
of the face, and in wet sand, where the table is told to keep half, it has less by up to two
fifths.
"""

from dataclasses import dataclass, replace
from functools import cache

import numpy as np
import numpy.typing as npt

from frame.checks.check import Check, Numbers, Step
from frame.checks.guys.anchor import SAFETY, TOUCH, ending
from frame.named.limit_state import LimitState
from frame.tables.reader import rows, si

LONGEST = 10.0
"""Length over height of a log beyond which more length is not counted: it bends (judgement)."""
SHORT = 5.0
"""Length over height from which a log is to be checked as a beam (judgement)."""
BENDS = "a log this long for its height bends: check it as a beam"
SOURCE = "US Army TM 5-5420-278-10 Table 9 (copy read); factor 2 (judgement)"
SOURCE_LEVEL = "deadman as in NAVFAC DM-7.02 and Teng, Foundation Design (from memory)"
SOURCE_DEEP = "deep anchor: 9 cu, or bearing by Prandtl and Reissner (from memory)"
SOURCE_LIFT = "prism on the log with friction on its sides (statics); K0 by Jaky (from memory)"
SOURCE_OBLIQUE = "Meyerhof 1973, oblique pull on anchors: V / Qv + (H / Qh)^2 = 1 (from memory)"
SOURCE_LESSER = f"the lesser of two: {SOURCE}; {SOURCE_LEVEL}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """The face: `depth` of its middle below grade, its `height` and `length` [m]; arrays too."""

    depth: Numbers
    height: Numbers
    length: Numbers


@dataclass(frozen=True, slots=True, kw_only=True)
class Earth:
    """Ground: effective `unit_weight` [N/m3], undrained `cohesion` [Pa] or friction `phi` [rad].

    Wet sand weighs what is left of it under water. Clay has phi 0. Arrays broadcast.
    """

    unit_weight: Numbers
    cohesion: Numbers = 0.0
    phi: Numbers = 0.0


def deadman_holding(depth: Numbers, slope: Numbers) -> npt.NDArray[np.float64]:
    """Return the holding per face area of a beam buried level in loam [Pa], TM 5-5420-278-10.

    `depth` to the middle of the face [m], listed from 3 to 7 ft; `slope` of the pull above level
    [rad], from 1 in 4, as which flatter ones count, to 45 degrees. Between rows by a power of
    depth (which the table follows), between columns straight (below its curve). Beyond its ends it
    is carried on by the power between the two nearest rows, steeper as at 45 degrees (judgement).
    """
    depths, runs, grid = _deadman_table()
    deep, angle = np.broadcast_arrays(np.add(depth, TOUCH), np.subtract(slope, TOUCH))
    log_rows = np.log(depths)
    log_deep = np.log(np.maximum(deep, TOUCH))
    at = np.clip(np.searchsorted(log_rows, log_deep) - 1, 0, len(depths) - 2)
    part = (log_deep - log_rows[at]) / (log_rows[at + 1] - log_rows[at])
    run = np.clip(1 / np.tan(np.clip(angle, 0.05, np.pi / 2)), runs[0], runs[-1])
    value = np.zeros_like(run)
    for n in runs:
        column = np.log([grid[d, n] for d in depths])
        held = np.exp(column[at] + part * (column[at + 1] - column[at]))
        value = value + held * np.maximum(1 - np.abs(run - n), 0)
    return np.asarray(value)


@cache
def _deadman_table() -> tuple[list[float], list[float], dict[tuple[float, float], float]]:
    """Depths [m], runs per rise [1], and the holding [Pa] of each pair of them."""
    table = rows("deadman_holding")
    depths = sorted({si(row, "depth_ft") for row in table})
    runs = sorted({si(row, "run_per_rise") for row in table})
    grid = {(si(r, "depth_ft"), si(r, "run_per_rise")): si(r, "holding_psf") for r in table}
    return depths, runs, grid


def wedge(slope: Numbers, log: Log, earth: Earth) -> tuple[npt.NDArray[np.float64], list[Step]]:
    """Pull [N] at which the ground lets a log go, and the steps by hand.

    Level, Qh: Rankine passive less active pressure over the depth H to the foot of the face, as
    if the face reached up to grade, for its length w; and the friction or cohesion on the ends of
    the wedge, K0 gamma tan(phi) (sqrt Kp + sqrt Ka) H^3 / 3, or cu H^2 (passive wedge alone). At
    most what the ground round a deep face bears, 9 cu + gamma z (Nq - 1). Clay that stands
    by itself behind the face presses not at all. Upwards, Qv: the prism of earth on the log,
    which is taken as wide as the face is high, with half the cohesion and the friction at rest on
    its sides, as filled back by hand (judgement). Level to grade, dry or drained ground; a `slope`
    above level [rad] of 0 to 90 degrees; face wholly below grade. Arrays broadcast.
    """
    c, g, phi = earth.cohesion, earth.unit_weight, earth.phi
    h, z = log.height, log.depth
    w = np.minimum(log.length, np.multiply(LONGEST, h))
    foot, top = np.add(z, np.divide(h, 2)), np.subtract(z, np.divide(h, 2))
    kp = np.tan(np.pi / 4 + np.divide(phi, 2)) ** 2
    rest = 1 - np.sin(phi)
    tan = np.tan(phi)
    stands = np.minimum(2 * np.multiply(c, np.sqrt(kp)) / g, foot)
    passive = np.multiply(g, foot**2) * kp / 2 + 2 * np.multiply(c, foot) * np.sqrt(kp)
    active = np.multiply(g, (foot - stands) ** 2) / kp / 2
    ends = rest * g * tan * (np.sqrt(kp) + 1 / np.sqrt(kp)) * foot**3 / 3 + c * foot**2
    bears = np.multiply(9, c) + np.multiply(g, z) * (np.exp(np.pi * tan) * kp - 1)
    level = np.minimum((passive - active) * w + ends, bears * h * w)
    sides = 2 * (h + w) * top * (g * top * rest * tan / 2 + np.divide(c, 2))
    lift = np.minimum(g * top * h * w + sides, (bears + g * top) * h * w)
    with np.errstate(divide="ignore", invalid="ignore"):
        a, b = np.cos(slope) ** 2 / level**2, np.sin(slope) / lift
        pull = np.where(np.minimum(level, lift) > 0, 2 / (b + np.sqrt(b**2 + 4 * a)), 0.0)
    steps = [
        Step("g", "effective unit weight of the ground", "", g, "N/m3"),
        Step("cu", "cohesion, undrained", "", c, "Pa"),
        Step("phi", "friction angle", "", phi, "rad"),
        Step("B", "slope of the guy above level", "", slope, "rad"),
        Step("w", "length that counts", f"min(l, {LONGEST:g} * h)", w, "m"),
        Step("H", "foot of the face", "z + h / 2", foot, "m"),
        Step("t", "top of the face", "z - h / 2", top, "m"),
        Step("Kp", "passive pressure", "tan(pi / 4 + phi / 2)^2", kp, "1"),
        Step("K0", "pressure at rest", "1 - sin(phi)", rest, "1", SOURCE_LIFT),
        Step("zc", "depth to which it stands", "min(2 * cu * sqrt(Kp) / g, H)", stands, "m"),
        Step("Pp", "passive", "g * H^2 * Kp / 2 + 2 * cu * H * sqrt(Kp)", passive, "N/m"),
        Step("Pa", "active", "g * (H - zc)^2 / Kp / 2", active, "N/m"),
        Step("F", "ends of the wedge", _ENDS, ends, "N", SOURCE_LEVEL),
        Step("q", "bearing of a deep face", _DEEP, bears, "Pa", SOURCE_DEEP),
        Step("Qh", "level", "min((Pp - Pa) * w + F, q * h * w)", level, "N", SOURCE_LEVEL),
        Step("S", "sides of the prism above", _SIDES, sides, "N", SOURCE_LIFT),
        Step("Qv", "lifting", "min(g * t * h * w + S, (q + g * t) * h * w)", lift, "N"),
        Step("Rw", "by the wedge", _OBLIQUE, pull, "N", SOURCE_OBLIQUE),
    ]
    return pull, steps


_ENDS = "K0 * g * tan(phi) * (sqrt(Kp) + 1 / sqrt(Kp)) * H^3 / 3 + cu * H^2"
_DEEP = "9 * cu + g * z * (exp(pi * tan(phi)) * Kp - 1)"
_SIDES = "2 * (h + w) * t * (g * t * K0 * tan(phi) / 2 + cu / 2)"
_OBLIQUE = "2 / (sin(B) / Qv + sqrt((sin(B) / Qv)^2 + 4 * cos(B)^2 / Qh^2))"


def deadman(
    pull: Numbers, slope: Numbers, log: Log, earth: Earth, soil_share: Numbers = 1.0
) -> Check:
    """Deadman: pull <= strength / 2, the lesser of the table and the wedge.

    Parameters: `pull` [N], `slope` of it [rad]; `log`, its length less the slot for the wire;
    `earth` the ground at its weakest; `soil_share` of the table's loam from `ground_share`. Arrays
    broadcast. Two guesses at one strength, neither known to be the better: the factor is kept
    whichever is right (judgement). Beyond what `deadman_holding` lists the table is carried on,
    and to lengths of 10 times the height. Not covered with the face not wholly below grade or
    without a strength of the ground. The manual sizes to breaking strength: these are strengths.
    The log itself has to be checked as a beam.
    """
    own, more = wedge(slope, log, earth)
    holding = deadman_holding(log.depth, slope)
    counted = np.minimum(log.length, np.multiply(LONGEST, log.height))
    nominal = np.minimum(own, holding * log.height * counted * soil_share)
    bends = np.any(log.length > np.multiply(SHORT, log.height) + TOUCH)
    check = Check(
        name=LimitState.ANCHOR_DEADMAN,
        demand=np.abs(pull),
        allowable=nominal / SAFETY,
        nominal=nominal,
        unit="N",
        source=SOURCE_LESSER,
        covered=(np.asarray(log.depth) >= np.divide(log.height, 2)) & (nominal > 0),
        note=BENDS if bool(bends) else "",
    )
    steps = (*_face(log), *more, Step("p", "holding in loam", "", holding, "Pa", SOURCE))
    return replace(check, steps=(*steps, *ending(check, _STRENGTH, pull, soil_share)))


_STRENGTH = "min(Rw, p * h * w * k)"


def expected_deadman(
    pull: Numbers, slope: Numbers, log: Log, earth: Earth, soil_share: Numbers, spread: Numbers
) -> Check:
    """Deadman at its median: pull <= spread x sqrt(wedge x table), two guesses alike (judgement).

    `soil_share` and `earth` at their middles; `spread` [1] about the median. Otherwise as
    `deadman`; nothing is taken off for safety.
    """
    own, more = wedge(slope, log, earth)
    holding = deadman_holding(log.depth, slope)
    table = holding * log.height * np.minimum(log.length, np.multiply(LONGEST, log.height))
    nominal = spread * np.sqrt(own * table * soil_share)
    check = Check(
        name=LimitState.ANCHOR_DEADMAN,
        demand=np.abs(pull),
        allowable=nominal,
        nominal=nominal,
        unit="N",
        source=f"{SOURCE_LEVEL}; {SOURCE}; their geometric mean (judgement)",
        covered=(np.asarray(log.depth) >= np.divide(log.height, 2)) & (own > 0),
    )
    steps = (
        *_face(log),
        *more,
        Step("p", "holding in loam", "", holding, "Pa", SOURCE),
        Step("x", "spread about the median", "", spread, "1"),
    )
    strength = "x * sqrt(Rw * p * h * w * k)"
    return replace(check, steps=(*steps, *ending(check, strength, pull, soil_share, 1.0)))


def _face(log: Log) -> tuple[Step, ...]:
    return (
        Step("h", "height of the face", "", log.height, "m"),
        Step("l", "length of the face", "", log.length, "m"),
        Step("z", "depth to its middle", "", log.depth, "m"),
    )
