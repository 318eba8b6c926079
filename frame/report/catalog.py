"""The catalog as text: every entry with its numbers and its source."""

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from rich.box import SIMPLE_HEAD
from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from frame.geometry.tube import Tube
from frame.tables import channels, pipes, soils, steels, wires
from frame.tables.lookup import plain_name
from frame.units import INCH, METRIC, US, head_unit, show_number
from frame.units.parse import plain_number

KINDS = ("pipe", "steel", "channel", "wire", "soil")
HEADINGS = {
    "pipe": "Pipe (nominal size is not the outside diameter); I, S, Z of the full wall, new",
    "steel": "Steel",
    "channel": "Strut channel: axis 1 bends toward or away from the slot",
    "wire": "Strand and wire rope: metal area, minimum breaking strength, modulus E",
    "soil": "Soil: the code's allowable values; stiffness k or n z, strength",
}
CAUTION = (
    "Listed values are for new, marked material; measure salvage. Many are from memory of the "
    "standard: check the source before a life hangs on one."
)
DIGITS = 4
LEFT_OUT = {
    "pipe": ("area",),
    "channel": ("depth", "width", "wall", "area"),
    "soil": ("friction", "cohesion"),
}
"""Facts left out to fit 80 letters; a channel's name tells depth, width and gauge."""
NEAR = 0.005
"""Part by which a number asked for may miss the one listed [1] (judgement)."""
_THOUSANDS = re.compile(r"(?<=[0-9]),(?=[0-9]{3}(?![0-9]))")
_MIXED = re.compile(r"([0-9]+) ([0-9]+/[0-9]+)")
Fact = tuple[str, float, str]
"""Label, value in SI, and kind of quantity (see `frame.units.show`)."""


@dataclass(frozen=True, slots=True)
class CatalogEntry:
    """One entry of the catalog: `kind` is one of KINDS; `note` says what no number can."""

    kind: str
    name: str
    facts: tuple[Fact, ...]
    source: str
    note: str = ""


@cache
def entries() -> tuple[CatalogEntry, ...]:
    """Return every entry, by kind."""
    return (
        *map(_pipe, pipes.pipes()),
        *map(_steel, steels.steels()),
        *map(_channel, channels.channels()),
        *map(_wire, wires.wires()),
        *map(_soil, soils.soils()),
    )


def search_catalog(words: Iterable[str], kind: str | None = None) -> tuple[CatalogEntry, ...]:
    """Return the entries that have every one of `words`; no words find all.

    A word matches the start of a word of the kind, the name or the note, a number a whole one. A
    number also finds pipe of that outside diameter, unless the words say "nominal". Where no entry
    has them so, the heads of the columns, their numbers in either units and the sources are
    searched too.
    """
    wanted = _words(" ".join(words))
    among = [entry for entry in entries() if kind in (None, entry.kind)]
    measured = "nominal" not in wanted
    called = tuple(e for e in among if all(_has(e, w, measured=measured) for w in wanted))
    if called:
        return called
    return tuple(e for e in among if all(_has_anywhere(e, word) for word in wanted))


def page(found: Iterable[CatalogEntry], system: str) -> Group:
    """Return a table per kind found with its sources, in units of `system` ("us" or "metric")."""
    by_kind: dict[str, list[CatalogEntry]] = {}
    for entry in found:
        by_kind.setdefault(entry.kind, []).append(entry)
    parts: list[RenderableType] = []
    for kind, group in by_kind.items():
        notes = [f"  {n}: {source}" for n, source in enumerate(sources(group), start=1)]
        parts += [
            Text(HEADINGS[kind], style="bold"),
            _table(group, system),
            Text("\n".join(notes)),
            "",
        ]
    return Group(*parts, Text(CAUTION, style="italic"))


def sources(found: Iterable[CatalogEntry]) -> tuple[str, ...]:
    """Return the sources of the entries found, each once."""
    return tuple(dict.fromkeys(entry.source for entry in found))


def nothing_found(words: Iterable[str]) -> str:
    """Return the message for a search without a find."""
    return f'no "{" ".join(words)}" in the catalog; use fewer words, or list all: rack catalog'


def as_data(found: Iterable[CatalogEntry]) -> dict[str, object]:
    """Return the entries for JSON: SI values by label, null where one does not apply."""
    return {
        "schema": 1,
        "caution": CAUTION,
        "entries": [
            {
                "kind": entry.kind,
                "name": entry.name,
                "note": entry.note,
                "facts": [
                    {"label": n, "value": v or None, "quantity": q} for n, v, q in entry.facts
                ],
                "source": entry.source,
            }
            for entry in found
        ],
    }


def _words(text: str) -> list[str]:
    """Split a text into words, a mixed number staying one word."""
    return _MIXED.sub(r"\1-\2", plain_name(_THOUSANDS.sub("", text))).split()


def _has(entry: CatalogEntry, word: str, *, measured: bool) -> bool:
    words = _words(f"{entry.kind} {entry.name} {entry.note}")
    if not word[0].isdigit():
        return any(other.startswith(word) for other in words)
    if word in words:
        return True
    if not measured or entry.kind != "pipe":
        return False
    try:
        size = plain_number(word) * INCH
    except ValueError:
        return False
    return abs(entry.facts[0][1] - size) <= pipes.TAPE


