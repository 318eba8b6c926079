"""The sizes a search may choose from, for guys: wire, fittings, anchors and their place."""

from collections.abc import Iterator

from frame.casefile.write import Edits
from frame.changes.series import Rung, Series, Thing, series, written_length
from frame.checks.guys.guy import working_load
from frame.named.aim import Aim, Helps
from frame.named.limit_state import LimitState
from frame.named.part import PartKind
from frame.rack.guy import DEADMAN, NO_FITTING, POST_TOP, SCREW, Guys
from frame.rack.rack import Rack
from frame.tables import wires
from frame.tables.reader import rows, si
from frame.units import FT, INCH, METRIC, MM

RUNS = (0.7, 1.0, 1.3)
"""Anchors away from the attachment, level, over its height [1]."""
BURIED = {
    False: tuple(FT * n for n in (3, 4, 5, 6)),
    True: tuple(MM * n for n in (900, 1200, 1500, 1800)),
}
"""Depths of deadmen [m], inch and metric."""
LONGER = (1.0, 1.5)
"""Lengths of deadmen over the one described [1]."""
DEADMEN = {False: (10 * INCH, 3 * FT), True: (250 * MM, 900 * MM)}
"""Deadmen that take the place of screw anchors: face and least length [m] (judgement)."""
EYE_OR_JAW = "turnbuckle, eye or jaw"


def line_series(
    rack: Rack, bracing: tuple[str, ...], offered: tuple[wires.Wire, ...]
) -> Iterator[Series]:
    """Every series of the guys that are fitted; anchors tested by a pull stay as they are."""
    for number, group in enumerate(rack.guys, 1):
        if group.name not in bracing:
            continue
        section = f"guys {number}" if len(rack.guys) > 1 else "guys"
        yield _wire(section, group, offered)
        if group.fitting != NO_FITTING:
            yield _fittings(rack, section, group)
        if group.anchor in (DEADMAN, SCREW) and not group.hold.tested:
            yield _anchors(rack, section, group)
        yield _place(rack, section, group)


def _guys(group: Guys, *states: LimitState) -> Aim:
    return Aim(kind=PartKind.GUY, group=group.name, states=states)


def _held(group: Guys) -> Aim:
    return Aim(kind=PartKind.ANCHOR, group=group.name)


def _upright(group: Guys) -> Helps:
    """Return what stiff guys at the post top help beside themselves: the post leans less."""
    if group.attach != POST_TOP:
        return ()
    return (Aim(kind=PartKind.POST, states=(LimitState.POST_LEANING,)),)


def _wire(section: str, group: Guys, offered: tuple[wires.Wire, ...]) -> Series:
    """Extra high strength strand, or rope of the construction described, by strength."""
    strand = group.wire.strand
    made = [
        (w.breaking, Rung(words=f"{group.name}: {w.name}", edits={(section, "wire"): w.name}))
        for w in offered
        if (strand and w.extra_high) or (not strand and w.construction in _kinds(group))
    ]
    described = Rung(words=f"{group.name}: {group.wire.name}", edits={})
    helps = (_guys(group, LimitState.GUY_WIRE), *_upright(group))
    return series(Thing.WIRE, described, made, group.wire.breaking, helps, group.name)


def _kinds(group: Guys) -> tuple[str, ...]:
    made = group.wire.construction
    return ("7x19 rope",) if made == wires.UNMARKED else (made,)


def _fittings(rack: Rack, section: str, group: Guys) -> Series:
    """Fittings by working load, of the kind described or turnbuckles without hooks."""
    made = []
    for row in rows("guy_hardware"):
        if row["item"] in (group.fitting, EYE_OR_JAW):
            size = written_length(si(row, "size_in"), rack.units)
            edits: Edits = {(section, "fitting"): row["item"], (section, "fitting_size"): size}
            words = f"{group.name}: {row['item']}, {size}"
            made.append((si(row, "working_load_lb"), Rung(words=words, edits=edits)))
    now = working_load(group.fitting, group.fitting_size)
    described = Rung(words=f"{group.name}: {group.fitting} as described", edits={})
    helps = (_guys(group, LimitState.GUY_HARDWARE),)
    return series(Thing.FITTINGS, described, made, now, helps, group.name)


def _anchors(rack: Rack, section: str, group: Guys) -> Series:
    """From screw anchors as described to deadmen, or to bigger and deeper deadmen."""
    hold, screw = group.hold, group.anchor == SCREW
    high, long = DEADMEN[rack.units == METRIC] if screw else (hold.height, hold.length)
    made: list[tuple[float, Rung]] = []
    for depth in BURIED[rack.units == METRIC]:
        for longer in LONGER:
            keys = {
                "kind": DEADMAN,
                "depth": written_length(depth, rack.units),
                "height": written_length(high, rack.units),
                "length": written_length(longer * long, rack.units),
            }
            words = f"{group.name}: deadmen {keys['length']} long, {keys['depth']} down"
            edits: Edits = {(section, "anchor"): keys}
            made.append((depth**2 * longer * long, Rung(words=words, edits=edits)))
    described = Rung(words=f"{group.name}: {group.anchor}s as described", edits={})
    now = 0.0 if screw else hold.depth**2 * hold.length
    return series(Thing.ANCHORS, described, made, now, (_held(group),), group.name)


def _place(rack: Rack, section: str, group: Guys) -> Series:
    """Anchors further out: flatter guys are pulled less for the same push."""
    made, step = [], 50 * MM if rack.units == METRIC else INCH
    for part in RUNS:
        run = round(part * rack.posts.height / 2**0.5 / step) * step
        text = written_length(run, rack.units)
        edits: Edits = {(section, "out"): text, (section, "along"): text}
        words = f"{group.name}: anchors {text} out and {text} along"
        made.append((run, Rung(words=words, edits=edits)))
    described = Rung(words=f"{group.name}: anchors where described", edits={})
    helps = (_guys(group), _held(group), *_upright(group))
    return series(Thing.GUYS_PLACE, described, made, group.out, helps, group.name)
