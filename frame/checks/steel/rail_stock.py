"""What a rail is cut from: section and steel, in the code's count or as expected."""

from dataclasses import dataclass

from frame.checks.check import Numbers, Step
from frame.tables.channels import Channel

OMEGA = 1.67
SLOTTED, SLOTTED_MIDDLE = 0.85, 0.88
"""Share of the strength left to a channel with a slotted back: trade value 0.85 to 0.90, from
memory of the tables common to channel makers; the lower end in the code's count, the middle where
it is expected."""
TRADE = "MFMA-4 metal framing standard, allowable stress design; from memory of the standard"
UNMARKED = "channel without its maker's mark: 0.6 of the yield stress; from memory of AISI S100"
EXPECTED = "yield as met and plastic shape: judgement"
PLASTIC = 1.15
"""Bending strength over that at first yield to expect of a lipped channel (judgement: its plastic
over its elastic modulus, less what bulges)."""
PLASTIC_TWIST = 1.5
"""Torque at full yield over that at first yield, thin rectangles (sand-heap rule, A. Nadai)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RailStock:
    """What a rail is cut from.

    `yield_stress` and `allowable_stress` in bending [Pa]: 33 and 25 ksi for marked strut channel,
    0.6 of the yield stress for any other; `elastic` and `shear` moduli [Pa]; `slot_factor` is
    `SLOTTED` for a slotted back, 1 for a solid one. `plastic`, `plastic_twist`: full over first
    yield; `safety` factor on twist [1]; `source` of the strength in bending.
    """

    channel: Channel
    yield_stress: Numbers
    allowable_stress: Numbers
    elastic: float
    shear: float
    slot_factor: float = SLOTTED
    plastic: float = 1.0
    plastic_twist: float = 1.0
    safety: float = OMEGA
    source: str = TRADE


def expected_stock(
    channel: Channel, yield_stress: Numbers, elastic: float, shear: float
) -> RailStock:
    """Return the stock expected of a slotted channel: allowable is nominal, without factors.

    `yield_stress` [Pa] as expected of it, cold forming included; moduli [Pa].
    """
    return RailStock(
        channel=channel,
        yield_stress=yield_stress,
        allowable_stress=PLASTIC * yield_stress,
        elastic=elastic,
        shear=shear,
        slot_factor=SLOTTED_MIDDLE,
        plastic=PLASTIC,
        plastic_twist=PLASTIC_TWIST,
        safety=1.0,
        source=EXPECTED,
    )


_FIELDS = {
    "area": ("area of the channel", "m2"),
    "depth": ("depth, square to the slot face", "m"),
    "wall": ("wall thickness", "m"),
    "I1": ("second moment about 1-1", "m4"),
    "I2": ("second moment about 2-2", "m4"),
    "S1": ("section modulus about 1-1", "m3"),
    "S2": ("section modulus about 2-2", "m3"),
    "J": ("torsion constant of the open section", "m4"),
}


def stock_steps(stock: RailStock, *names: str) -> tuple[Step, ...]:
    """Return the steps of a check by hand that name what is known of the stock."""
    channel = stock.channel
    inputs = (
        Step(n, _FIELDS[n][0], "", getattr(channel, n), _FIELDS[n][1], channel.source)
        for n in names
    )
    slots = Step(
        "k_s", "share left by the slots", "", stock.slot_factor, "1", "trade, from memory"
    )
    return (*inputs, slots)
