"""Keys of what things cost and of what the builder has: prices and stock."""

from typing import Annotated

from frame.casefile.fields import Text
from frame.casefile.money import EACH, FREE, HOUR, LENGTH, WEIGHT, Price
from frame.casefile.section import Section, key


class PriceKeys(Section):
    """What things cost, in one currency; what is left out counts as nothing."""

    currency: Annotated[str, Text("a currency", "dollars", 12)] | None = key(
        "word or letters to print behind an amount", None
    )
    pipe: Annotated[float, Price(WEIGHT)] = key("pipe for post, sleeve, beam and braces", FREE)
    rail: Annotated[float, Price(LENGTH)] = key("channel for rails and tie rails", FREE)
    wire: Annotated[float, Price(LENGTH)] = key("wire of the guys", FREE)
    fitting: Annotated[float, Price(EACH)] = key("fittings of one guy: turnbuckle, clips", FREE)
    anchor: Annotated[float, Price(EACH)] = key("one ground anchor of a guy", FREE)
    work: Annotated[float, Price(HOUR)] = key("an hour of cutting, welding and digging", FREE)
