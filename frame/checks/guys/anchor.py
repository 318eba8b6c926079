"""Guy anchors that hold by the ground: pickets, screw anchor, grouted eye; proof pull.

Logs are in `deadman.py`, blocks that hold by weight in `anchor_block.py`.
`pull` is the guy's tension at the anchor [N], `slope` the guy's angle above level [rad]: uplift is
pull sin(slope), drag pull cos(slope). `soil_share` scales the table to the ground: pass dry and
wet as an array. Holding values are strengths (nominal); `allowable` is half of them unless said.
All of it is rough: the proof pull (`proof_pull`, `proved`) is worth more than any table.
"""

from dataclasses import replace

import numpy as np
import numpy.typing as npt

from frame.checks.check import Check, Numbers, Step
from frame.errors import CatalogError
from frame.named.limit_state import LimitState
from frame.tables.reader import rows, si
from frame.units import DEG

SAFETY = 2.0
PROOF = 1.5
TOUCH = 1e-9
PICKET_SLOPE = 25 * DEG
IN_LINE = 10 * DEG
SOURCE_PICKET = "US Navy and US Army manuals, 700 lb a picket in loam; factor 2 (judgement)"
SOURCE_SCREW = "Q = Kt T, Hoyt and Clemence 1989, ICC-ES AC358 (copies read); factor 2 with torque"
SOURCE_HELIX = "Nc cu A, Nc = 1.2 depth / diameter up to 9, Meyerhof 1973 (from memory)"
SOURCE_ROCK = "grout bond 100 psi allowable (from memory); strength twice that (judgement)"
SOURCE_PROOF = "24 CFR 3285.402 and state rules: test to 1.5 times the working load (read)"


def holding_kept(anchor: str, ground: str) -> float:
    """Share of the listed holding [1] that an `anchor` keeps in a `ground`, by name."""
    known = {r["ground"]: si(r, "share") for r in rows("anchor_ground") if r["anchor"] == anchor}
    return _named(ground, known, f"ground listed for {anchor}")


def pickets(
    pull: Numbers,
    slope: Numbers,
    holdfast: str,
    soil_share: Numbers = 1.0,
    safety: float = SAFETY,
) -> Check:
    """Driven pickets lashed one behind the other, "1" to "3-2-1": pull <= table x share / safety.

    `pull` [N]; `slope` [rad]; `holdfast` counts pickets from the guy backwards; `soil_share` [1].
    Pickets 3 to 4 ft in the ground, leaning 15 degrees back. Arrays broadcast. Not covered for a
    pull steeper than 25 degrees above level (judgement): a steep guy draws pickets out.
    """
    table = {row["pickets"]: si(row, "holding_lb") for row in rows("picket_holding")}
    holding = _named(holdfast, table, "listed holdfast")
    nominal = np.multiply(holding, soil_share)
    check = Check(
        name=LimitState.ANCHOR_PICKETS,
        demand=np.abs(pull),
        allowable=nominal / safety,
        nominal=nominal,
        unit="N",
        source=SOURCE_PICKET,
        covered=(np.asarray(slope) <= PICKET_SLOPE) & (nominal > 0),
    )
    steps = (Step("p", "holding in loam", "", holding, "N", SOURCE_PICKET),)
    return replace(check, steps=(*steps, *ending(check, "p * k", pull, soil_share, safety)))


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
        name=LimitState.ANCHOR_SCREW,
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
    return replace(check, steps=(*steps, *ending(check, "Kt * t * k", pull, soil_share)))


def helix_in_clay(
    cohesion: Numbers, area: Numbers, depth: Numbers, diameter: Numbers
) -> npt.NDArray[np.float64]:
    """Pull [N] at which clay lets a helix go: Nc cu A, Nc = 1.2 depth / diameter, at most 9.

    `cohesion` undrained cu [Pa]; `area` of the helix less its shaft [m2]; `depth` of it below
    grade and `diameter` [m]. Pulled along its shaft. Arrays broadcast. Meyerhof 1973 for round
    anchors in clay (from memory).
    """
    share = np.minimum(1.2 * np.divide(depth, diameter), 9.0)
    return np.asarray(share * cohesion * area)


