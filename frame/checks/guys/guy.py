"""Guys: wire against its breaking strength through its terminations, clips, and hardware.

The strength of a guy is that of its weakest part: run `wire` and one `hardware` per fitting in the
line; the anchor has its own file. Tension-only: a slack guy has tension 0 and use 0.
"""

from dataclasses import dataclass, replace

import numpy as np

from frame.checks.check import Check, Numbers, Step
from frame.checks.sheet import Sheet
from frame.errors import CatalogError
from frame.named.limit_state import LimitState
from frame.tables.reader import rows, si
from frame.tables.wires import CLIPS

SAFETY, SAFETY_UNMARKED = 3.0, 4.0
PROOF_RATIO, PROOF_RATIO_UNMARKED = 5.0, 3.0
CLIPS_ON_STRAND = 0.6
TOUCH = 1e-6
HALF_MM = 0.5e-3
SOURCE = "breaking strength x termination (ASTM A475 or MIL-DTL-83420, minimum)"
SOURCE_FACTOR = (
    "safety factor 3 with 0.6 W, 1.8 on W, 4 if unmarked (judgement); TIA-222-F has 2.0 on "
    "service wind, TIA-222-G 1/0.6 on W (from memory)"
)
SOURCE_HARDWARE = (
    "working load limit; 5 times that breaks it if forged and marked (FF-T-791, read)"
)


@dataclass(frozen=True, slots=True)
class Clips:
    """Forged clips at one end: how many, rope turned back [m], torque on the nuts [N m]."""

    count: int
    turn_back: float
    torque: float
    source: str


def clips(diameter: float) -> Clips:
    """Clips for a rope of `diameter` [m], by the next size up in the table (to 1/2 in).

    The table gives the least; a third clip is cheap. Saddle on the live end, retorque after the
    first load.
    """
    table = rows("wire_clips")
    for row in table:
        if si(row, "rope_in") >= diameter - TOUCH:
            return Clips(
                int(row["clips"]),
                si(row, "turn_back_in"),
                si(row, "torque_ft_lb"),
                row["source"],
            )
    raise CatalogError("no clips are listed for wire over 1/2 in; use a smaller wire or more guys")


def termination_efficiency(termination: str, *, strand: bool) -> float:
    """Share of the breaking strength that a termination passes on [1], at most 1.

    Clips bite poorly on stiff 7-wire strand: at most 0.6 there (judgement); use helical grips.
    """
    known = {row["termination"]: si(row, "efficiency") for row in rows("guy_terminations")}
    if termination not in known:
        raise CatalogError(f'"{termination}" is no termination; write one of: {"; ".join(known)}')
    share = known[termination]
    return min(share, CLIPS_ON_STRAND) if strand and termination in CLIPS else share


def working_load(item: str, size: float) -> float:
    """Working load limit [N] of a fitting by name and `size` [m], of the largest listed within.

    A size in whole millimetres is the inch size nearest to it: 19 mm is 3/4 in.
    """
    found = [row for row in rows("guy_hardware") if row["item"] == item]
    whole_mm = abs(round(size * 1000) / 1000 - size) < TOUCH
    slack = HALF_MM if whole_mm else TOUCH
    fits = [row for row in found if si(row, "size_in") <= size + slack]
    if not fits:
        names = sorted({row["item"] for row in rows("guy_hardware")})
        what = "is smaller than any listed" if found else f"is none of: {'; '.join(names)}"
        raise CatalogError(f'fitting "{item}" of {size * 1000:.1f} mm {what}')
    return max(si(row, "working_load_lb") for row in fits)


def eye_bolt_share(angle: Numbers) -> Numbers:
    """Share of the straight-pull load a shouldered eye bolt keeps at `angle` off its axis [rad].

    1 to 5 degrees, 0.55 to 15, 0.25 to 45, nothing beyond (ASME B30.26 practice, from memory, in
    steps on the safe side).
    """
    off = np.degrees(np.abs(angle)) - TOUCH
    return np.select([off <= 5, off <= 15, off <= 45], [1.0, 0.55, 0.25], 0.0)


def wire(
    tension: Numbers, breaking: Numbers, efficiency: Numbers, safety: Numbers = SAFETY
) -> Check:
    """Guy wire: tension <= breaking strength x termination efficiency / safety factor.

    Parameters
    ----------
    tension : whole pull, pretension included [N]; arrays broadcast
    breaking : minimum breaking strength of the wire, rust taken off [N]
    efficiency : of the weaker end, `termination_efficiency` [1]
    safety : 3 for identified wire, 4 for unmarked [1] (judgement). The factor of 3 goes with
        0.6 W, wind of service level, on which ASCE 19 asks 2.2 and TIA-222-F 2.0. On W, of
        strength level, it comes to 1.8, where TIA-222-G has 1/0.6 (all from memory)

    Nominal is breaking x efficiency: the standard's strength is a minimum already. Not covered:
    wire with broken or kinked strands, sheaves and bends tighter than a thimble, fatigue.
    """
    sheet = Sheet()
    sheet.given("T", "tension", tension, "N")
    sheet.given("B", "breaking strength", breaking, "N", SOURCE)
    sheet.given("e", "termination efficiency", efficiency, "1")
    sheet.given("f", "safety factor", safety, "1", SOURCE_FACTOR)
    demand = sheet.work("N", "demand", "max(T, 0)", "N")
    nominal = sheet.work("Rn", "strength", "B * e", "N")
    check = Check(
        name=LimitState.GUY_WIRE,
        demand=demand,
        allowable=sheet.work("R", "allowable", "Rn / f", "N"),
        nominal=nominal,
        unit="N",
        source=f"{SOURCE}; {SOURCE_FACTOR}",
        covered=np.greater(nominal, 0) & np.less_equal(efficiency, 1),
    )
    used = Step("u", "use", "N / R", check.utilisation, "1")
    return replace(check, steps=(*sheet.steps, used))


def hardware(
    tension: Numbers, limit: Numbers, share: Numbers = 1.0, ratio: Numbers = PROOF_RATIO
) -> Check:
    """Turnbuckle, shackle, eye bolt or hook in the line: tension <= working load limit x share.

    Parameters: `tension` [N]; `limit` working load limit [N]; `share` kept under a slanting pull,
    1 for a straight one, else `eye_bolt_share` [1]; `ratio` of breaking to working load: 5 forged
    and marked, 3 for unmarked goods (judgement) [1]. Arrays broadcast. Not covered where the pull
    is too slanting to have a share.
    """
    sheet = Sheet()
    sheet.given("T", "tension", tension, "N")
    sheet.given("W", "working load limit", limit, "N", SOURCE_HARDWARE)
    sheet.given("s", "share under a slanting pull", share, "1")
    sheet.given("n", "breaking to working load", ratio, "1")
    demand = sheet.work("N", "demand", "max(T, 0)", "N")
    allowable = sheet.work("R", "allowable", "W * s", "N")
    check = Check(
        name=LimitState.GUY_HARDWARE,
        demand=demand,
        allowable=allowable,
        nominal=sheet.work("Rn", "strength", "R * n", "N"),
        unit="N",
        source=SOURCE_HARDWARE,
        covered=np.greater(allowable, 0),
    )
    used = Step("u", "use", "N / R", check.utilisation, "1")
    return replace(check, steps=(*sheet.steps, used))
