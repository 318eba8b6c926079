"""From the anchor and fitting keys of a guy group to what holds it."""

import math

from frame.casefile.keys.lines import AnchorKeys, GuyKeys
from frame.casefile.notes import Notes
from frame.rack.guy import BLOCK, DEADMAN, NO_FITTING, PICKETS, ROCK, SCREW, Anchor
from frame.tables.reader import rows, si
from frame.tables.soils import CONCRETE_UNIT_WEIGHT
from frame.units import parse

FITTING_SIZE = "3/8 in"
ASSUMED = {
    DEADMAN: {"anchor.depth": "3 ft", "anchor.height": "8 in", "anchor.length": "3 ft"},
    BLOCK: {"anchor.weight": "300 lb", "anchor.height": "", "anchor.length": ""},
    SCREW: {
        "anchor.torque": "150 ft-lb",
        "anchor.shaft": "round, to 2-7/8 in",
        "anchor.depth": "3 ft",
        "anchor.size": "6 in",
    },
    PICKETS: {"anchor.pickets": "1"},
    ROCK: {"anchor.size": "1-1/2 in", "anchor.length": "24 in"},
}
"""What is taken of an anchor not described, by kind: the least that is common (judgement)."""
KINDS = {"weight": "weight", "torque": "torque"}
ALWAYS = ("kind", "tested", "tested_in")


def build_anchor(notes: Notes, home: str, keys: str | AnchorKeys) -> tuple[str, Anchor]:
    """Make the anchor of a group: its kind, and what holds it, small unless it is described."""
    given = AnchorKeys(kind=keys) if isinstance(keys, str) else keys
    home, kind = f"{home}.anchor", given.kind
    wanted = {name.partition(".")[2] for name in ASSUMED[kind]}
    for name in sorted(given.model_fields_set - wanted - set(ALWAYS)):
        right = f"an anchor of this kind is described by {', '.join(sorted(wanted))}"
        notes.wrong(f"{home}.{name}", f"says nothing of the kind {kind}", right)
    tested, wet = _tested(notes, home, given)
    if tested > 0:
        return kind, Anchor(tested=tested, tested_wet=wet)
    if kind == PICKETS:
        return kind, Anchor(holdfast=_word(notes, home, "anchor.pickets", given))
    shaft = _word(notes, home, "anchor.shaft", given) if kind == SCREW else ""
    sizes = {
        name.partition(".")[2]: _size(notes, home, name, given)
        for name, text in ASSUMED[kind].items()
        if text and name != "anchor.shaft"
    }
    if kind == BLOCK:
        sizes |= _cube(notes, home, sizes["weight"], given)
    depth, height, length = (sizes.get(name, 0.0) for name in ("depth", "height", "length"))
    weight, torque, size = (sizes.get(name, 0.0) for name in ("weight", "torque", "size"))
    return kind, Anchor(
        shaft=shaft,
        depth=depth,
        height=height,
        length=length,
        weight=weight,
        torque=torque,
        size=size,
    )


def build_fitting(notes: Notes, home: str, keys: GuyKeys) -> float:
    """Size of the weakest fitting in the line [m], 0 if there is none."""
    if keys.fitting == NO_FITTING:
        return 0.0
    size = keys.fitting_size
    if size is None:
        size = parse(FITTING_SIZE, "length")
        notes.assume(f"{home}.fitting_size", notes.show(size), "guys.fitting_size")
    least = min(si(r, "size_in") for r in rows("guy_hardware") if r["item"] == keys.fitting)
    if size < least - 1e-6:
        what = f"{notes.show(size)} is smaller than any {keys.fitting} listed"
        notes.wrong(f"{home}.fitting_size", what, f"give {notes.show(least)} or more")
    return size


def _word(notes: Notes, home: str, name: str, given: AnchorKeys) -> str:
    """Return a word the file gives, or the one that is assumed of this kind of anchor, noted."""
    short, assumed = name.partition(".")[2], ASSUMED[given.kind][name]
    value: str | None = getattr(given, short)
    if value is None:
        notes.assume(f"{home}.{short}", assumed, name)
    return value or assumed


def _size(notes: Notes, home: str, name: str, given: AnchorKeys) -> float:
    """Return a quantity the file gives, or the one that is assumed of this kind, noted."""
    short = name.partition(".")[2]
    value: float | None = getattr(given, short)
    if value is not None:
        return value
    kind = KINDS.get(short, "length")
    number = float(parse(ASSUMED[given.kind][name], kind))
    notes.assume(f"{home}.{short}", notes.show(number, kind), name)
    return number


def _cube(notes: Notes, home: str, weight: float, given: AnchorKeys) -> dict[str, float]:
    """Fill in the size of a block: a cube of concrete of its weight, the eye on its top [m]."""
    side = math.cbrt(weight / CONCRETE_UNIT_WEIGHT)
    sizes = {"height": given.height, "length": given.length}
    for name, value in sizes.items():
        if value is None:
            shown = f"{notes.show(side)}, a cube of its weight"
            notes.assume(f"{home}.{name}", shown, f"anchor.{name}")
    return {name: side if value is None else value for name, value in sizes.items()}


def _tested(notes: Notes, home: str, given: AnchorKeys) -> tuple[float, bool]:
    """Pull that one anchor stood [N], 0 if none was tested, and whether the ground was wet."""
    if given.tested is None:
        if given.tested_in is not None:
            notes.wrong(f"{home}.tested", "is missing", "give the pull that the anchor stood")
        return 0.0, False
    if given.tested_in is None:
        notes.assume(f"{home}.tested_in", "dry", "anchor.tested_in")
    return given.tested, given.tested_in == "wet"