def expected_screw(
    pull: Numbers,
    torque: Numbers,
    factor: Numbers,
    helix_depth: Numbers,
    helix: Numbers,
    cohesion: Numbers,
    spread: Numbers,
) -> Check:
    """Screw anchor at its median: pull <= spread x Kt T, with no torque read spread x Nc cu A.

    As `screw`, in line with the guy, in the ground that its torque was read in; a helix less than
    5 diameters deep goes by `helix_in_clay` whatever its torque. `cohesion` middle cu [Pa], 0 in
    sand: not covered then without a torque or less deep. `spread` [1]: `anchor` of `expected.csv`.
    Nothing is taken off.
    """
    area = np.pi / 4 * np.square(helix)
    deep = np.asarray(helix_depth) >= 5 * np.asarray(helix) - TOUCH
    clay = helix_in_clay(cohesion, area, helix_depth, helix)
    turned = np.multiply(torque, factor)
    own = np.where(deep & (turned > 0), turned, clay)
    nominal = spread * own
    check = Check(
        name=LimitState.ANCHOR_SCREW,
        demand=np.abs(pull),
        allowable=nominal,
        nominal=nominal,
        unit="N",
        source=f"{SOURCE_SCREW}; {SOURCE_HELIX}",
        covered=own > 0,
    )
    steps = (
        Step("t", "torque at the end of driving", "", torque, "N m"),
        Step("Kt", "torque factor", "", factor, "1/m", SOURCE_SCREW),
        Step("z", "depth of the helix", "", helix_depth, "m"),
        Step("d", "helix", "", helix, "m"),
        Step("cu", "cohesion, undrained", "", cohesion, "Pa"),
        Step("Qc", "in clay", "min(1.2 * z / d, 9) * cu * pi / 4 * d^2", clay, "N", SOURCE_HELIX),
        Step("Q", "by the torque where it was read deep enough, else in clay", "", own, "N"),
        Step("x", "spread about the median", "", spread, "1"),
    )
    return replace(check, steps=(*steps, *ending(check, "x * Q * k", pull, 1.0, 1.0)))


def rock_eye(
    pull: Numbers, hole: Numbers, length: Numbers, bond: Numbers, safety: float = SAFETY
) -> Check:
    """Eye grouted into sound rock: pull <= 2 x bond x pi x hole x length / safety.

    `pull` [N]; `hole` diameter, grouted `length` [m]; `bond` allowable, 100 psi [Pa]. Arrays
    broadcast. Nominal twice that (judgement). Not covered for length under 12 hole diameters. The
    steel of the eye is checked apart; broken or layered rock is outside.
    """
    nominal = 2 * np.pi * np.multiply(hole, length) * bond
    check = Check(
        name=LimitState.ANCHOR_ROCK,
        demand=np.abs(pull),
        allowable=nominal / safety,
        nominal=nominal,
        unit="N",
        source=SOURCE_ROCK,
        covered=(np.asarray(length) >= 12 * np.asarray(hole) - TOUCH) & (nominal > 0),
    )
    steps = (
        Step("o", "hole", "", hole, "m"),
        Step("g", "grouted length", "", length, "m"),
        Step("p", "allowable bond", "", bond, "Pa", SOURCE_ROCK),
    )
    return replace(
        check, steps=(*steps, *ending(check, "2 * p * pi * o * g * k", pull, 1.0, safety))
    )


def proof_pull(working: Numbers, pretension: Numbers) -> npt.NDArray[np.float64]:
    """Pull to test an anchor by [N]: 1.5 times the larger of working pull and pretension.

    `working`: greatest pull of the allowable-stress combinations [N]. Pull along the guy, hold ten
    minutes; the anchor may move 50 mm up, 75 mm sideways (24 CFR 3285.402). Test with the ground
    wet, or count a dry test for half (judgement).
    """
    return PROOF * np.maximum(working, pretension)


def proved(
    pull: Numbers, tested: Numbers, soil_share: Numbers = 1.0, safety: float = PROOF
) -> Check:
    """Any anchor that stood a test pull: pull <= tested / 1.5; what it stood is its low strength.

    `pull`, `tested` [N]; `soil_share` 0.5 where it was tested dry and must hold wet (judgement).
    Arrays broadcast. Not covered untested.
    """
    nominal = np.multiply(tested, soil_share)
    check = Check(
        name=LimitState.ANCHOR_TESTED,
        demand=np.abs(pull),
        allowable=nominal / safety,
        nominal=nominal,
        unit="N",
        source=SOURCE_PROOF,
        covered=nominal > 0,
    )
    steps = (Step("p", "pull it stood", "", tested, "N", SOURCE_PROOF),)
    return replace(check, steps=(*steps, *ending(check, "p * k", pull, soil_share, safety)))


def ending(
    check: Check, strength: str, pull: Numbers, soil_share: Numbers, safety: float = SAFETY
) -> tuple[Step, ...]:
    """Return the last steps of an anchor's check, from pull and formula of strength to use."""
    return (
        Step("T", "pull of the guy", "", np.abs(pull), "N"),
        Step("k", "share for the ground", "", soil_share, "1"),
        Step("Rn", "strength", strength, check.nominal, "N", check.source),
        Step("R", "allowable", f"Rn / {safety:g}", check.allowable, "N"),
        Step("u", "use", "T / R", check.utilisation, "1"),
    )


def _named(name: str, known: dict[str, float], kind: str) -> float:
    if name not in known:
        raise CatalogError(f'"{name}" is no {kind}; write one of: {"; ".join(known)}')
    return known[name]
