"""What things cost."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """Prices in one `currency` (a word, "" if none is named), 0 where nothing is paid.

    `pipe` by weight [1/N], `rail` channel and `wire` by length [1/m], the `fitting` of a guy and
    an `anchor` each, `concrete` by volume [1/m3], `rod` of pins and U-bolts by weight [1/N], an
    hour of `work` [1/h].
    """

    currency: str
    pipe: float
    rail: float
    wire: float
    fitting: float
    anchor: float
    concrete: float
    rod: float
    work: float
