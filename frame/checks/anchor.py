"""Guy anchors that hold by the ground: deadman, pickets, screw anchor, grouted eye; proof pull.

Blocks that hold by weight are in `frame.checks.anchor_block`. `pull` is the guy's tension at the
anchor [N], `slope` the guy's angle above level [rad]: uplift is pull sin(slope), drag pull
cos(slope). `soil_share` scales the table to the ground: pass dry and wet as an array. Holding
values are strengths (nominal); `allowable` is half of them unless said. All of it is rough: the
proof pull (`proof_pull`, `proved`) is worth more than any table.
"""

from dataclasses import replace
from functools import cache

import numpy as np
import numpy.typing as npt

from frame.checks.check import Check, Numbers, Step
from frame.errors import CatalogError
from frame.tables.reader import rows, si
from frame.units import DEG

SAFETY = 2.0
PROOF = 1.5
TOUCH = 1e-9
PICKET_SLOPE = 25 * DEG
IN_LINE = 10 * DEG
SOURCE_DEADMAN = "US Army TM 5-5420-278-10 Table 9 (copy read); factor 2 (judgement)"
SOURCE_PICKET = "US Navy and US Army manuals, 700 lb a picket in loam; factor 2 (judgement)"
SOURCE_SCREW = "Q = Kt T, Hoyt and Clemence 1989, ICC-ES AC358 (copies read); factor 2 with torque"
SOURCE_ROCK = "grout bond 100 psi allowable (from memory); strength twice that (judgement)"
SOURCE_PROOF = "24 CFR 3285.402 and state rules: test to 1.5 times the working load (read)"


def deadman_holding(depth: Numbers, slope: Numbers) -> npt.NDArray[np.float64]:
    """Return the holding per face area of a beam buried level in loam [Pa], TM 5-5420-278-10.

    `depth` to the middle of the face [m], 3 to 7 ft; `slope` of the pull above level [rad], from
    45 degrees down; flatter than 1 in 4 counts as 1 in 4. Between rows by a power of depth (which
    the table follows), between columns straight (below its curve). nan outside; over 7 ft as 7 ft.
    """
    depths, runs, grid = _deadman_table()
    deep, angle = np.broadcast_arrays(np.add(depth, TOUCH), np.subtract(slope, TOUCH))
    log_deep = np.log(np.clip(deep, depths[0], depths[-1]))
    run = np.clip(1 / np.tan(np.clip(angle, 0.05, np.pi / 2)), runs[0], runs[-1])
    value = np.zeros_like(run)
    for n in runs:
        column = np.interp(log_deep, np.log(depths), np.log([grid[d, n] for d in depths]))
        value = value + np.exp(column) * np.maximum(1 - np.abs(run - n), 0)
    return np.where((deep >= depths[0]) & (angle <= np.pi / 4), value, np.nan)


@cache
def _deadman_table() -> tuple[list[float], list[float], dict[tuple[float, float], float]]:
    """Depths [m], runs per rise [1], and the holding [Pa] of each pair of them."""
    table = rows("deadman_holding")
    depths = sorted({si(row, "depth_ft") for row in table})
    runs = sorted({si(row, "run_per_rise") for row in table})
    grid = {(si(r, "depth_ft"), si(r, "run_per_rise")): si(r, "holding_psf") for r in table}
    return depths, runs, grid


def ground_share(anchor: str, ground: str) -> float:
    """Share of the listed holding [1] that an `anchor` keeps in a `ground`, by name."""
    known = {r["ground"]: si(r, "share") for r in rows("anchor_ground") if r["anchor"] == anchor}
    return _named(ground, known, f"ground listed for {anchor}")


def deadman(
    pull: Numbers,
    slope: Numbers,
    depth: Numbers,
    height: Numbers,
    length: Numbers,
    soil_share: Numbers = 1.0,
) -> Check:
    """Deadman: pull <= holding x face area x soil share / 2.

    Parameters: `pull` [N], `slope` [rad], `depth` to the middle of the face [m], face `height` and
    `length` [m], less the slot for the wire; `soil_share` from `ground_share`. Arrays broadcast.
    Not covered outside `deadman_holding`'s range or with length over 5 times the height (the log
    would bend; check it as a beam). The manual sizes to breaking strength: these are strengths.
    """
    holding = deadman_holding(depth, slope)
    area = np.multiply(height, length)
    nominal = holding * area * soil_share
    slender = np.asarray(length) <= 5 * np.asarray(height) + TOUCH
    check = Check(
        name="anchor, deadman",
        demand=np.abs(pull),
        allowable=nominal / SAFETY,
        nominal=nominal,
        unit="N",
        source=SOURCE_DEADMAN,
        covered=np.isfinite(holding) & slender & (area > 0),
    )
    steps = (
        Step("h", "height of the face", "", height, "m"),
        Step("w", "length of the face", "", length, "m"),
        Step("A", "face", "h * w", area, "m2"),
        Step("p", "holding in loam at this depth and slope", "", holding, "Pa", SOURCE_DEADMAN),
    )
    return replace(check, steps=(*steps, *_ending(check, "p * A", pull, soil_share)))


def pickets(pull: Numbers, slope: Numbers, holdfast: str, soil_share: Numbers = 1.0) -> Check:
    """Driven pickets lashed one behind the other, "1" to "3-2-1": pull <= table x share / 2.

    `pull` [N]; `slope` [rad]; `holdfast` counts pickets from the guy backwards; `soil_share` [1].
    Pickets 3 to 4 ft in the ground, leaning 15 degrees back. Arrays broadcast. Not covered for a
    pull steeper than 25 degrees above level (judgement): a steep guy draws pickets out.
    """
    table = {row["pickets"]: si(row, "holding_lb") for row in rows("picket_holding")}
    holding = _named(holdfast, table, "listed holdfast")
    nominal = np.multiply(holding, soil_share)
    check = Check(
        name="anchor, pickets",
        demand=np.abs(pull),
        allowable=nominal / SAFETY,
        nominal=nominal,
        unit="N",
        source=SOURCE_PICKET,
        covered=(np.asarray(slope) <= PICKET_SLOPE) & (nominal > 0),
    )
    steps = (Step("p", "holding in loam", "", holding, "N", SOURCE_PICKET),)
    return replace(check, steps=(*steps, *_ending(check, "p", pull, soil_share)))


