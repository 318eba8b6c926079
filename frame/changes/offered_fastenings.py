"""The sizes a search may choose from for lock, sleeve, welds, lugs, U-bolts, clamps."""

import math
from collections.abc import Iterator

from frame.casefile.write import Edits, Value, Where
from frame.changes.series import Rung, Series, Thing, lengths, series, written_length
from frame.checks.fasteners.u_bolt import torque_for
from frame.named.aim import Aim
from frame.named.limit_state import LimitState
from frame.named.part import PartKind, Spot
from frame.parts.rails.u_bolts import proof_load
from frame.parts.steel.grip import most_torque
from frame.rack.guy import RAIL_CORNERS
from frame.rack.knee_foot import deepest_sleeve_foot
from frame.rack.rack import KNEES, STAYS, Rack
from frame.rack.sleeve import SetBolts
from frame.units import FT_LB, INCH, METRIC, MM, show

SHARE_OF_PROOF = 0.9
"""Part of its proof load up to which a U-bolt may be tightened [1] (judgement)."""
RODS = {
    False: tuple(INCH * s for s in (3 / 8, 1 / 2, 5 / 8, 3 / 4)),
    True: (10 * MM, 12 * MM, 16 * MM, 20 * MM),
}
PINS = {
    False: tuple(INCH * s for s in (1 / 2, 5 / 8, 3 / 4, 7 / 8, 1, 5 / 4)),
    True: tuple(MM * s for s in (12, 16, 20, 24, 30)),
}
CLAMPS = {False: tuple(INCH * s for s in (1 / 4, 5 / 16, 3 / 8)), True: (6 * MM, 8 * MM, 10 * MM)}
"""Diameters offered [m], inch and metric."""
STOPS: Where = ("rails", "tilt_stops")
"""Where the file says at how many rails stops are."""
WIDEST_PIN = 1 / 3
"""Widest pin over the post's diameter [1]: the post keeps half its wall beside it (judgement)."""
MOST_BOLTS = 2
"""Set bolts in a sleeve before a pin is the better answer (judgement)."""
MOST_U_BOLTS = 3
"""U-bolts that find room side by side on a rail (judgement)."""
LEGS = tuple(INCH * n / 16 for n in (3, 4, 5, 6))
SLEEVES = {
    False: tuple(INCH * n for n in (6, 8, 10, 12, 14, 16, 20, 24)),
    True: tuple(MM * n for n in (150, 200, 250, 300, 400, 500, 600)),
}
"""Lengths of sleeves that are cut [m], inch and metric (judgement)."""
SHARE_OF_SLEEVE = 0.5
"""Longest sleeve over the height of the post [1] (judgement)."""
WALLS = tuple(INCH * n / 16 for n in (3, 4, 5, 6, 8))
SHIMMED = {False: (INCH / 32, "1/32 in"), True: (MM, "1 mm")}
"""Play left by a shim all round [m] and as written, inch and metric (judgement)."""
LUGS = ((4, 3 / 8, 5 / 8), (6, 1 / 2, 3 / 4))
"""Length, plate and bolt of lugs [in]."""
AT_LUG = (PartKind.WALL, PartKind.WELD)
"""What a longer lug spreads a pull over."""
AT_TOP = Aim(kind=PartKind.WALL, on=PartKind.POST, at=Spot.TOP)
ON_SLEEVE = Aim(kind=PartKind.WALL, on=PartKind.SLEEVE)
OF_STOP = (Aim(kind=PartKind.STOP), *(Aim(kind=k, at=PartKind.STOP) for k in AT_LUG))
"""Checks of stops against tilting, which get what the U-bolts do not grip."""
AT_SLEEVE = (Aim(kind=PartKind.WALL, on=PartKind.POST, at=Spot.SLEEVE_FOOT), AT_TOP, ON_SLEEVE)


