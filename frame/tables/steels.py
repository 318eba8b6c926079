"""Steels: strengths by standard and grade, and what to assume of unidentified steel."""

from dataclasses import dataclass
from functools import cache

from frame.tables.lookup import entry_called, plain_name
from frame.tables.reader import rows, si


@dataclass(frozen=True, slots=True)
class Steel:
    """A steel: least yield `fy` and tensile strength `fu` [Pa]; `identified` False if unknown.

    `expected_fy` [Pa]: the yield that half of such steel exceeds.
    """

    name: str
    fy: float
    fu: float
    expected_fy: float
    identified: bool
    source: str


@dataclass(frozen=True, slots=True)
class Material:
    """Structural steel as a material: `E`, `G` [Pa], `unit_weight` [N/m3], `alpha` [1/K]."""

    E: float
    G: float
    unit_weight: float
    alpha: float
    source: str


@cache
def steels() -> tuple[Steel, ...]:
    """Return every steel listed."""
    return tuple(
        Steel(
            name=row["name"],
            fy=si(row, "fy_ksi"),
            fu=si(row, "fu_ksi"),
            expected_fy=si(row, "expected_fy_ksi"),
            identified=row["identified"] == "yes",
            source=row["source"],
        )
        for row in rows("steels")
    )


@cache
def material() -> Material:
    """Return the elastic properties of structural steel."""
    (row,) = rows("material")
    return Material(
        E=si(row, "E_ksi"),
        G=si(row, "G_ksi"),
        unit_weight=si(row, "unit_weight_pcf"),
        alpha=si(row, "alpha_per_f"),
        source=row["source"],
    )


def welding_advice(name: str) -> str:
    """Return how to weld a steel of this catalog name: preheat and rod, as advice."""
    for row in rows("welding_advice"):
        if any(name.startswith(start) for start in row["steel"].split(";")):
            return row["advice"]
    return ""


def find(name: str) -> Steel:
    """Return a steel by name; "ASTM A53 grade B", "A53 Gr. B" and "J55" are understood."""
    words = [
        w for w in plain_name(name).split() if w not in ("astm", "grade", "gr", "gr.", "steel")
    ]
    others = {spelt: row["name"] for row in rows("steels") for spelt in _spellings(row)}
    return entry_called(others.get("".join(words), name), steels(), "steel")


def _spellings(row: dict[str, str]) -> list[str]:
    names = [row["name"], *filter(None, row["other_names"].split(";"))]
    return ["".join(plain_name(name).split()) for name in names]
