"""Soils: allowable values of the building code, and brackets of stiffness and strength."""

import math
from dataclasses import dataclass, replace
from functools import cache

from frame.errors import CatalogError
from frame.tables.lookup import entry_called, plain_name
from frame.tables.reader import rows, si
from frame.units import PCF

CONSTANT = "constant"
WATER_UNIT_WEIGHT = 62.4 * PCF
"""Unit weight of fresh water [N/m3]."""
CONCRETE_UNIT_WEIGHT = 145 * PCF
"""Unit weight of plain concrete, low end of the usual 145 to 150 pcf [N/m3] (judgement)."""


@dataclass(frozen=True, slots=True)
class Soil:
    """A soil, by the classes of IBC 2021 Table 1806.2.

    Allowable values: `vertical` bearing [Pa], `lateral` bearing per depth [Pa/m], `friction` [1],
    `cohesion` [Pa]. Subgrade reaction of a post: `law` "constant" (force per length per
    displacement, `stiffness_soft` to `stiffness_stiff` [N/m2], all depths) or "linear" (n z, with
    n from `stiffness_soft` to `stiffness_stiff` [N/m3], whatever the width). Soft is loose or wet,
    stiff is dense or dry. Ultimate strength: undrained `cu_soft`, `cu_stiff` [Pa]; angle of
    friction `phi_soft`, `phi_stiff` [rad]; `cu_expected`, `phi_expected` are what half of such
    ground exceeds, neither wet nor dry; 0 where it does not apply. `unit_weight_wet` is the
    buoyant weight of waterlogged soil, `unit_weight_dry` that of moist soil above water [N/m3].
    `friction_expected`: of concrete on such ground [1]. `stiffness_middle`: what was found on the
    site between the two, 0 for their geometric middle.
    """

    name: str
    ibc_class: int
    vertical: float
    lateral: float
    friction: float
    friction_expected: float
    cohesion: float
    law: str
    stiffness_soft: float
    stiffness_stiff: float
    cu_soft: float
    cu_stiff: float
    cu_expected: float
    phi_soft: float
    phi_stiff: float
    phi_expected: float
    unit_weight_wet: float
    unit_weight_dry: float
    source: str
    stiffness_middle: float = 0.0


def on_site(soil: Soil, factor: float) -> Soil:
    """Return a soil whose stiffness was found `factor` [1] times the middle of its kind.

    The ends take it in but are never drawn in: the ground was read on one day, wet or dry.
    """
    middle = factor * math.sqrt(soil.stiffness_soft * soil.stiffness_stiff)
    return replace(
        soil,
        stiffness_soft=min(soil.stiffness_soft, middle),
        stiffness_stiff=max(soil.stiffness_stiff, middle),
        stiffness_middle=middle,
    )


@cache
def soils() -> tuple[Soil, ...]:
    """Return every soil listed."""
    return tuple(_soil(row) for row in rows("soils"))


def unsuitable(name: str) -> str:
    """Return why no rule can say what ground of that name bears, "" if it is not such ground.

    Fill, peat, mud, topsoil: IBC 2021 1806.2 gives them no presumptive value, and lateral bearing
    is nil. Soft clay has less strength than is counted on for clay.
    """
    wanted = plain_name(name)
    for row in rows("soils_unsuitable"):
        if wanted in (plain_name(row["name"]), *map(plain_name, row["other_names"].split(";"))):
            return row["reason"]
    return ""


def find(name: str) -> Soil:
    """Return a soil by name or by another word for it ("silt" is treated as clay).

    Raises CatalogError for another name, with the reason for ground that is `unsuitable`.
    """
    if reason := unsuitable(name):
        raise CatalogError(
            f'"{name}" is no ground to reckon with: {reason}; dig down to firm ground and name '
            "that, or have the soil tested"
        )
    others = {
        plain_name(other): row["name"]
        for row in rows("soils")
        for other in filter(None, row["other_names"].split(";"))
    }
    return entry_called(name, soils(), "soil", others)


def _soil(row: dict[str, str]) -> Soil:
    law = row["law"]
    unit = "psf" if law == CONSTANT else "pci"
    return Soil(
        name=row["name"],
        ibc_class=int(row["ibc_class"]),
        vertical=si(row, "vertical_psf"),
        lateral=si(row, "lateral_psf_per_ft"),
        friction=si(row, "friction"),
        friction_expected=float(row["friction_expected"]),
        cohesion=si(row, "cohesion_psf"),
        law=law,
        stiffness_soft=si(row, f"soft_{unit}"),
        stiffness_stiff=si(row, f"stiff_{unit}"),
        cu_soft=si(row, "cu_soft_psf"),
        cu_stiff=si(row, "cu_stiff_psf"),
        cu_expected=si(row, "cu_expected_psf"),
        phi_soft=si(row, "phi_soft_deg"),
        phi_stiff=si(row, "phi_stiff_deg"),
        phi_expected=si(row, "phi_expected_deg"),
        unit_weight_wet=si(row, "unit_weight_wet_pcf"),
        unit_weight_dry=si(row, "unit_weight_dry_pcf"),
        source=row["source"],
    )