def fastening_series(rack: Rack, bracing: tuple[str, ...]) -> Iterator[Series]:
    """Every series of fastenings; welds, lugs, clamps and set bolts are only made stronger."""
    leg, many = rack.welds.leg, "sleeves" if len(rack.posts.positions) > 1 else "a sleeve"
    sleeve = rack.sleeve
    yield _lock(rack)
    yield lengths(
        rack,
        Thing.WELDS_LEG,
        ("welds", "leg"),
        "fillets of {} leg all round",
        leg,
        [s for s in LEGS if s > leg],
        (Aim(kind=PartKind.WELD),),
    )
    room = _sleeves(rack, _room(rack))
    where: Where = ("sleeve", "length")
    yield lengths(
        rack, Thing.SLEEVE_LENGTH, where, f"{many} {{}} long", sleeve.length, room, AT_SLEEVE
    )
    helps = (ON_SLEEVE, Aim(kind=PartKind.WELD, at=PartKind.SLEEVE), AT_TOP)
    where = ("sleeve", "wall")
    yield lengths(
        rack, Thing.SLEEVE_WALL, where, f"{many} with a wall of {{}}", sleeve.wall, WALLS, helps
    )
    left, tight = SHIMMED[rack.units == METRIC]
    if sleeve.clearance > 1.5 * left:
        edits: Edits = {("sleeve", "play"): tight}
        described = Rung(words="the sleeve's play as described", edits={})
        ends = (left, sleeve.clearance)
        less, more = (c / sleeve.length * max(rack.arms) for c in ends)
        words = (
            f"a shim in the sleeve to {tight}: beam ends play "
            f"{show(less, 'movement', rack.units)}, not {show(more, 'movement', rack.units)}"
        )
        shim = Rung(words=words, edits=edits)
        yield Series(thing=Thing.CLEARANCE, rungs=(described, shim), start=0, helps=())
    yield _u_bolts(rack)
    yield _stops(rack)
    yield _clamps(rack)
    on_lugs = hung(rack, bracing)
    if on_lugs:
        yield _lugs(rack, on_lugs)


def longest_sleeve(rack: Rack) -> float:
    """Return the longest sleeve [m] that is offered for a rack without knees, or its own."""
    return max((rack.sleeve.length, *_sleeves(rack, _free(rack))))


def _sleeves(rack: Rack, room: float) -> list[float]:
    """Return the lengths offered [m] that leave some of so much `room` [m]."""
    longest = SHARE_OF_SLEEVE * rack.posts.height
    return [s for s in SLEEVES[rack.units == METRIC] if s < room and s <= longest]


def _room(rack: Rack) -> float:
    """Return the length [m] that a sleeve may have at most."""
    if not rack.knees:
        return _free(rack)
    return min(_free(rack), deepest_sleeve_foot(rack, rack.knees) - rack.beam.pipe.od / 2)


def _free(rack: Rack) -> float:
    """Return what a post shows under its beam [m]."""
    return rack.posts.height - rack.beam.pipe.od / 2


def _lock(rack: Rack) -> Series:
    """From the set bolts as described to more and tighter ones, then to a through pin."""
    lock = rack.sleeve.lock
    helps = (
        Aim(kind=PartKind.SET_BOLT),
        Aim(kind=PartKind.PIN),
        Aim(kind=PartKind.WALL, at=Spot.PIN),
    )
    keys = ("set_bolts", "set_bolt", "set_bolt_torque", "jam_nuts")
    gone: dict[Where, None] = {("sleeve", key): None for key in keys}
    pins = []
    for size in PINS[rack.units == METRIC]:
        text = written_length(size, rack.units)
        edits: Edits = {**gone, ("sleeve", "pin"): text}
        words = f"{text} pin through sleeve and post"
        if size <= WIDEST_PIN * rack.posts.pipe.od:
            pins.append((size, Rung(words=words, edits=edits)))
    if not isinstance(lock, SetBolts):
        described = Rung(words="the pin as described", edits={})
        return series(Thing.LOCK, described, pins, lock.diameter, helps)
    torque = torque_words(max(most_torque(rack), lock.torque), rack.units)
    bolts = [
        Rung(
            words=f"{count} set bolt{'s' * (count > 1)} at {torque} with jam nuts",
            edits={
                ("sleeve", "set_bolt_torque"): torque,
                ("sleeve", "jam_nuts"): "yes",
                ("sleeve", "set_bolts"): count,
            },
        )
        for count in range(lock.count, max(lock.count, MOST_BOLTS) + 1)
    ]
    described = Rung(words="the set bolts as described", edits={})
    rungs = (described, *bolts, *(rung for _, rung in pins))
    return Series(thing=Thing.LOCK, rungs=rungs, start=0, helps=helps)


def torque_words(torque: float, units: str) -> str:
    """Write a torque [N m] for a rack file, rounded down."""
    if units == METRIC:
        return f"{math.floor(torque)} N m"
    return f"{math.floor(torque / FT_LB)} ft-lb"


