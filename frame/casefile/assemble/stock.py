"""From the [[stock]] sections of a file to what the builder has at hand."""

import math

from frame.casefile.assemble.pipe import build_pipe
from frame.casefile.keys.fields import NO_NUMBER
from frame.casefile.keys.store import StockKeys
from frame.casefile.notes import Notes
from frame.rack.stock import Coil, Stock, StockPiece
from frame.tables import wires


def build_stock(notes: Notes, entries: list[StockKeys]) -> Stock | None:
    """Make the stock; what is assumed of a piece is told once a rack is made of it."""
    if not entries:
        return None
    pieces, coils = [], []
    quiet = Notes(notes.system)
    for entry, keys in enumerate(entries):
        home, count = f"stock[{entry + 1}]", keys.count or 1
        if (keys.pipe is None) == (keys.wire is None):
            what = "has both pipe and wire" if keys.pipe is not None else "has no pipe"
            quiet.wrong(home, what, "write pipe = ..., or wire = ..., one to a section")
        elif keys.wire is not None:
            found = quiet.look_up(wires.find, f"{home}.wire", keys.wire, "1/4 in EHS strand")
            length = math.inf if keys.length is None else keys.length
            coils.append(Coil(wire=found, length=length, count=count, entry=entry))
            if keys.steel is not None:
                quiet.wrong(f"{home}.steel", "says nothing of wire", "leave it out")
        elif keys.pipe is not None:
            if keys.length is None:
                quiet.wrong(f"{home}.length", "is missing", "add the length of a piece")
            pipe = build_pipe(quiet, home, keys.pipe, keys.steel)
            length = NO_NUMBER if keys.length is None else keys.length
            pieces.append(StockPiece(pipe=pipe, length=length, count=count, entry=entry))
    notes.problems.extend(quiet.problems)
    return Stock(pieces=tuple(pieces), coils=tuple(coils))
