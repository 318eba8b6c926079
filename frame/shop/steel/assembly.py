"""Which place on which piece comes to which: the joints of a rack, in the order of raising."""

from collections.abc import Iterator

from frame.idealize.posts import post_name
from frame.rack.rack import Rack
from frame.shop.steel.braces import SIDES, WELDED, knee_mark
from frame.shop.steel.cut_list import sleeve_mark
from frame.shop.steel.pieces import (
    BOLT,
    COPED,
    FAR_END,
    HOOK_END,
    PIN,
    SEAT,
    U_BOLT,
    Joint,
    Piece,
    PiecePlace,
)
from frame.shop.steel.straps import LOWER, MIDDLE, UPPER


def joints(rack: Rack, pieces: tuple[Piece, ...]) -> tuple[Joint, ...]:
    """Return every joint between the pieces of a rack, and of stays with the ground.

    `rack` only gives the stand-off of what is laid on the beam; what is fitted is read off the
    pieces.
    """
    letters = {p.name: p for p in pieces}
    found = [*_sleeves(rack, letters), *_rails(rack, letters)]
    if "knee" in letters:
        found += _knees(rack, letters)
    return tuple(found)


def _sleeves(rack: Rack, by_name: dict[str, Piece]) -> Iterator[Joint]:
    sleeve, beam = (by_name[n].letter for n in ("sleeve", "beam"))
    for i in range(len(rack.posts.positions)):
        number, mark = i + 1, sleeve_mark(rack, i)
        yield Joint(
            name=f"{mark} over the {post_name(rack, i)}",
            kind=SEAT,
            first=_on_post(rack, by_name, i, "foot of the sleeve"),
            second=PiecePlace(letter=sleeve, number=number, where=HOOK_END),
        )
        yield Joint(
            name=f"{mark} under the beam",
            kind=COPED,
            first=PiecePlace(letter=beam, number=1, where=mark),
            second=PiecePlace(letter=sleeve, number=number, where=FAR_END),
        )


def _rails(rack: Rack, by_name: dict[str, Piece]) -> Iterator[Joint]:
    rail, beam, tie = by_name["rail"], by_name["beam"], by_name.get("tie rail")
    ties = rack.ties
    for i in range(rail.count):
        yield Joint(
            name=f"U-bolt of rail {i + 1}",
            kind=U_BOLT,
            first=PiecePlace(letter=beam.letter, number=1, where=f"rail {i + 1}"),
            second=PiecePlace(letter=rail.letter, number=i + 1, where="middle of the beam"),
            apart=rack.stand_off,
        )
    yield from _straps(rack, by_name)
    if tie is None or ties is None:
        return
    apart = (rail.od + tie.od) / 2
    for j, where in enumerate(ties.at):
        for i in range(rail.count):
            yield Joint(
                name=f"{where} tie under rail {i + 1}",
                kind=BOLT,
                first=PiecePlace(
                    letter=rail.letter, number=i + 1, where=f"bolt of the {where} tie"
                ),
                second=PiecePlace(letter=tie.letter, number=j + 1, where=f"rail {i + 1}"),
                apart=apart,
            )


def _straps(rack: Rack, by_name: dict[str, Piece]) -> Iterator[Joint]:
    rail, strap = by_name["rail"], by_name.get("strap")
    if strap is None:
        return
    for i in range(rail.count):
        for j, leg in enumerate((LOWER, UPPER)):
            yield Joint(
                name=f"{leg.split(', ')[1].replace('leg', 'strap')} across rail {i + 1}",
                kind=BOLT,
                first=PiecePlace(letter=rail.letter, number=i + 1, where=leg),
                second=PiecePlace(letter=strap.letter, number=2 * i + j + 1, where=MIDDLE),
                apart=(rail.od + strap.wall) / 2,
            )


def _knees(rack: Rack, by_name: dict[str, Piece]) -> Iterator[Joint]:
    beam, knee = (by_name[n].letter for n in ("beam", "knee"))
    welded = rack.knees is not None and rack.knees.ends == WELDED
    kind = COPED if welded else PIN
    for i in range(len(rack.posts.positions)):
        for j, (side, _) in enumerate(SIDES):
            number = 2 * i + j + 1
            on_beam = knee_mark(rack, i, side, "beam")
            for carrier, place, end in (
                ("post", _on_post(rack, by_name, i, knee_mark(rack, i, side, "post")), HOOK_END),
                ("beam", PiecePlace(letter=beam, number=1, where=on_beam), FAR_END),
            ):
                yield Joint(
                    name=f"knee {number} on the {carrier}",
                    kind=kind,
                    first=place,
                    second=PiecePlace(letter=knee, number=number, where=end),
                )


def _on_post(rack: Rack, by_name: dict[str, Piece], index: int, where: str) -> PiecePlace:
    """Return a place on a post, from 0: number 1 of its own letter where each has its own."""
    own = by_name.get(post_name(rack, index))
    if own is not None:
        return PiecePlace(letter=own.letter, number=1, where=where)
    return PiecePlace(letter=by_name["post"].letter, number=index + 1, where=where)