def _has_anywhere(entry: CatalogEntry, word: str) -> bool:
    """Whether a word stands in any column of an entry, its head or its source."""
    try:
        number = plain_number(f"0{word}" if word.startswith(".") else word)
    except ValueError:
        return word in _heads_and_sources(entry) or _has(entry, word, measured=False)
    told = (
        show_number(v, q, s, DIGITS)
        for _, v, q in entry.facts
        if v and math.isfinite(v)
        for s in (US, METRIC)
    )
    near = (float(shown.replace(",", "")) for shown in told)
    return _has(entry, word, measured=True) or any(
        math.isclose(number, shown, rel_tol=NEAR) for shown in near
    )


@cache
def _heads_and_sources(entry: CatalogEntry) -> frozenset[str]:
    units = (
        head_unit(quantity, system) for _, _, quantity in entry.facts for system in (US, METRIC)
    )
    heads = (label for label, _, _ in entry.facts)
    return frozenset(_words(" ".join((*heads, *units, entry.source))))


def _table(group: list[CatalogEntry], system: str) -> Table:
    """Return the table of entries of one kind; the last column is the number of the source."""
    table = Table(box=SIMPLE_HEAD, show_edge=False, pad_edge=False, padding=(0, 1, 0, 0))
    columns = _columns(group[0])
    table.add_column("name", no_wrap=True)
    for label, quantity in columns.items():
        table.add_column(f"{label}\n{head_unit(quantity, system)}", justify="right")
    noted = any(entry.note for entry in group)
    if noted:
        table.add_column("note")
    table.add_column("src", justify="right")
    numbers = {source: str(n) for n, source in enumerate(sources(group), start=1)}
    for entry in group:
        cells = [_cell(entry, label, system) for label in columns]
        note = [entry.note] if noted else []
        table.add_row(entry.name, *cells, *note, numbers[entry.source])
    return table


def _columns(entry: CatalogEntry) -> dict[str, str]:
    """Return the label and kind of quantity of each column; "from" and "to" share one."""
    left_out = LEFT_OUT.get(entry.kind, ())
    return {_stem(label): q for label, _, q in entry.facts if label not in left_out}


def _cell(entry: CatalogEntry, column: str, system: str) -> str:
    """Return a value, or "low to high"; a dash where it does not apply."""
    values = [
        show_number(value, quantity, system, DIGITS) if value else "-"
        for label, value, quantity in entry.facts
        if _stem(label) == column
    ]
    return " to ".join(dict.fromkeys(values))


def _stem(label: str) -> str:
    return label.removesuffix(" from").removesuffix(" to")


def _pipe(pipe: pipes.PipeSize) -> CatalogEntry:
    tube = Tube(pipe.od, pipe.wall)
    return CatalogEntry(
        "pipe",
        pipe.name,
        (
            ("outside", pipe.od, "thickness"),
            ("wall", pipe.wall, "thickness"),
            ("weight", pipe.weight, "weight per length"),
            ("area", tube.area, "area"),
            ("I", tube.second_moment, "second moment"),
            ("S", tube.elastic_modulus, "section modulus"),
            ("Z", tube.plastic_modulus, "section modulus"),
        ),
        pipe.source,
    )


def _steel(steel: steels.Steel) -> CatalogEntry:
    note = "" if steel.identified else "an estimate; the code bars it from main members"
    facts = (("yield Fy", steel.fy, "stress"), ("tensile Fu", steel.fu, "stress"))
    return CatalogEntry("steel", steel.name, facts, steel.source, note)


def _channel(channel: channels.Channel) -> CatalogEntry:
    return CatalogEntry(
        "channel",
        channel.name,
        (
            ("depth", channel.depth, "thickness"),
            ("width", channel.width, "thickness"),
            ("wall", channel.wall, "thickness"),
            ("weight", channel.weight, "weight per length"),
            ("area", channel.area, "area"),
            ("I1", channel.I1, "second moment"),
            ("S1", channel.S1, "section modulus"),
            ("I2", channel.I2, "second moment"),
            ("S2", channel.S2, "section modulus"),
        ),
        channel.source,
    )


def _wire(wire: wires.Wire) -> CatalogEntry:
    return CatalogEntry(
        "wire",
        wire.name,
        (
            ("area", wire.area, "area"),
            ("weight", wire.weight, "weight per length"),
            ("breaking", wire.breaking, "force"),
            ("E from", wire.E_low, "modulus"),
            ("E to", wire.E_high, "modulus"),
        ),
        wire.source,
    )


def _soil(soil: soils.Soil) -> CatalogEntry:
    constant = soil.law == soils.CONSTANT
    k = (soil.stiffness_soft, soil.stiffness_stiff) if constant else (0.0, 0.0)
    n = (0.0, 0.0) if constant else (soil.stiffness_soft, soil.stiffness_stiff)
    return CatalogEntry(
        "soil",
        soil.name,
        (
            ("bearing", soil.vertical, "pressure"),
            ("lateral", soil.lateral, "pressure per depth"),
            ("friction", soil.friction, "number"),
            ("cohesion", soil.cohesion, "pressure"),
            ("k from", k[0], "stiffness per length"),
            ("k to", k[1], "stiffness per length"),
            ("n from", n[0], "stiffness per depth"),
            ("n to", n[1], "stiffness per depth"),
            ("cu from", soil.cu_soft, "pressure"),
            ("cu to", soil.cu_stiff, "pressure"),
            ("phi from", soil.phi_soft, "angle"),
            ("phi to", soil.phi_stiff, "angle"),
        ),
        soil.source,
    )