def torque_factor(shaft: str) -> float:
    """Torque factor Kt [1/m] of a screw anchor by its shaft, as named in the table."""
    known = {row["shaft"]: si(row, "factor_per_ft") for row in rows("screw_torque_factors")}
    return _named(shaft, known, "listed shaft")


def screw(
    pull: Numbers,
    torque: Numbers,
    factor: Numbers,
    helix_depth: Numbers,
    helix: Numbers,
    off_line: Numbers = 0.0,
    soil_share: Numbers = 1.0,
) -> Check:
    """Screw anchor: pull <= Kt T / 2, T the torque read over the last turns.

    Parameters: `pull` [N]; `torque` [N m]; `factor` Kt [1/m]; `helix_depth` of the top helix below
    grade, `helix` diameter [m]; `off_line` angle between guy and shaft [rad]; `soil_share` where
    the ground was drier at the reading than it will be (0.5, judgement). Arrays broadcast. Not
    covered with no torque reading (pull-test it: `proved`), less than 5 diameters deep, or more
    than 10 degrees off the line of the guy (judgement): the shaft bends and cuts through the soil.
    """
    nominal = np.multiply(torque, factor) * soil_share
    deep = np.asarray(helix_depth) >= 5 * np.asarray(helix) - TOUCH
    check = Check(
        name="anchor, screw",
        demand=np.abs(pull),
        allowable=nominal / SAFETY,
        nominal=nominal,
        unit="N",
        source=SOURCE_SCREW,
        covered=(nominal > 0) & deep & (np.abs(off_line) <= IN_LINE),
    )
    steps = (
        Step("t", "torque at the end of driving", "", torque, "N m"),
        Step("Kt", "torque factor", "", factor, "1/m", SOURCE_SCREW),
    )
    return replace(check, steps=(*steps, *_ending(check, "Kt * t", pull, soil_share)))


def rock_eye(pull: Numbers, hole: Numbers, length: Numbers, bond: Numbers) -> Check:
    """Eye grouted into sound rock: pull <= bond x pi x hole x length.

    `pull` [N]; `hole` diameter, grouted `length` [m]; `bond` allowable, 100 psi [Pa]. Arrays
    broadcast. Nominal twice that (judgement). Not covered for length under 12 hole diameters. The
    steel of the eye is checked apart; broken or layered rock is outside.
    """
    allowable = np.pi * np.multiply(hole, length) * bond
    check = Check(
        name="anchor, eye in rock",
        demand=np.abs(pull),
        allowable=allowable,
        nominal=SAFETY * allowable,
        unit="N",
        source=SOURCE_ROCK,
        covered=(np.asarray(length) >= 12 * np.asarray(hole) - TOUCH) & (allowable > 0),
    )
    steps = (
        Step("o", "hole", "", hole, "m"),
        Step("g", "grouted length", "", length, "m"),
        Step("p", "allowable bond", "", bond, "Pa", SOURCE_ROCK),
    )
    return replace(check, steps=(*steps, *_ending(check, "2 * p * pi * o * g", pull, 1.0)))


def proof_pull(working: Numbers, pretension: Numbers = 0.0) -> npt.NDArray[np.float64]:
    """Pull to test an anchor by [N]: 1.5 times the larger of working pull and pretension.

    `working`: greatest pull of the allowable-stress combinations [N]. Pull along the guy, hold ten
    minutes; the anchor may move 50 mm up, 75 mm sideways (24 CFR 3285.402). Test with the ground
    wet, or count a dry test for half (judgement).
    """
    return PROOF * np.maximum(working, pretension)


def proved(pull: Numbers, tested: Numbers, soil_share: Numbers = 1.0) -> Check:
    """Any anchor that stood a test pull: pull <= tested / 1.5; what it stood is its low strength.

    `pull`, `tested` [N]; `soil_share` 0.5 where it was tested dry and must hold wet (judgement).
    Arrays broadcast. Not covered untested.
    """
    nominal = np.multiply(tested, soil_share)
    check = Check(
        name="anchor, tested",
        demand=np.abs(pull),
        allowable=nominal / PROOF,
        nominal=nominal,
        unit="N",
        source=SOURCE_PROOF,
        covered=nominal > 0,
    )
    steps = (Step("p", "pull it stood", "", tested, "N", SOURCE_PROOF),)
    return replace(check, steps=(*steps, *_ending(check, "p", pull, soil_share, PROOF)))


def _ending(
    check: Check, strength: str, pull: Numbers, soil_share: Numbers, safety: float = SAFETY
) -> tuple[Step, ...]:
    return (
        Step("T", "pull of the guy", "", np.abs(pull), "N"),
        Step("k", "share for the ground", "", soil_share, "1"),
        Step("Rn", "strength", f"({strength}) * k", check.nominal, "N", check.source),
        Step("R", "allowable", f"Rn / {safety:g}", check.allowable, "N"),
        Step("u", "use", "T / R", check.utilisation, "1"),
    )


def _named(name: str, known: dict[str, float], kind: str) -> float:
    if name not in known:
        raise CatalogError(f'"{name}" is no {kind}; write one of: {"; ".join(known)}')
    return known[name]
