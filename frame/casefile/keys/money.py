"""Prices as a builder writes them: "1.20 per lb", "0.60 per ft", "6 per bag", "25 per hour"."""

import re
from dataclasses import dataclass
from typing import Any

from frame import units
from frame.casefile.keys.fields import (
    MENDED,
    NO_NUMBER,
    Leaf,
    complaint,
    printable,
    wrong_value_words,
)
from frame.units import FT

FREE = "free"
EACH, HOUR, WEIGHT, LENGTH, VOLUME = "each", "hour", "weight", "length", "volume"
EXAMPLES = {
    WEIGHT: '"1.20 per lb" or "2.60 per kg"',
    LENGTH: '"0.60 per ft" or "2 per m"',
    EACH: '"35 each"',
    HOUR: '"25 per hour"',
    VOLUME: '"10 per cu ft", "6 per bag" or "180 per m3"',
}
BAG = 0.6 * FT**3
"""Concrete that a bag of 80 lb of dry mix makes [m3] (common practice, no source)."""
VOLUMES = {
    FT**3: ("cu ft", "cubic foot", "ft3"),
    BAG: ("bag",),
    (3 * FT) ** 3: ("cu yd", "cubic yard", "yd3"),
    1.0: ("m3", "cubic meter", "cubic metre"),
}
HIGHEST = 1e6
_AMOUNT = r"([+-]?(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?|[+-]?\.\d+)"
_PRICE = re.compile(rf"{_AMOUNT} ?(?:(each)|(?:per|/) ?(.+))", re.IGNORECASE)


@dataclass(frozen=True)
class Price(Leaf):
    """As text or "free": per weight [1/N], length [1/m], volume [1/m3], hour [1/h]; each."""

    kind: str

    def describe(self) -> dict[str, Any]:
        """Describe the value to an editor."""
        return {"type": "string", "examples": [*re.findall(r'"([^"]+)"', self._right()), FREE]}

    def read(self, value: Any) -> Any:
        """Read one price."""
        if value is MENDED:
            return NO_NUMBER
        if not isinstance(value, str):
            raise complaint(wrong_value_words(value), f"write it in quotes, as {self._right()}")
        text = " ".join(value.split())
        if text.lower() == FREE:
            return 0.0
        found = _PRICE.fullmatch(re.sub(r"[$\u00a3\u00a5\u20ac]", "", text).strip())
        per = self._per(found) if found else None
        if not found or per is None:
            raise complaint(f'"{printable(text)}" is no price of this kind', self._advice())
        amount = float(found[1].replace(",", ""))
        if amount < 0:
            raise complaint(f'"{printable(text)}" is negative', f'give nil or more, or "{FREE}"')
        if amount > HIGHEST:
            raise complaint(f'"{printable(text)}" is beyond any price', self._advice())
        return amount / per

    def _per(self, found: re.Match[str]) -> float | None:
        """How much of SI the price is for; None where it is for something else."""
        unit = "each" if found[2] else found[3].lower()
        if self.kind in (EACH, HOUR):
            return 1.0 if unit in (self.kind, "piece" if self.kind == EACH else "h") else None
        if self.kind == VOLUME:
            return next((size for size, names in VOLUMES.items() if unit in names), None)
        try:
            size = float(units.parse(f"1 {unit}", self.kind))
        except units.UnitError:
            return None
        return size if size > 0 else None

    def _right(self) -> str:
        return EXAMPLES[self.kind]

    def _advice(self) -> str:
        return f'write it as {self._right()}, or "{FREE}"'