def _u_bolts(rack: Rack) -> Series:
    """Rods and counts by the grip they give, tightened to nine tenths of their proof load."""
    now = rack.rails.u_bolts
    made: list[tuple[float, Rung]] = []
    for rod in RODS[rack.units == METRIC]:
        pull = SHARE_OF_PROOF * proof_load(rod)
        size = written_length(rod, rack.units)
        tight = torque_words(float(torque_for(pull, rod)), rack.units)
        for count in range(1, MOST_U_BOLTS + 1):
            edits: Edits = {
                ("rails", "u_bolt"): size,
                ("rails", "u_bolts"): count,
                ("rails", "u_bolt_torque"): tight,
            }
            words = f"{count} U-bolt{'s' * (count > 1)} of {size} on each rail, nuts at {tight}"
            made.append((count * pull, Rung(words=words, edits=edits)))
    most = proof_load(now.diameter)
    grip = now.count * min(now.torque / float(torque_for(1.0, now.diameter)), most)
    described = Rung(words="the U-bolts as described", edits={})
    helps = (Aim(kind=PartKind.U_BOLT), *OF_STOP)
    return series(Thing.U_BOLTS, described, made, grip, helps)


def _stops(rack: Rack) -> Series:
    """Weld stops against tilting to the beam, at two rails, then at more.

    Told by number: a step that comes before it may have set more rails.
    """
    now, many = rack.rails.stops, len(rack.rails.positions)
    made = [(count, stops_of(count)) for count in sorted({2, (many + 1) // 2, many} - {1})]
    described = Rung(words="tilt stops as described", edits={})
    helps = (Aim(kind=PartKind.U_BOLT, states=(LimitState.U_BOLT_GRIP,)), *OF_STOP)
    return series(Thing.TILT_STOP, described, made, now, helps)


def stops_of(count: int) -> Rung:
    """Return the rung of stops at so many rails."""
    return Rung(words=f"weld {count} tilt stops", edits={STOPS: count})


def _clamps(rack: Rack) -> Series:
    """Panel clamps with bigger bolts."""
    now = rack.panels.clamp_bolt
    sizes = [s for s in CLAMPS[rack.units == METRIC] if s > now]
    where: Where = ("panels", "clamp_bolt")
    words = "panel clamps with bolts of {}"
    return lengths(rack, Thing.CLAMPS, where, words, now, sizes, (Aim(kind=PartKind.CLAMP),))


def hung(rack: Rack, bracing: tuple[str, ...]) -> tuple[str, ...]:
    """Return the bracing that hangs on lugs, or on bolts as thick as theirs."""
    pinned = rack.knees is not None and rack.knees.ends == "pinned"
    stiff = ((KNEES, pinned), (STAYS, rack.stays is not None))
    names = (*(name for name, there in stiff if there), *(g.name for g in rack.guys))
    return tuple(name for name in names if name in bracing)


def _helped_by_lugs(rack: Rack, on_lugs: tuple[str, ...]) -> Iterator[Aim]:
    for name, kind in ((KNEES, PartKind.KNEE), (STAYS, PartKind.STAY)):
        if name in on_lugs:
            yield Aim(kind=kind, states=(LimitState.PULL,))
            yield from (Aim(kind=k, at=kind) for k in (*AT_LUG, PartKind.LUG))
    if STAYS in on_lugs:
        yield Aim(kind=PartKind.RAIL_END, at=PartKind.STAY)
    for group in rack.guys_in(on_lugs):
        if group.attach == RAIL_CORNERS:
            yield Aim(kind=PartKind.RAIL_END, group=group.name)
        else:
            yield Aim(kind=PartKind.LUG, group=group.name)
            yield from (Aim(kind=k, at=PartKind.LUG) for k in AT_LUG)


def _lugs(rack: Rack, on_lugs: tuple[str, ...]) -> Series:
    """Longer and thicker lugs with bigger bolts, told of the bracing where one alone hangs on."""
    welds, rungs = rack.welds, [Rung(words="the lugs as described", edits={})]
    whose = f"{on_lugs[0]}: " if len(on_lugs) == 1 else ""
    for length, plate, bolt in LUGS:
        sizes = {"lug_length": length, "lug_plate": plate, "lug_bolt": bolt}
        if length * INCH > welds.lug_length and plate * INCH >= welds.lug_plate:
            edits: dict[Where, Value] = {
                ("welds", key): written_length(size * INCH, rack.units)
                for key, size in sizes.items()
            }
            long, thick, thread = (str(value) for value in edits.values())
            words = f"{whose}lugs {long} long of {thick} plate with {thread} bolts"
            rungs.append(Rung(words=words, edits=edits))
    helps = tuple(_helped_by_lugs(rack, on_lugs))
    return Series(thing=Thing.LUGS, rungs=tuple(rungs), start=0, helps=helps)
