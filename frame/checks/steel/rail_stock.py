"""What a rail is cut from: section and steel, in the code's count or as expected."""

from dataclasses import dataclass, replace

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
    `SLOTTED` for a slotted back, 1 for a solid one, less where it is drilled; `slot_source` where
    that is from. `plastic`, `plastic_twist`: full over first yield; `safety` factor on twist [1];
    `source` of the strength in bending.
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
    slot_source: str = "trade, from memory"


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


def drilled(stock: RailStock, hole: float) -> RailStock:
    """Return the stock with holes [m] for the bolts of a stop, where they leave less than slots.

    The bolts are where the slots of the back are not: the lesser of both counts.
    """
    share = drilled_share(stock.channel, hole)
    if share >= stock.slot_factor:
        return stock
    return replace(stock, slot_factor=share, slot_source="net section at the bolts of a stop")


def drilled_share(channel: Channel, hole: float) -> float:
    """Share of S1 left by a hole [m] through both side walls, in their middle [1].

    Steiner; of two channels back to back the lower one is drilled, a quarter of the depth off the
    middle, and the axis moves away from the hole. A single channel loses next to nothing there.
    """
    gone, away = 2 * hole * channel.wall, channel.depth / 2 - channel.side_middle
    left = channel.area - gone
    shift = gone * away / left
    inertia = channel.I1 - gone * (away**2 + hole**2 / 12) - left * shift**2
    share: float = inertia / channel.I1 / (1 + 2 * shift / channel.depth)
    return share


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
        "k_s", "share left by slots and holes", "", stock.slot_factor, "1", stock.slot_source
    )
    return (*inputs, slots)
