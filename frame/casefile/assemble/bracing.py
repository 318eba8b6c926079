"""From the bracing sections of a file to ties, knees, stays and guys."""

from collections import Counter

from frame.casefile.assemble.anchorage import build_anchor, build_fitting
from frame.casefile.assemble.pipe import build_pipe
from frame.casefile.keys.lines import GuyKeys
from frame.casefile.keys.rack import KneeKeys, StayKeys
from frame.casefile.keys.rails import TieKeys
from frame.casefile.notes import Notes
from frame.rack.beam import TieRails
from frame.rack.brace import Knees, Stays
from frame.rack.guy import POST_TOP, Guys
from frame.rack.rack import BARE, KNEES, STAYS, TIES
from frame.tables import channels, wires
from frame.units import parse

GROUP = {"post top": "post-top guys", "beam ends": "beam-end guys", "rail corners": "corner guys"}
TAKEN = (KNEES, TIES, STAYS, BARE, "all")
HAND_PULL = "200 lb"
"""Pretension a builder reaches by hand and short guys need: common practice, no source."""
SNUG = "50 lb"
"""Pull that takes the sag out of a guy and no more: judgement. Tighter guys from the beam ends and
the rail corners pull beam and rails out of shape."""
MOST_OF_BREAKING = 0.10
"""Pretension over breaking strength of mast guys, from memory of TIA-222."""


def build_ties(notes: Notes, keys: TieKeys | None, rail: channels.Channel) -> TieRails | None:
    """Make the tie rails, of the rails' channel unless given."""
    if keys is None:
        return None
    channel = rail
    if keys.channel is None:
        notes.assume("ties.channel", rail.name)
    else:
        channel = notes.look_up(channels.find, "ties.channel", keys.channel, rail.name)
    if not keys.at:
        notes.wrong("ties.at", "is empty", 'write ["lower", "upper"], or leave [ties] out')
    at = tuple(end for end in ("lower", "upper") if end in keys.at)
    return TieRails(channel=channel, at=at, fitted=keys.fitted)


def build_knees(notes: Notes, keys: KneeKeys | None) -> Knees | None:
    """Make the knee braces."""
    if keys is None:
        return None
    pipe = build_pipe(notes, "knees", keys.pipe, keys.steel)
    return Knees(pipe=pipe, drop=keys.drop, reach=keys.reach, ends=keys.ends, fitted=keys.fitted)


def build_stays(notes: Notes, keys: StayKeys | None) -> Stays | None:
    """Make the stays."""
    if keys is None:
        return None
    pipe = build_pipe(notes, "stays", keys.pipe, keys.steel)
    return Stays(pipe=pipe, attach=keys.attach, out=keys.out, along=keys.along, fitted=keys.fitted)


def build_guys(notes: Notes, groups: list[GuyKeys]) -> tuple[Guys, ...]:
    """Make the guy groups, each with a name of its own."""
    names = group_names(groups)
    check_names(notes, groups, names)
    return tuple(
        build_group(notes, f"guys[{i}]" if len(groups) > 1 else "guys", keys, name)
        for i, (keys, name) in enumerate(zip(groups, names, strict=True), 1)
    )


def build_group(notes: Notes, home: str, keys: GuyKeys, name: str) -> Guys:
    """Make one group; unless given, post-top guys are pulled tight by hand, others are snug."""
    wire = notes.look_up(wires.find, f"{home}.wire", keys.wire, "1/4 in EHS strand")
    pull = keys.pretension
    if pull is None:
        tight = keys.attach == POST_TOP
        usual = parse(HAND_PULL if tight else SNUG, "force")
        pull = min(usual, MOST_OF_BREAKING * wire.breaking)
        shown = notes.show(pull, "force") + (", a good pull by hand" if tight else ", snug")
        notes.assume(f"{home}.pretension", shown, "guys.pretension" if tight else "guys.snug")
    if pull > wire.breaking / 2:
        what = f"{notes.show(pull, 'force')} is over half of what the wire breaks at"
        right = f"{wire.name} breaks at {notes.show(wire.breaking, 'force')}; 8 to 15 % is usual"
        notes.wrong(f"{home}.pretension", what, right)
    kind, hold = build_anchor(notes, home, keys.anchor)
    return Guys(
        name=name,
        attach=keys.attach,
        wire=wire,
        out=keys.out,
        along=keys.along,
        pretension=pull,
        anchor=kind,
        hold=hold,
        termination=keys.termination,
        fitting=keys.fitting,
        fitting_size=build_fitting(notes, home, keys),
        rise=keys.rise,
    )


def group_names(groups: list[GuyKeys]) -> tuple[str, ...]:
    """Name each group: "guys" if it is the only one, else by where it starts."""
    if len(groups) == 1:
        return (groups[0].name or "guys",)
    seen: Counter[str] = Counter()
    names = []
    for group in groups:
        name = group.name or GROUP[group.attach]
        seen[name] += 1
        again = seen[name] > 1 and not group.name
        names.append(f"{name} {seen[name]}" if again else name)
    return tuple(names)


def check_names(notes: Notes, groups: list[GuyKeys], names: tuple[str, ...]) -> None:
    """Refuse names that an answer or a list of bracings could mistake."""
    for number, (group, name) in enumerate(zip(groups, names, strict=True), 1):
        home = f"guys[{number}]" if len(groups) > 1 else "guys"
        if name.lower() in TAKEN or "," in name or "+" in name:
            right = "choose a name without comma or plus that is no other bracing's"
            notes.wrong(f"{home}.name", f'"{name}" cannot name a group', right)
        elif names.count(name) > 1 and group.name and number > names.index(name) + 1:
            notes.wrong(f"{home}.name", f'"{name}" names two groups', "give each its own name")
