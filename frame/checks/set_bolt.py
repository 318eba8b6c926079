"""Set bolts through the sleeve: their grip on the post against swing and lift.

Forces N, torques N m, lengths m; numbers or arrays. Holding forces are those of set screws on
hardened shafts, so on a pipe wall only the low table counts; the band low to high is wide.
"""

from dataclasses import dataclass

import numpy as np

from frame.checks.check import Check, Numbers, Step, over

GRIP_FACTOR = 2.0
"""Factor on slip under steady load; 4 to 8 is usual where the joint shakes (Shigley)."""

SECOND_BOLT_LOW, SECOND_BOLT_HIGH = 0.3, 1.0
"""What each further bolt adds to the first: 30 % at 90 degrees to it, up to 100 % (Shigley)."""

SOURCE = (
    "holding force of set screws by seating torque, Shigley Mechanical Engineering Design, "
    "Table 7-4 (high) and a public chart of half of it (low), both from memory; in proportion to "
    "torque (judgement); factor 2"
)
NOTE = (
    "counts bolts kept tight: a jam nut on each, torque checked after a week and every year; "
    "without it half the grip is a fair guess. A jam nut stops loosening, it adds no grip"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grip:
    """The set bolts of one sleeve.

    `torque` on each [N m]; `seating_torque` at which one bolt holds `holding_low` to
    `holding_high` [N] along the post's surface; `post_od` [m]; `kept`, the share of the torque
    still there (1 with jam nuts and yearly checks, 0.5 without; judgement).
    """

    count: Numbers
    torque: Numbers
    seating_torque: Numbers
    holding_low: Numbers
    holding_high: Numbers
    post_od: Numbers
    kept: Numbers = 1.0

    @property
    def seated(self) -> Numbers:
        """Share of the table's holding force reached [1]; more torque than the table's adds 0."""
        share: Numbers = np.minimum(self.kept * self.torque / self.seating_torque, 1.0)
        return share

    def force(self, holding: Numbers, further: float) -> Numbers:
        """Add the bolts up [N]: `further` is what each one after the first adds to it."""
        together = np.minimum(self.count, 1) + further * np.maximum(np.subtract(self.count, 1), 0)
        total: Numbers = holding * self.seated * together
        return total

    @property
    def low(self) -> Numbers:
        """Least torque about the post that slips the sleeve [N m]."""
        return self.force(self.holding_low, SECOND_BOLT_LOW) * self.post_od / 2

    @property
    def high(self) -> Numbers:
        """Most that the bolts might hold [N m]."""
        return self.force(self.holding_high, SECOND_BOLT_HIGH) * self.post_od / 2


def set_bolt_grip(swing: Numbers, grip: Grip, lift: Numbers = 0.0) -> Check:
    """Check the grip of set bolts against `swing` about the post [N m] with `lift` [N] along it.

    Friction resists the resultant of both at the post's surface; as a torque,
    sqrt(swing^2 + (lift D/2)^2) against the grip. Nominal is the low band; `extra` holds both.
    """
    T, U, R = np.abs(swing), np.maximum(lift, 0.0), grip.post_od / 2
    demand = np.hypot(T, U * R)
    low = grip.low
    allowable = low / GRIP_FACTOR
    add = f"(min(n, 1) + {SECOND_BOLT_LOW}*max(n - 1, 0))"
    steps = (
        Step("T", "swing about the post", "", T, "N m"),
        Step("U", "lift along the post", "", U, "N"),
        Step("R", "radius of the post", "", R, "m"),
        Step("Td", "both, as a torque", "sqrt(T^2 + (U*R)^2)", demand, "N m"),
        Step("n", "number of bolts", "", grip.count, ""),
        Step("tq", "torque on each bolt", "", grip.torque, "N m"),
        Step("kept", "share of it that lasts", "", grip.kept, ""),
        Step("t0", "torque of the table", "", grip.seating_torque, "N m"),
        Step("H", "holding force of one bolt at it, low", "", grip.holding_low, "N"),
        Step("share", "share reached", "min(kept*tq/t0, 1)", grip.seated, ""),
        Step("G", "grip, low", f"H*share*{add}*R", low, "N m"),
        Step("Ga", "allowable", f"G/{GRIP_FACTOR}", allowable, "N m"),
        Step("use", "use of the grip", "Td/Ga", over(demand, allowable), ""),
    )
    return Check(
        name="grip against swing",
        demand=demand,
        allowable=allowable,
        nominal=low,
        unit="N m",
        source=SOURCE,
        steps=steps,
        note=NOTE,
        extra={"grip_low": low, "grip_high": grip.high},
    )


def friction_grip(
    torque: Numbers,
    diameter: Numbers,
    post_od: Numbers,
    friction: Numbers,
    nut_factor: float = 0.2,
) -> Numbers:
    """Torque [N m] one bolt holds by plain friction: a second, rougher way to the same number.

    The bolt thrusts with torque / (nut_factor diameter) and the sleeve's far side bears with the
    same force: two faces, each friction * thrust * D/2 (Shigley Eq. 8-27 for the thrust).
    """
    return 2 * friction * torque / (nut_factor * diameter) * post_od / 2
