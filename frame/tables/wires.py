"""Strand and wire rope for guys."""

from dataclasses import dataclass
from functools import cache

from frame.errors import CatalogError
from frame.tables.lookup import entry_called, plain_name
from frame.tables.reader import rows, si

CAST_CLIPS = "cast clips"
CLIPS = ("forged clips", CAST_CLIPS)
"""Terminations made with clips."""
UNMARKED = "unmarked"
"""Construction of cable without a standard's mark; taken as the weakest strand of its size."""


@dataclass(frozen=True, slots=True)
class Wire:
    """A strand or rope.

    `construction` is "1x7 strand", "7x7 rope", "7x19 rope" or "unmarked"; `diameter` [m]; metal
    `area` [m2]; `breaking` minimum breaking strength [N]; `E_low`, `E_high` [Pa] bracket the
    modulus on the metal area (low for movement, high for the guy's share); `weight` [N/m].
    """

    name: str
    construction: str
    diameter: float
    area: float
    breaking: float
    E_low: float
    E_high: float
    weight: float
    source: str

    @property
    def strand(self) -> bool:
        """Whether it is strand, stiff and of few wires, not rope; unmarked cable may be either."""
        return self.construction.endswith("strand")

    @property
    def extra_high(self) -> bool:
        """Whether it is strand of extra high strength."""
        return self.strand and " EHS " in self.name


@cache
def wires() -> tuple[Wire, ...]:
    """Return every strand and rope listed."""
    return tuple(
        Wire(
            name=row["name"],
            construction=row["construction"],
            diameter=si(row, "diameter_in"),
            area=si(row, "area_in2"),
            breaking=si(row, "breaking_lb"),
            E_low=si(row, "E_low_ksi"),
            E_high=si(row, "E_high_ksi"),
            weight=si(row, "weight_lb_per_ft"),
            source=row["source"],
        )
        for row in rows("wires")
    )


def find(name: str) -> Wire:
    """Return a strand or rope by name, for example "1/4 in EHS strand"."""
    spelt = plain_name(name).replace("extra high strength", "ehs").replace("siemens martin", "sm")
    spelt = " ".join(
        "rope" if w == "cable" and "unmarked" not in spelt else w for w in spelt.split()
    )
    found = [w for w in wires() if spelt in _names(w)]
    if len(found) == 1:
        return found[0]
    size = spelt.split(" ", maxsplit=1)[0]
    same = [w.name for w in wires() if plain_name(w.name).split()[0] == size]
    if same and set(spelt.split()[1:]) <= {"strand", "rope", "wire", "guy", "steel", "galvanized"}:
        listed = ", ".join(f'"{n}"' for n in same)
        raise CatalogError(f'"{name}" does not say which wire; write one of {listed}')
    return entry_called(name, wires(), "strand or rope")


def _names(wire: Wire) -> tuple[str, ...]:
    full = plain_name(wire.name).replace("siemens martin", "sm")
    return (full, full.removesuffix(" strand").removesuffix(" rope"))
