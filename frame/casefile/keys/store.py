"""Keys of what things cost and of what the builder has: prices and stock."""

from typing import Annotated

from frame.casefile.keys.fields import Count, Span, Text
from frame.casefile.keys.money import EACH, FREE, HOUR, LENGTH, VOLUME, WEIGHT, Price
from frame.casefile.keys.pipes import STEEL_HELP, Pipe, SteelName
from frame.casefile.keys.section import Length, Section, Wall, key


class PriceKeys(Section):
    """What things cost, in one currency; what is left out counts as nothing."""

    currency: Annotated[str, Text("a currency", "dollars", 12)] | None = key(
        "word or letters to print behind an amount", None
    )
    pipe: Annotated[float, Price(WEIGHT)] = key("pipe for post, sleeve, beam and braces", FREE)
    rail: Annotated[float, Price(LENGTH)] = key(
        "one channel 1-5/8 in deep for rails and tie rails; back to back takes two", FREE
    )
    wire: Annotated[float, Price(LENGTH)] = key("wire of the guys", FREE)
    fitting: Annotated[float, Price(EACH)] = key("fittings of one guy: turnbuckle, clips", FREE)
    anchor: Annotated[float, Price(EACH)] = key("one ground anchor of a guy", FREE)
    concrete: Annotated[float, Price(VOLUME)] = key("concrete round the posts", FREE)
    rod: Annotated[float, Price(WEIGHT)] = key("rod for pins and U-bolts", FREE)
    work: Annotated[float, Price(HOUR)] = key("an hour of cutting, welding and digging", FREE)


class StockKeys(Section):
    """Equal pieces of pipe that the builder has, or a coil of wire."""

    pipe: Pipe | None = key("the pipe: catalog name, { od, wall } or { od, weight }", None)
    steel: SteelName | None = key(STEEL_HELP, None)
    wire: Annotated[str, Text("the name of a wire", "1/4 in EHS strand")] | None = key(
        "the wire, in place of a pipe", None
    )
    length: Length | None = key("length of a piece; of wire, all of it if left out", None)
    count: Annotated[int, Count(1, 500)] | None = key("how many such pieces, 1 if left out", None)


class StickKeys(Section):
    """Equal odd lengths of pipe that pieces are cut from."""

    pipe: Pipe = key("the pipe: catalog name, { od, wall } or { od, weight }")
    length: Length = key("length of one")
    steel: SteelName | None = key(STEEL_HELP, None)
    count: Annotated[int, Count(1, 500)] | None = key("how many such, 1 if left out", None)
    wall: Wall | None = key("wall as measured on these, where the catalog has another", None)
    cost: Annotated[float, Price(EACH)] | None = key("what one costs, free if left out", None)
    bad: list[Annotated[tuple[float, float], Span()]] | None = key(
        "stretches not to be used, from one end", None
    )
