"""Set screws, threads, bolt grades and how rough the clamped faces are."""

from dataclasses import dataclass, replace
from functools import cache

from frame.errors import CatalogError
from frame.tables.lookup import entry_called
from frame.tables.reader import rows, si

SAME_SIZE = 1.001
"""How much a listed diameter may exceed the one asked for and still be it."""


@dataclass(frozen=True, slots=True)
class SetScrew:
    """A cup-point set screw on mild steel, seated to `torque` [N m].

    `hold` is the holding force of the lower published chart and the one to use on a pipe wall,
    `hold_textbook` that of the textbook [N]; both at slip, without a safety factor.
    """

    name: str
    diameter: float
    torque: float
    hold: float
    hold_textbook: float
    source: str


@dataclass(frozen=True, slots=True)
class Thread:
    """A coarse thread: `diameter` [m] and tensile `stress_area` [m2]."""

    name: str
    diameter: float
    stress_area: float
    source: str


@dataclass(frozen=True, slots=True)
class BoltGrade:
    """Bolt or rod steel: `fu`, and nominal stresses `tension`, `shear` on the body area [Pa].

    `expected_fu`, `expected_shear` [Pa]: what half of such bolts exceed, shear in the body.
    """

    name: str
    fu: float
    tension: float
    shear: float
    expected_fu: float
    expected_shear: float
    source: str


@cache
def set_screws() -> tuple[SetScrew, ...]:
    """Return the set screws listed, smallest first."""
    return tuple(
        SetScrew(
            name=row["name"],
            diameter=si(row, "diameter_in"),
            torque=si(row, "torque_in_lb"),
            hold=si(row, "hold_lb"),
            hold_textbook=si(row, "hold_textbook_lb"),
            source=row["source"],
        )
        for row in rows("set_screws")
    )


@cache
def threads() -> tuple[Thread, ...]:
    """Return the threads listed."""
    return tuple(
        Thread(
            name=row["name"],
            diameter=si(row, "diameter_in") or si(row, "diameter_mm"),
            stress_area=si(row, "stress_area_in2") or si(row, "stress_area_mm2"),
            source=row["source"],
        )
        for row in rows("threads")
    )


@cache
def bolt_grades() -> tuple[BoltGrade, ...]:
    """Return the bolt grades listed."""
    return tuple(
        BoltGrade(
            name=row["name"],
            fu=si(row, "fu_ksi"),
            tension=si(row, "tension_ksi"),
            shear=si(row, "shear_ksi"),
            expected_fu=si(row, "expected_fu_ksi"),
            expected_shear=si(row, "expected_shear_ksi"),
            source=row["source"],
        )
        for row in rows("bolt_grades")
    )


def set_screw(diameter: float) -> SetScrew:
    """Return the set screw of `diameter` [m], between listed sizes on the safe side.

    What a screw holds follows torque over diameter, by a share that jumps from row to row: between
    two rows, and beyond the last, the lesser share of both counts, and no more holding force than
    that of the smaller screw. So its seating torque is found back from both.
    """
    fitting = [screw for screw in set_screws() if screw.diameter <= diameter * SAME_SIZE]
    if not fitting:
        raise CatalogError(
            f"no set screw under {set_screws()[0].name} is listed; use a bigger one"
        )
    row = fitting[-1]
    if diameter <= row.diameter * SAME_SIZE:
        return row
    beside = (row, *(screw for screw in set_screws() if screw.diameter > row.diameter))[:2]
    share = min(screw.hold * screw.diameter / screw.torque for screw in beside)
    return replace(row, diameter=diameter, torque=row.hold * diameter / share)


def thread(diameter: float) -> Thread:
    """Return the largest listed thread, inch or metric, not bigger than `diameter` [m]."""
    fitting = [one for one in threads() if one.diameter <= diameter * SAME_SIZE]
    if not fitting:
        raise CatalogError("no bolt under M6 is listed; use a bigger one")
    return max(fitting, key=lambda one: one.diameter)


def find_grade(name: str) -> BoltGrade:
    """Return a bolt grade by name: "A307" or "unmarked"."""
    return entry_called(name, bolt_grades(), "bolt grade")
